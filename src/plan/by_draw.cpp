#include "plan/by_draw.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace mitefall::plan {

PerDraw exp_of_difference(const PerDraw& log_part, const PerDraw& log_whole) {
    PerDraw chance(log_part.size());
    for (std::size_t i = 0; i < chance.size(); ++i)
        chance[i] = std::isinf(log_whole[i]) ? 0 : std::min(1.0, std::exp(log_part[i] - log_whole[i]));
    return chance;
}

PerDraw less(PerDraw from, const PerDraw& what) {
    for (std::size_t i = 0; i < from.size(); ++i) from[i] -= what[i];
    return from;
}

DrawAsker::DrawAsker(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
                     branching::Tolerance tolerance, const std::function<bool(double)>& progress)
    : present_(present_of(setting)), today_(setting.known.time_of(setting.today)), progress_(progress) {
    request_.ensemble = &ensemble;
    request_.start = &belief;
    request_.from = setting.known.from;
    request_.tolerance = tolerance;
    request_.tolerance.in_single =
        false;  // one chance is divided by another, of checks that may hardly be clean
}

PerDraw DrawAsker::log_chance(const scenario::Scenario& scenario, double to, branching::Question question,
                              std::vector<scenario::PlaceIndex> counted) {
    forecast::ForecastRequest request = request_;
    request.scenario = &scenario;
    request.to = to;
    request.counted = std::move(counted);
    request.progress = progress_;
    auto chances = is_cancelled_ ? std::nullopt : forecast::log_chances(request, question);
    is_cancelled_ = !chances;
    return is_cancelled_ ? PerDraw(request_.ensemble->draws.size(), 0.0) : std::move(*chances);
}

PerDraw DrawAsker::log_clean(const scenario::Scenario& scenario, double to) {
    const bool has_checks =
        std::any_of(scenario.events.begin(), scenario.events.end(), [](const scenario::Event& event) {
            return std::holds_alternative<scenario::CleanCheck>(event.what);
        });
    if (has_checks) return log_chance(scenario, to, branching::Question::any_check_fails);
    return PerDraw(request_.ensemble->draws.size(), 0.0);
}

std::vector<double> DrawAsker::weights() const {
    forecast::ForecastRequest request = request_;
    request.scenario = &present_;
    return forecast::draw_weights(request);
}

PerDraw clear_by_looking(int looks,
                         const std::function<PerDraw(std::optional<int> begun, int made)>& clear_with) {
    PerDraw clear = clear_with(std::nullopt, looks);
    for (int k = 0; k < looks; ++k) {
        const PerDraw found = less(clear_with(k, k), clear_with(k, k + 1));
        for (std::size_t i = 0; i < clear.size(); ++i) clear[i] += found[i];
    }
    return clear;
}

}  // namespace mitefall::plan
