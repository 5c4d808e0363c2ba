#pragma once

#include <optional>
#include <string>
#include <vector>

#include "records/facts/fact.h"
#include "records/method.h"
#include "records/names.h"
#include "units/amounts.h"

// Looking for mites, and what was done against them.
namespace mitefall::records {

struct Sighted {
    EnclosureId enclosure;
    SeenCount count = SeenCount::one;
    SeenWhere where = SeenWhere::on_animal;

    static constexpr std::string_view kind = "sighted";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("count", fact.count);
        archive.field("where", fact.where);
    }
    [[nodiscard]] static Applied check(const Sighted& fact);
    [[nodiscard]] static Applied apply(const Sighted& fact, const Effect& effect);
    friend bool operator==(const Sighted&, const Sighted&) = default;
};

struct Checked {
    EnclosureId enclosure;
    CheckMethod method = CheckMethod::look_over;
    SeenCount count = SeenCount::none;
    std::optional<SeenWhere> where = {};  ///< none: where one looks by that method

    static constexpr std::string_view kind = "checked";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("method", fact.method);
        archive.field("count", fact.count);
        archive.later_field(or_null("where"), fact.where);
    }
    [[nodiscard]] static Applied check(const Checked& fact);
    [[nodiscard]] static Applied apply(const Checked& fact, const Effect& effect);
    friend bool operator==(const Checked&, const Checked&) = default;
};

/// From this day a paper trap lies in each enclosure with animals, and is read every so many days.
struct TrapRoutine {
    int every_days = 30;  ///< zero: no longer

    static constexpr std::string_view kind = "trap-routine";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("every_days", fact.every_days);
    }
    [[nodiscard]] static Applied check(const TrapRoutine& fact);
    [[nodiscard]] static Applied check_amounts(const TrapRoutine& fact) { return check(fact); }
    [[nodiscard]] static Applied apply(const TrapRoutine& fact, const Effect& effect);
    friend bool operator==(const TrapRoutine&, const TrapRoutine&) = default;
};

/// A treatment as it was given. Which treatments may be proposed is another matter: see safety/.
struct Treated {
    EnclosureId enclosure;
    std::vector<AnimalId> animals;  ///< empty: the enclosure only
    Method method = Method::change_substrate;
    units::Strength strength;  ///< zero where the method has none

    static constexpr std::string_view kind = "treated";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("animals", fact.animals);
        archive.field("method", fact.method);
        archive.field(or_null("strength_mg_per_l"), fact.strength);
    }
    [[nodiscard]] static Applied check(const Treated& fact);
    [[nodiscard]] static Applied check_amounts(const Treated& fact);
    [[nodiscard]] static Applied apply(const Treated& fact, const Effect& effect);
    friend bool operator==(const Treated&, const Treated&) = default;
};

/// Floor, racks and walls of a room were treated; the enclosures in it were not.
struct RoomTreated {
    RoomId room;
    units::Strength strength;  ///< zero where it is not known

    static constexpr std::string_view kind = "room-treated";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("room", fact.room);
        archive.field(or_null("strength_mg_per_l"), fact.strength);
    }
    [[nodiscard]] static Applied check(const RoomTreated& fact);
    [[nodiscard]] static Applied check_amounts(const RoomTreated& fact) { return check(fact); }
    [[nodiscard]] static Applied apply(const RoomTreated& fact, const Effect& effect);
    friend bool operator==(const RoomTreated&, const RoomTreated&) = default;
};

/// What a veterinarian directed, in the keeper's words, and how far it goes.
struct VetDirection {
    AnimalId animal;
    Method method = Method::spray_animal;
    std::string who;
    std::string text;
    units::Strength strength = {};  ///< the strongest it names; zero: it names none
    int treatments = 0;             ///< how many it names; zero: it names no number

    static constexpr std::string_view kind = "vet-direction";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("method", fact.method);
        archive.field("who", fact.who);
        archive.field("text", fact.text);
        archive.later_field(or_null("up_to_mg_per_l"), fact.strength);
        archive.later_field(or_null("treatments"), fact.treatments);
    }
    [[nodiscard]] static Applied check(const VetDirection& fact);
    [[nodiscard]] static Applied check_amounts(const VetDirection& fact);
    [[nodiscard]] static Applied apply(const VetDirection& fact, const Effect& effect);
    friend bool operator==(const VetDirection&, const VetDirection&) = default;
};

/// The keeper has read what a strength above the published range means for this animal and accepts it. No
/// animal: as it was recorded for a whole collection, which holds for places where no animal lives.
struct StrengthAcknowledged {
    units::Strength strength;
    AnimalId animal = {};

    static constexpr std::string_view kind = "strength-acknowledged";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field(or_null("strength_mg_per_l"), fact.strength);
        archive.later_field(or_null("animal"), fact.animal);
    }
    [[nodiscard]] static Applied check(const StrengthAcknowledged& fact);
    [[nodiscard]] static Applied check_amounts(const StrengthAcknowledged& fact);
    [[nodiscard]] static Applied apply(const StrengthAcknowledged& fact, const Effect& effect);
    friend bool operator==(const StrengthAcknowledged&, const StrengthAcknowledged&) = default;
};

/// The veterinarian of the collection, to be rung. Named again: another one, or another number.
struct VeterinarianNamed {
    std::string who;
    std::string telephone;  ///< as it is written down: digits and spaces, "+" in front (E.123)

    static constexpr std::string_view kind = "veterinarian-named";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("who", fact.who);
        archive.field("telephone", fact.telephone);
    }
    [[nodiscard]] static Applied check(const VeterinarianNamed& fact);
    [[nodiscard]] static Applied apply(const VeterinarianNamed& fact, const Effect& effect);
    friend bool operator==(const VeterinarianNamed&, const VeterinarianNamed&) = default;
};

using TreatmentFacts = KindList<Sighted, Checked, TrapRoutine, Treated, RoomTreated, VetDirection,
                                StrengthAcknowledged, VeterinarianNamed>;

}  // namespace mitefall::records
