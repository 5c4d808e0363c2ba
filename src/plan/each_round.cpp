#include "plan/each_round.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace mitefall::plan {
namespace {

/// A course of one round has no interval.
bool is_same(Course a, const Course& b) {
    if (a.rounds == 1 && b.rounds == 1) a.interval_days = b.interval_days;
    return a == b;
}

/// The plan shown that follows this course; nullptr if none does.
const ScoredPlan* shown_as(const PlanChoice& choice, const Course& course) {
    const auto follows = [&](const ScoredPlan& plan) { return is_same(plan.course, course); };
    if (follows(choice.recommended)) return &choice.recommended;
    const auto found = std::find_if(choice.alternatives.begin(), choice.alternatives.end(), follows);
    return found == choice.alternatives.end() ? nullptr : &*found;
}

/// In a large collection every rung takes a tenth of a search, and those beside these two tell enough.
bool is_left_out(const Setting& setting, int rounds) {
    return is_large(setting) && (rounds == 5 || rounds == 7);
}

/// This course with one round to the most.
std::vector<Course> rungs_of(const Setting& setting, const PlanChoice& choice, Course course) {
    if (course.rounds == 1) course.interval_days = usual_interval;
    std::vector<Course> rungs;
    for (course.rounds = 1; course.rounds <= most_rounds; ++course.rounds) {
        if (shown_as(choice, course) != nullptr || !is_left_out(setting, course.rounds))
            rungs.push_back(course);
    }
    return rungs;
}

}  // namespace

std::optional<std::vector<Rung>> each_round(const Setting& setting, const mites::Ensemble& ensemble,
                                            const belief::Belief& belief, const Goal& goal,
                                            const PlanChoice& choice, const Course& of) {
    PermitBook permits(setting.with);
    const Scorer scorer(setting, choice.present, ensemble, belief, goal.horizon_days,
                        branching::for_screening);
    const std::vector<Course> courses = rungs_of(setting, choice, of);
    std::vector<Course> unknown;
    std::copy_if(courses.begin(), courses.end(), std::back_inserter(unknown),
                 [&](const Course& course) { return shown_as(choice, course) == nullptr; });
    const auto scored = score_all(scorer, permits, unknown, 0, Keep::chances, goal.progress);
    if (!scored) return std::nullopt;
    auto next = scored->plans.begin();
    std::vector<Rung> rungs;
    for (const Course& course : courses) {
        const ScoredPlan* const known = shown_as(choice, course);
        rungs.push_back({course.rounds, known != nullptr ? known->clear : (next++)->clear});
    }
    return rungs;
}

}  // namespace mitefall::plan
