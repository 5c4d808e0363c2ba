#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "plan/schedule.h"

namespace mitefall::plan {

struct Goal {
    double target = 0.99;    ///< chance of clear wanted at the 10th percentile of the ensemble
    double horizon_days = 84;///< counted from today
    /// Called with the share done; false cancels.
    std::function<bool(double)> progress;
};

struct ScoredPlan {
    Course course;
    Schedule schedule;
    forecast::Band clear;
};

/// What the same course would achieve with another number of rounds.
struct Rung {
    int rounds = 0;
    forecast::Band clear;
};

struct PlanChoice {
    ScoredPlan recommended;
    std::vector<ScoredPlan> alternatives;  ///< at least two: a lighter and a stronger one where there are such
    std::vector<Rung> ladder;              ///< 1 to 5 rounds of the recommended course
    forecast::Band untreated;              ///< nothing done at all
    bool meets_target = false;
    std::size_t courses_tried = 0;
    std::size_t class_count = 0;
};

/// Every course of the search space is fitted to the verdicts and scored on a few draws; those on the frontier of
/// chance against burden are scored on the whole ensemble. Recommended: least burden among those that meet the
/// target, else the best chance. nullopt if cancelled.
[[nodiscard]] std::optional<PlanChoice> choose_plan(const Setting& setting, const forecast::Ensemble& ensemble,
                                                    const forecast::Ensemble& few_draws, const Goal& goal);

/// Scores one schedule on the ensemble. nullopt if cancelled.
[[nodiscard]] std::optional<forecast::Forecast> score(const Schedule& schedule, const Setting& setting,
                                                      const forecast::Ensemble& ensemble, const Goal& goal,
                                                      forecast::Tolerance tolerance = {});

/// All courses of the search space; a single round has one interval only.
[[nodiscard]] std::vector<Course> all_courses(const Setting& setting);

}  // namespace mitefall::plan
