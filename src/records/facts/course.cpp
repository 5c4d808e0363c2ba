#include <fmt/format.h>

#include <algorithm>

#include "records/apply.h"
#include "records/limits.h"
#include "records/task_key.h"
#include "units/text.h"

namespace mitefall::records {
namespace {

Applied find_all_places(const PlanAdopted& fact, const Effect& effect) {
    for (const EnclosureId& id : fact.enclosures) {
        if (const auto found = find_enclosure(id, effect); !found) return base::fail(found.error());
    }
    for (const EnclosureId& id : fact.choices.fresh_tubs) {
        if (const auto found = find_enclosure(id, effect); !found) return base::fail(found.error());
    }
    for (const EmptiedWood& emptied : fact.choices.emptied_wood) {
        for (const EnclosureId& id : {emptied.enclosure, emptied.tub}) {
            if (const auto found = find_enclosure(id, effect); !found) return base::fail(found.error());
        }
    }
    for (const RoomId& id : fact.rooms) {
        if (const auto found = find_room(id, effect); !found) return base::fail(found.error());
    }
    return {};
}

bool names_twice(const PlanAdopted& fact) {
    std::vector<EnclosureId> emptied;
    for (const EmptiedWood& one : fact.choices.emptied_wood) {
        emptied.push_back(one.enclosure);
        emptied.push_back(one.tub);
    }
    return has_repeats(fact.enclosures) || has_repeats(fact.rooms) || has_repeats(fact.choices.fresh_tubs) ||
           has_repeats(emptied);
}

Applied check_rounds(const std::vector<units::Day>& rounds) {
    const bool ascending =
        std::adjacent_find(rounds.begin(), rounds.end(), std::greater_equal<>()) == rounds.end();
    if (ascending) return {};
    return refuse("the rounds are not in order", "", "every round on a later day than the one before",
                  "sort the days and name each one once");
}

}  // namespace

Applied PlanAdopted::check(const PlanAdopted& fact) {
    if (names_twice(fact)) {
        return refuse("a place is named twice", "", "each enclosure and room once", "leave the second out");
    }
    if (!fact.terms.are_known() && fact.terms != CourseTerms{}) {
        return refuse("the scope of the course is missing", "", "given with its treatments",
                      "say how far the course reaches");
    }
    if (!fact.continues && !fact.moved.empty()) {
        return refuse("rounds are moved of a course that does not go on", "", "none in a new course",
                      "say that it continues the course before it");
    }
    for (const CourseTreatment& treatment : fact.terms.treatments) {
        if (auto good = check_text("task", treatment.task); !good) return good;
    }
    for (const CourseRefusal& row : fact.terms.left_out) {
        if (auto good = first_failure({check_text("reason", row.reason), check_text("rule", row.rule),
                                       check_text("common", row.common), check_text("own", row.own),
                                       check_text("remedy", row.remedy)});
            !good)
            return good;
    }
    return first_failure(
        {check_text("scope", fact.terms.scope), check_rounds(fact.rounds), check_strength(fact.strength)});
}

Applied PlanAdopted::check_amounts(const PlanAdopted& fact) {
    if (names_twice(fact)) return check(fact);
    return first_failure({check_rounds(fact.rounds), check_strength(fact.strength)});
}

/// The course before goes; the wood it emptied still stands empty.
void remember_emptied_wood(const PlanAdopted& next, Collection& collection) {
    std::vector<EmptiedWood>& before = collection.emptied_before;
    if (collection.plan) {
        const auto& latest = collection.plan->value.choices.emptied_wood;
        before.insert(before.end(), latest.begin(), latest.end());
    }
    std::erase_if(before, [&](const EmptiedWood& one) {
        return std::any_of(next.choices.emptied_wood.begin(), next.choices.emptied_wood.end(),
                           [&](const EmptiedWood& again) {
                               return again.enclosure == one.enclosure || again.tub == one.tub;
                           });
    });
}

Applied PlanAdopted::apply(const PlanAdopted& fact, const Effect& effect) {
    if (auto known = find_all_places(fact, effect); !known) return known;
    Collection& collection = effect.collection();
    remember_emptied_wood(fact, collection);
    collection.course_began = fact.continues ? collection.course_since() : std::nullopt;
    collection.plan = effect.dated(fact);
    return {};
}

Applied TaskDone::check(const TaskDone& fact) {
    return first_failure({check_needed_text("task", fact.task), check_label("initials", fact.by)});
}

Applied TaskDone::apply(const TaskDone& fact, const Effect& effect) {
    effect.collection().skipped.erase(fact.task);
    effect.collection().done.insert_or_assign(fact.task, effect.dated(fact));
    const auto paper = paper_wetted_by(fact);
    const bool is_there = paper && effect.collection().enclosures.contains(paper->enclosure);
    return is_there ? PaperWetted::apply(*paper, effect) : Applied();
}

Applied TaskSkipped::check(const TaskSkipped& fact) {
    return first_failure({check_needed_text("task", fact.task), check_text("reason", fact.reason),
                          check_label("initials", fact.by)});
}

Applied TaskSkipped::apply(const TaskSkipped& fact, const Effect& effect) {
    effect.collection().done.erase(fact.task);
    effect.collection().skipped.insert_or_assign(fact.task, effect.dated(fact));
    return {};
}

Applied Withdrawn::check(const Withdrawn& fact) { return check_text("reason", fact.reason); }

Applied Withdrawn::apply(const Withdrawn&, const Effect&) { return {}; }

}  // namespace mitefall::records
