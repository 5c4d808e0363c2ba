#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "records/course.h"
#include "records/names.h"
#include "records/method.h"
#include "units/amounts.h"
#include "units/climate.h"
#include "units/day.h"

// What a keeper can put on record. Facts are dated, appended and never overwritten; a mistake is put right by
// a new entry that corrects the old one.
namespace mitefall::records {

struct Climate {
    units::Temperature day;
    units::Temperature night;
    units::Humidity humidity;
    friend bool operator==(const Climate&, const Climate&) = default;
};

struct RoomAdded {
    RoomId room;
    std::string name;
    Climate climate;
    std::vector<RoomId> adjoining;
    units::Area floor;
    friend bool operator==(const RoomAdded&, const RoomAdded&) = default;
};

struct EnclosureAdded {
    EnclosureId enclosure;
    std::string name;
    RoomId room;
    Material material = Material::sealed;
    Substrate substrate = Substrate::paper;
    Climate climate;
    units::Area floor;  ///< inner floor area
    friend bool operator==(const EnclosureAdded&, const EnclosureAdded&) = default;
};

/// An animal enters the collection. `taxon` is as the keeper writes it; empty if unknown.
struct AnimalArrived {
    AnimalId animal;
    std::string name;
    std::string taxon;
    std::string origin;  ///< "hatched here", "from a breeder", ...
    EnclosureId enclosure;
    bool quarantine = false;
    friend bool operator==(const AnimalArrived&, const AnimalArrived&) = default;
};

/// Other life that shares the air: dogs, cats, fish, amphibians, invertebrates. Empty room: the whole house.
struct BystanderNoted {
    std::string name;
    std::string taxon;
    RoomId room;
    friend bool operator==(const BystanderNoted&, const BystanderNoted&) = default;
};

struct AnimalMoved {
    AnimalId animal;
    EnclosureId to;
    bool knowing = false;             ///< it was warned of, and recorded all the same
    std::string knowing_reason = {};  ///< why all the same; may be empty
    friend bool operator==(const AnimalMoved&, const AnimalMoved&) = default;
};

struct AnimalLeft {
    AnimalId animal;
    std::string reason;
    bool knowing = false;             ///< as of AnimalMoved
    std::string knowing_reason = {};  ///< as of AnimalMoved
    friend bool operator==(const AnimalLeft&, const AnimalLeft&) = default;
};

/// Animals handled one after another, in this order, without washing hands between.
struct Handled {
    std::vector<AnimalId> animals;
    bool shared_bag = false;  ///< they were also put into the same bag or tub
    friend bool operator==(const Handled&, const Handled&) = default;
};

/// A tool, hide or water bowl used in one enclosure and then in another.
struct ItemShared {
    std::string item;
    EnclosureId from;
    EnclosureId to;
    friend bool operator==(const ItemShared&, const ItemShared&) = default;
};

struct Weighed {
    AnimalId animal;
    units::Mass mass;
    friend bool operator==(const Weighed&, const Weighed&) = default;
};

struct ShedSeen {
    AnimalId animal;
    ShedState state = ShedState::shed;
    friend bool operator==(const ShedSeen&, const ShedSeen&) = default;
};

/// A condition begins, or ends when `present` is false. `agent` names what the animal reacted to.
struct ConditionNoted {
    AnimalId animal;
    Condition condition = Condition::sick;
    bool present = true;
    std::string agent;
    std::string note;
    friend bool operator==(const ConditionNoted&, const ConditionNoted&) = default;
};

struct Sighted {
    EnclosureId enclosure;
    SeenCount count = SeenCount::one;
    SeenWhere where = SeenWhere::on_animal;
    friend bool operator==(const Sighted&, const Sighted&) = default;
};

struct Checked {
    EnclosureId enclosure;
    CheckMethod method = CheckMethod::look_over;
    SeenCount count = SeenCount::none;
    std::optional<SeenWhere> where = {};  ///< none: where one looks by that method
    friend bool operator==(const Checked&, const Checked&) = default;
};

/// A treatment as it was given. Which treatments may be proposed is another matter: see safety/.
struct Treated {
    EnclosureId enclosure;
    std::vector<AnimalId> animals;  ///< empty: the enclosure only
    Method method = Method::change_substrate;
    units::Strength strength;  ///< zero where the method has none
    friend bool operator==(const Treated&, const Treated&) = default;
};

struct SubstrateChanged {
    EnclosureId enclosure;
    Substrate to = Substrate::paper;
    friend bool operator==(const SubstrateChanged&, const SubstrateChanged&) = default;
};

struct WaterMoved {
    EnclosureId enclosure;
    bool out = true;  ///< false: put back
    friend bool operator==(const WaterMoved&, const WaterMoved&) = default;
};

/// What a veterinarian directed, in the keeper's words, and how far it goes.
struct VetDirection {
    AnimalId animal;
    Method method = Method::spray_animal;
    std::string who;
    std::string text;
    units::Strength strength = {};  ///< the strongest it names; zero: it names none
    int treatments = 0;             ///< how many it names; zero: it names no number
    friend bool operator==(const VetDirection&, const VetDirection&) = default;
};

/// The keeper has read what a strength above the published range means for this animal and accepts it. No
/// animal: as it was recorded for a whole collection, which holds for places where no animal lives.
struct StrengthAcknowledged {
    units::Strength strength;
    AnimalId animal = {};
    friend bool operator==(const StrengthAcknowledged&, const StrengthAcknowledged&) = default;
};

/// The course the keeper has chosen to follow.
struct PlanAdopted {
    std::vector<units::Day> rounds;
    std::vector<EnclosureId> enclosures;  ///< those treated
    std::vector<RoomId> rooms;            ///< rooms whose floor and racks are treated
    bool change_substrate = false;
    bool keep_damp = false;
    units::Strength strength;
    bool soak_animals = false;  ///< in plain water, instead of the spray
    CourseTerms terms = {};
    bool continues = false;              ///< the course before it, with other days: not a new one
    std::vector<MovedRound> moved = {};  ///< of it, those begun under another day
    friend bool operator==(const PlanAdopted&, const PlanAdopted&) = default;
};

struct TaskDone {
    std::string task;  ///< key of the task in the worklist
    friend bool operator==(const TaskDone&, const TaskDone&) = default;
};

struct TaskSkipped {
    std::string task;
    std::string reason;
    friend bool operator==(const TaskSkipped&, const TaskSkipped&) = default;
};

/// Withdraws the entry this one corrects, leaving nothing in its place.
struct Withdrawn {
    std::string reason;
    friend bool operator==(const Withdrawn&, const Withdrawn&) = default;
};

/// Floor, racks and walls of a room were treated; the enclosures in it were not.
struct RoomTreated {
    RoomId room;
    units::Strength strength;  ///< zero where it is not known
    friend bool operator==(const RoomTreated&, const RoomTreated&) = default;
};

/// The animal is no longer kept apart.
struct QuarantineEnded {
    AnimalId animal;
    std::string reason = {};  ///< why before the usual time; may be empty
    friend bool operator==(const QuarantineEnded&, const QuarantineEnded&) = default;
};

/// A bottle of spray was mixed. Strengths as measured: the stock may be off by the marks of the tools.
struct BatchMade {
    BatchId batch;
    std::string agent;               ///< active ingredient
    units::Strength stock_strength;  ///< on the label of the stock
    units::Volume stock;             ///< that went in
    units::Volume total;             ///< filled up to
    units::Strength strength;        ///< of the mix
    units::Strength low;
    units::Strength high;
    units::Day discard_by;  ///< last day of use
    std::string steps;      ///< how it was measured, for people
    friend bool operator==(const BatchMade&, const BatchMade&) = default;
};

/// What was left of a batch was disposed of, or the bottle is empty.
struct BatchDiscarded {
    BatchId batch;
    std::string how;
    friend bool operator==(const BatchDiscarded&, const BatchDiscarded&) = default;
};

/// Append only: the place of a kind is used elsewhere.
using Fact =
    std::variant<RoomAdded, EnclosureAdded, AnimalArrived, BystanderNoted, AnimalMoved, AnimalLeft, Handled,
                 ItemShared, Weighed, ShedSeen, ConditionNoted, Sighted, Checked, Treated, SubstrateChanged,
                 WaterMoved, VetDirection, StrengthAcknowledged, PlanAdopted, TaskDone, TaskSkipped,
                 Withdrawn, RoomTreated, QuarantineEnded, BatchMade, BatchDiscarded>;

/// One line of the journal.
struct Entry {
    FactId id = 0;
    units::Day day;           ///< the day the fact is about
    std::string recorded_at;  ///< UTC instant of writing, ISO 8601
    Fact fact;
    std::optional<FactId> corrects;  ///< the earlier entry this one replaces
    bool set_aside = false;          ///< damaged: it is on record and does not count (records/set_aside.h)
    friend bool operator==(const Entry&, const Entry&) = default;
};

}  // namespace mitefall::records
