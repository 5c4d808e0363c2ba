#include "plan/scorer.h"

#include <utility>

namespace mitefall::plan {

Scorer::Scorer(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
               double horizon_days, branching::Tolerance tolerance)
    : Scorer(setting, present_of(setting), ensemble, belief, horizon_days, tolerance) {}

Scorer::Scorer(const Setting& setting, scenario::Scenario present, const mites::Ensemble& ensemble,
               const belief::Belief& belief, double horizon_days, branching::Tolerance tolerance)
    : setting_(setting),
      ensemble_(ensemble),
      horizon_days_(horizon_days),
      tolerance_(tolerance),
      belief_(belief),
      present_(std::move(present)) {
    constexpr std::size_t few_draws = 2 * branching::lane_count;
    if (ensemble.draws.size() <= few_draws) tails_ = std::make_shared<forecast::TailBook>();
}

std::optional<forecast::Forecast> Scorer::score(const Schedule& schedule, std::size_t blocks,
                                                const std::function<bool(double)>& progress) const {
    return ask(schedule, blocks, progress, true);
}

std::optional<Chance> Scorer::chance_of(const Schedule& schedule, std::size_t blocks,
                                        const std::function<bool(double)>& progress) const {
    const auto scored = ask(schedule, blocks, progress, false);
    return scored ? std::optional(Chance{scored->clear, scored->class_count}) : std::nullopt;
}

std::optional<forecast::Forecast> Scorer::ask(const Schedule& schedule, std::size_t blocks,
                                              const std::function<bool(double)>& progress,
                                              bool counts) const {
    const scenario::Scenario scenario = apply(schedule, setting_, present_);
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble_;
    request.start = &belief_;
    request.from = setting_.known.from;
    request.to = setting_.known.time_of(setting_.today) + horizon_days_;
    request.blocks = blocks;
    request.tolerance = tolerance_;
    request.progress = progress;
    request.counts = counts;
    request.tails = tails_.get();
    return forecast::forecast_clear(request);
}

}  // namespace mitefall::plan
