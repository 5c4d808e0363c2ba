#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "plan/schedule.h"

namespace mitefall::plan {

struct Goal {
    double target = 0.99;      ///< chance of clear wanted at the 10th percentile of the ensemble
    double horizon_days = 84;  ///< counted from today
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
    std::vector<ScoredPlan>
        alternatives;          ///< at least two: a lighter and a stronger one where there are such
    std::vector<Rung> ladder;  ///< 1 to 5 rounds of the recommended course
    forecast::Band untreated;  ///< nothing done at all
    bool meets_target = false;
    std::size_t courses_tried = 0;
    std::size_t class_count = 0;
};

/// Scores schedules of one setting on one ensemble; what they share is worked out once.
class Scorer {
  public:
    /// `belief`: formed from the records of the setting with this ensemble. All must outlive the scorer.
    Scorer(const Setting& setting, const forecast::Ensemble& ensemble, const forecast::Belief& belief,
           double horizon_days, forecast::Tolerance tolerance);

    /// `blocks`: of eight draws, from the first; 0: all. nullopt if `progress` returned false.
    [[nodiscard]] std::optional<forecast::Forecast> score(
        const Schedule& schedule, std::size_t blocks, const std::function<bool(double)>& progress = {}) const;

  private:
    const Setting& setting_;
    const forecast::Ensemble& ensemble_;
    double horizon_days_;
    forecast::Tolerance tolerance_;
    const forecast::Belief& belief_;
    forecast::Scenario present_;
};

/// Courses of the search space are fitted to the verdicts and scored on a few draws, a coarse grid of
/// intervals first and then around the best; those on the frontier of chance against burden are scored on
/// more draws, the ones shown on all. Recommended: least burden among those that meet the target, else the
/// best chance. nullopt if cancelled.
[[nodiscard]] std::optional<PlanChoice> choose_plan(const Setting& setting,
                                                    const forecast::Ensemble& ensemble,
                                                    const forecast::Belief& belief, const Goal& goal);

/// The scopes worth telling apart in this setting, narrowest first.
[[nodiscard]] std::vector<Scope> scopes_of(const Setting& setting);

}  // namespace mitefall::plan
