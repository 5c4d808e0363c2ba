#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/vocabulary.h"
#include "plan/schedule.h"
#include "safety/water.h"

namespace mitefall::worklist {

enum class TaskKind {
    hygiene,  ///< change gloves, wash hands, change clothes; needs no tick
    mix,      ///< make today's spray
    water_out,
    drink,     ///< outside the enclosure, while the dish is out
    treat,     ///< a permitted treatment
    redampen,  ///< wet the paper again with the spray
    water_back,
    thing,    ///< free a thing of mites, or throw it away
    old_tub,  ///< wash what an animal was carried out of
    check,    ///< look for mites
    vet,      ///< ring the veterinarian
    dry_tub,  ///< an animal that reacted goes somewhere clean and dry
    wood,     ///< a wooden enclosure that stands empty for the course
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(TaskKind) {
    using enum TaskKind;
    return base::vocabulary("kind of task", hygiene, "hygiene", mix, "mix", water_out, "water-out", drink,
                            "drink", treat, "treat", redampen, "redampen", water_back, "water-back", thing,
                            "thing", old_tub, "old-tub", check, "check", vet, "vet", dry_tub, "dry-tub", wood,
                            "wood");
}

enum class TaskState { open, done, skipped };
[[nodiscard]] constexpr auto vocabulary_of(TaskState) {
    using enum TaskState;
    return base::vocabulary("state of a task", open, "open", done, "done", skipped, "skipped");
}

/// How close to the mites a place is. Work goes from the first to the last.
enum class Danger { healthy, exposed, sighted };
[[nodiscard]] constexpr auto vocabulary_of(Danger) {
    using enum Danger;
    return base::vocabulary("danger", healthy, "healthy", exposed, "exposed", sighted, "sighted");
}

/// A thing, and how it is freed of mites.
struct ThingToDo {
    records::ThingId id;
    records::ThingMethod method = records::ThingMethod::wash_hot;
};

/// One thing to do. A treatment can only be here as a PermittedTreatment.
struct Task {
    std::string key;  ///< day/part/name; the same on every showing
    TaskKind kind = TaskKind::treat;
    units::Day day;      ///< day it is to be done
    units::Day planned;  ///< day it was planned for; earlier than `day` when late
    records::RoomId room;
    records::EnclosureId enclosure;  ///< empty for a room or the bench
    std::vector<records::AnimalId> animals;
    records::EnclosureId from{};  ///< wood that is emptied: they move out of it
    Danger danger = Danger::healthy;
    statement::Statement what;            ///< to do (work.def). Never an amount: it stands beside
    std::optional<units::Volume> amount;  ///< of spray
    units::Strength strength;             ///< of the spray, zero without one
    std::string agent;                    ///< "ivermectin": what the strength is of; empty without one
    std::optional<safety::PermittedTreatment> treatment;
    std::optional<ThingToDo> thing = {};  ///< of a thing; sprayed only with a permitted treatment
    std::vector<safety::Caution> cautions;
    std::vector<statement::Statement> steps{};  ///< how it is done, in order (steps.h); a help
    records::CheckMethod check = records::CheckMethod::look_over;  ///< of a check: how to look
    bool overdue = false;  ///< of a water dish: it is out for longer than the rules allow
    TaskState state = TaskState::open;
    std::string skipped_because;
    records::FactId entry = 0;  ///< the entry that made it done or skipped; 0 while it is open
};

/// What somebody who looked for mites says: a check is answered, never ticked.
struct CheckAnswer {
    records::SeenCount count = records::SeenCount::none;
    std::optional<records::SeenWhere> where = {};  ///< where they were; only with some
    friend bool operator==(const CheckAnswer&, const CheckAnswer&) = default;
};

}  // namespace mitefall::worklist
