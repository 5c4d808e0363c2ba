#pragma once

#include <string>
#include <vector>

#include "records/course.h"
#include "records/facts/fact.h"
#include "units/amounts.h"

// The course that was adopted, and what became of its tasks.
namespace mitefall::records {

/// The course the keeper has chosen to follow.
struct PlanAdopted {
    std::vector<units::Day> rounds;
    std::vector<EnclosureId> enclosures;  ///< those treated
    std::vector<RoomId> rooms;            ///< rooms whose floor and racks are treated
    CourseChoices choices = {};
    units::Strength strength;
    CourseTerms terms = {};
    bool continues = false;              ///< the course before it, with other days: not a new one
    std::vector<MovedRound> moved = {};  ///< of it, those begun under another day

    static constexpr Kind kind{"plan-adopted", Damaged::says_nothing};
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        // No rows on record is other than none in the course.
        const Unsaid rows = fact.terms.are_known() ? Unsaid::as_it_is : Unsaid::null;
        archive.field("rounds", fact.rounds);
        archive.field("enclosures", fact.enclosures);
        archive.field("rooms", fact.rooms);
        archive.field("change_substrate", fact.choices.change_substrate);
        archive.field("keep_damp", fact.choices.keep_damp);
        archive.field(or_null("strength_mg_per_l"), fact.strength);
        archive.later_field("soak_animals", fact.choices.soak_animals);
        archive.later_field("fresh_tubs", fact.choices.fresh_tubs);
        archive.later_field("clear_heads", fact.choices.clear_heads);
        archive.later_field("without_spray", fact.choices.without_spray);
        archive.later_field(or_null("scope"), fact.terms.scope);
        archive.later_field(Key("treatments", rows), fact.terms.treatments);
        archive.later_field(Key("left_out", rows), fact.terms.left_out);
        archive.later_field("continues", fact.continues);
        archive.later_field("moved", fact.moved);
    }
    static Applied check(const PlanAdopted& fact);
    static Applied check_amounts(const PlanAdopted& fact);
    static Applied apply(const PlanAdopted& fact, const Effect& effect);
    friend bool operator==(const PlanAdopted&, const PlanAdopted&) = default;
};

struct TaskDone {
    std::string task;     ///< key of the task in the worklist
    std::string by = {};  ///< initials of who did it; may be empty

    static constexpr Kind kind{"task-done", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"task", &TaskDone::task},
                                        later(or_left_out("by"), &TaskDone::by)};
    static Applied check(const TaskDone& fact);
    static Applied apply(const TaskDone& fact, const Effect& effect);
};

struct TaskSkipped {
    std::string task;
    std::string reason;
    std::string by = {};  ///< as of TaskDone

    static constexpr Kind kind{"task-skipped", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"task", &TaskSkipped::task},
                                        Member{"reason", &TaskSkipped::reason},
                                        later(or_left_out("by"), &TaskSkipped::by)};
    static Applied check(const TaskSkipped& fact);
    static Applied apply(const TaskSkipped& fact, const Effect& effect);
};

/// Withdraws the entry this one corrects, leaving nothing in its place.
struct Withdrawn {
    std::string reason;

    static constexpr Kind kind{"withdrawn", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"reason", &Withdrawn::reason}};
    static Applied check(const Withdrawn& fact);
    static Applied apply(const Withdrawn& fact, const Effect& effect);
};

using CourseFacts = KindList<PlanAdopted, TaskDone, TaskSkipped, Withdrawn>;

}  // namespace mitefall::records
