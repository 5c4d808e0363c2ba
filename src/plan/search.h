#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "plan/schedule.h"

namespace mitefall::plan {

struct Goal {
    double target = 0.99;            ///< chance of clear wanted at the 10th percentile of the ensemble
    double horizon_days = 84;        ///< counted from today
    Prefer prefer = Prefer::burden;  ///< among the courses that meet the target
    /// Called with the share done; false cancels.
    std::function<bool(double)> progress;
    /// Without a find: what a round must add to the chance to be worth its burden. 0: mites were found, and
    /// the target counts.
    double worth_of_a_round = 0;
};

struct ScoredPlan {
    Course course;
    Schedule schedule;
    base::Band clear;
};

/// A course that no other tried beats in both chance and lightness.
struct FrontierCourse {
    Course course;
    Burden burden;
    base::Band clear;  ///< on some of the draws
    Doings does;
    std::vector<units::Day> rounds;
};

/// What the same course would achieve with another number of rounds.
struct Rung {
    int rounds = 0;
    base::Band clear;
};

struct PlanChoice {
    ScoredPlan recommended;
    std::vector<ScoredPlan>
        alternatives;  ///< at least two: a lighter and a stronger one where there are such
    std::vector<FrontierCourse> frontier;  ///< lightest first
    std::vector<Rung> ladder;              ///< 1 to most_rounds rounds of the recommended course
    base::Band untreated;                  ///< nothing done at all
    bool meets_target = false;
    std::size_t courses_tried = 0;
    std::size_t class_count = 0;
};

/// Scores schedules of one setting on one ensemble; what they share is worked out once.
class Scorer {
  public:
    /// `belief`: formed from the records of the setting with this ensemble. All must outlive the scorer.
    Scorer(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
           double horizon_days, branching::Tolerance tolerance);

    [[nodiscard]] const Setting& setting() const { return setting_; }

    /// `blocks`: of eight draws, from the first; 0: all. nullopt if `progress` returned false.
    [[nodiscard]] std::optional<forecast::Forecast> score(
        const Schedule& schedule, std::size_t blocks, const std::function<bool(double)>& progress = {}) const;

  private:
    const Setting& setting_;
    const mites::Ensemble& ensemble_;
    double horizon_days_;
    branching::Tolerance tolerance_;
    const belief::Belief& belief_;
    scenario::Scenario present_;
    std::shared_ptr<forecast::TailBook> tails_;  ///< of an ensemble small enough to remember them
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

/// Lighter in what the keeper prefers, then in burden.
[[nodiscard]] bool is_lighter(const Burden& a, const Burden& b, Prefer prefer);

/// The scopes worth telling apart in this setting, narrowest first; only `chosen` if the limits name
/// enclosures, only `everything` if no mite was seen.
[[nodiscard]] std::vector<Scope> scopes_of(const Setting& setting);

}  // namespace mitefall::plan
