#pragma once

#include <optional>
#include <vector>

#include "plan/merit.h"
#include "plan/rounding.h"
#include "plan/score_all.h"

namespace mitefall::plan {

/// A course that no other tried beats in both chance and lightness.
struct FrontierCourse {
    Course course;
    Burden burden;
    base::Band clear;  ///< on some of the draws
    Doings does;
    std::vector<units::Day> rounds;
};

struct PlanChoice {
    ScoredPlan recommended;
    std::vector<ScoredPlan>
        alternatives;  ///< at least two: a lighter and a stronger one where there are such
    std::vector<FrontierCourse> frontier;  ///< lightest first
    base::Band untreated;                  ///< nothing done at all
    bool meets_target = false;
    std::size_t courses_tried = 0;
    std::size_t class_count = 0;
    bool rests_on_few = false;         ///< see belief::rests_on_few: the chances move by points with the seed
    std::optional<Rounding> rounding;  ///< of the climates, where all chances above are with these
    scenario::Scenario present;        ///< what all chances above are worked out from
};

/// Pareto local search (Paquete, Chiarandini & Stuetzle 2004): from some courses of every scope, whatever
/// lies one step from the frontier of chance against lightness is tried, until nothing new gets onto it or
/// `most_courses` were tried. All are fitted to the verdicts and scored on a few draws; those on the frontier
/// on more, the ones shown on all. Recommended: the lightest that meets the target, else the best chance;
/// where no mite was found the best chance less what its rounds must be worth. nullopt if cancelled.
[[nodiscard]] std::optional<PlanChoice> choose_plan(const Setting& setting, const mites::Ensemble& ensemble,
                                                    const belief::Belief& belief, const Goal& goal);

/// The course `choose_plan` would recommend, without what stands around it: for asking the same of many
/// settings.
[[nodiscard]] std::optional<ScoredPlan> best_course(const Setting& setting, const mites::Ensemble& ensemble,
                                                    const belief::Belief& belief, const Goal& goal);

}  // namespace mitefall::plan
