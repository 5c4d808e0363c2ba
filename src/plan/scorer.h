#pragma once

#include <functional>
#include <memory>
#include <optional>

#include "forecast/forecast.h"
#include "plan/schedule.h"

namespace mitefall::plan {

struct Chance {
    base::Band clear;
    std::size_t class_count = 0;
};

/// Scores schedules of one setting on one ensemble; what they share is worked out once.
class Scorer {
  public:
    /// `belief`: formed from the records of the setting with this ensemble. All must outlive the scorer.
    Scorer(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
           double horizon_days, branching::Tolerance tolerance);
    /// The same, from a present that stands for that of the setting: the same places, in the same order.
    Scorer(const Setting& setting, scenario::Scenario present, const mites::Ensemble& ensemble,
           const belief::Belief& belief, double horizon_days, branching::Tolerance tolerance);

    [[nodiscard]] const Setting& setting() const { return setting_; }

    /// `blocks`: of eight draws, from the first; 0: all. nullopt if `progress` returned false.
    [[nodiscard]] std::optional<forecast::Forecast> score(
        const Schedule& schedule, std::size_t blocks, const std::function<bool(double)>& progress = {}) const;

    /// The chance alone, of the same forecast: what a search compares, without the mites it need not count.
    [[nodiscard]] std::optional<Chance> chance_of(const Schedule& schedule, std::size_t blocks,
                                                  const std::function<bool(double)>& progress = {}) const;

  private:
    [[nodiscard]] std::optional<forecast::Forecast> ask(const Schedule& schedule, std::size_t blocks,
                                                        const std::function<bool(double)>& progress,
                                                        bool counts) const;

    const Setting& setting_;
    const mites::Ensemble& ensemble_;
    double horizon_days_;
    branching::Tolerance tolerance_;
    const belief::Belief& belief_;
    scenario::Scenario present_;
    std::shared_ptr<forecast::TailBook> tails_;  ///< of an ensemble small enough to remember them
};

}  // namespace mitefall::plan
