#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "records/facts.h"

namespace mitefall::records {

struct Dated {
    units::Day day;
    FactId entry = 0;
};

template <class T>
struct DatedValue {
    units::Day day;
    FactId entry = 0;
    T value;
};

/// Entries in force that correct others -> the first of their chain: since when the book has had it.
using FirstTold = std::map<FactId, FactId>;

struct Room {
    RoomId id;
    std::string name;
    Climate climate;
    std::vector<RoomId> adjoining;  ///< both directions, sorted
    units::Area floor;
};

/// Days without the water dish.
struct DrySpell {
    units::Day out;
    units::Day back;  ///< the day it was put back
};

/// Where an enclosure stands in its room; levels from the top, positions from the left, both from 1.
struct Stand {
    std::string rack;
    int level = 1;
    int position = 1;
};

struct Enclosure {
    EnclosureId id;
    std::string name;
    RoomId room;
    Material material = Material::sealed;
    Substrate substrate = Substrate::paper;
    Climate climate;
    units::Area floor;
    bool water_is_out = false;
    std::optional<units::Day> water_out_since;
    std::vector<DatedValue<Treated>> treatments{};  ///< of the enclosure or of animals in it, oldest first
    std::vector<DrySpell> dry_spells{};             ///< those that are over, oldest first
    std::vector<Dated> wetted{};                    ///< its paper, again; oldest first
    std::optional<units::Day> substrate_changed{};  ///< the last time
    std::optional<units::Day> looked_at{};          ///< the last check or sighting
    std::optional<Dated> eggs{};                    ///< eggs are in it, since
    std::optional<Stand> stand{};                   ///< none: nobody has said
    std::vector<units::Day> traps_read{};           ///< oldest first
};

/// Where an animal lives from one day to another; both of them belong to it, whatever was first that day.
struct Residence {
    EnclosureId enclosure;
    units::Day from;
    FactId entry = 0;                   ///< of the arrival or move
    std::optional<units::Day> until{};  ///< empty: it lives there
};

struct Animal {
    AnimalId id;
    std::string name;
    std::string taxon;
    std::string origin;
    units::Day arrived;
    EnclosureId enclosure;
    bool quarantine = false;
    std::optional<DatedValue<units::Mass>> weight;       ///< the latest
    std::vector<DatedValue<units::Mass>> weighings{};    ///< all, oldest first
    std::optional<DatedValue<ShedState>> shed;           ///< the latest
    std::vector<DatedValue<ConditionNoted>> conditions;  ///< those present now
    std::vector<DatedValue<AskedState>> unknown{};       ///< asked, and nobody knows yet
    std::vector<DatedValue<Sign>> signs{};               ///< those present now, when each was last seen
    std::optional<units::Day> asked_for_signs{};         ///< the last time somebody looked for them
    std::vector<DatedValue<Treated>> treatments;         ///< given to this animal, oldest first
    std::vector<DatedValue<Treated>> exposures;          ///< treatments of the enclosure it was in that day
    std::vector<DatedValue<VetDirection>> directions;
    std::vector<DatedValue<units::Strength>> acknowledged{};  ///< strengths acknowledged for this animal
    std::optional<units::Day> cloudy_since{};    ///< first day of the spell in which it was last seen cloudy
    std::vector<Residence> stays{};              ///< where it lived, oldest first
    std::vector<DatedValue<MealNoted>> meals{};  ///< eaten, refused and brought up, oldest first
};

/// Kept in an enclosure or a room.
struct Thing {
    ThingId id;
    ThingKind what = ThingKind::hide;
    EnclosureId enclosure;                           ///< empty: of the room
    RoomId room;                                     ///< empty: of the enclosure
    std::optional<ThingMethod> by;                   ///< none: as is usual for its kind
    std::vector<DatedValue<ThingMethod>> treated{};  ///< oldest first
    std::optional<units::Day> gone{};                ///< thrown away or no longer kept
};

/// A bottle to mix from.
struct StockOnRecord {
    DatedValue<StockKept> kept;
    std::optional<units::Day> gone{};
};

/// A bottle of spray.
struct BatchOnRecord {
    DatedValue<BatchMade> made;
    std::optional<DatedValue<BatchDiscarded>> discarded;
};

/// An animal that died, as it was then.
struct Death {
    DatedValue<Animal> died;
    std::optional<DatedValue<DeathAnswered>> answered{};  ///< its company may be treated again
};

/// The collection as it stood at the end of a day. Plain data; animals that left are not in it.
struct Collection {
    units::Day day;
    std::map<RoomId, Room> rooms;
    std::map<EnclosureId, Enclosure> enclosures;
    std::map<AnimalId, Animal> animals;
    std::vector<Death> deaths{};                                ///< oldest first
    std::vector<BystanderNoted> bystanders;                     ///< those that are here
    std::vector<DatedValue<BystanderNoted>> bystanders_away{};  ///< since when
    std::vector<DatedValue<OutsideContact>> outside{};          ///< oldest first
    std::vector<DatedValue<Sighted>> sightings;                 ///< checks that found mites are sightings too
    std::optional<DatedValue<PlanAdopted>> plan;                ///< the latest
    std::optional<units::Day> course_began;       ///< of `plan`, where it only puts another to other days
    std::vector<EmptiedWood> emptied_before{};    ///< wood that courses before `plan` emptied
    std::optional<units::Strength> acknowledged;  ///< highest acknowledged with no animal named
    FirstTold first_told;
    std::map<std::string, DatedValue<TaskDone>> done;
    std::map<std::string, DatedValue<TaskSkipped>> skipped;
    std::map<StockId, StockOnRecord> stocks{};  ///< those that are gone too
    std::map<BatchId, BatchOnRecord> batches;
    std::map<ThingId, Thing> things{};                            ///< those that are gone too
    std::optional<DatedValue<TrapRoutine>> trap_routine{};        ///< as long as it is kept
    std::optional<DatedValue<VeterinarianNamed>> veterinarian{};  ///< the latest
    std::vector<FactId> unsettled{};  ///< entries set aside that may bear on what an animal may be given

    /// The day on which the course in force was adopted, whatever became of its days since.
    [[nodiscard]] std::optional<units::Day> course_since() const {
        return plan ? std::optional(course_began.value_or(plan->day)) : std::nullopt;
    }

    /// Whether somebody is to say, on the day, if the animal shows signs: mites were looked for or seen where
    /// it lives, or it reacted, and nobody has said so yet.
    [[nodiscard]] bool asks_for_signs(const Animal& animal) const;

    [[nodiscard]] std::vector<const Animal*> animals_in(const EnclosureId& enclosure) const;
    [[nodiscard]] std::vector<const Enclosure*> enclosures_in(const RoomId& room) const;
};

/// The entries in force: corrected ones replaced or gone, ordered by day, then by number. A correction keeps
/// its own number and day but stands, within that day, where the entry it replaces stood: a room put right
/// still comes before the enclosures entered after it on the same day.
[[nodiscard]] std::vector<Entry> in_force(std::span<const Entry> journal);

/// Folds the journal into the collection at the end of `day`. The journal must have been accepted entry by
/// entry (see `check_fact`), or what does not fit it set aside (records/set_aside.h); an entry that
/// contradicts the rest throws ContractViolation.
[[nodiscard]] Collection collection_on(std::span<const Entry> journal, units::Day day);
/// The same at the end of each of `days`, ascending, in one walk along the journal.
[[nodiscard]] std::vector<Collection> collections_on(std::span<const Entry> journal,
                                                     std::span<const units::Day> days);

/// Whether the fact may be appended: names exist, amounts are possible, nothing is contradicted. `today`
/// bounds the day (facts of the future are refused). The error says what to do.
[[nodiscard]] base::Result<void> check_fact(std::span<const Entry> journal, const Entry& entry,
                                            units::Day today);

/// The same for many entries appended together, in this order, with one fold for all of them. Entries whose
/// id is 0 are numbered on from the journal.
[[nodiscard]] base::Result<void> check_facts(std::span<const Entry> journal, std::span<const Entry> added,
                                             units::Day today);

}  // namespace mitefall::records
