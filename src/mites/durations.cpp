#include "mites/durations.h"

#include <algorithm>

#include "base/contract.h"
#include "mites/rates.h"

namespace mitefall::mites {
namespace {

constexpr double step = 1.0 / 64;    // days
constexpr double longest = 365;      // days
constexpr double hardly_any = 1e-3;  // of those that begin
constexpr double as_good_as_over = 1e-6;

/// The stages a part of life is made of, one after the other; the last is left for what comes after it.
std::vector<Stage> stages_of(LifeStage stage) {
    switch (stage) {
        case LifeStage::egg: return {Stage::egg};
        case LifeStage::larva: return {Stage::larva};
        case LifeStage::protonymph: return {Stage::protonymph_seeking, Stage::protonymph_feeding};
        case LifeStage::deutonymph: return {Stage::deutonymph};
        case LifeStage::adult: return {Stage::adult_seeking_1, Stage::adult_feeding_1};
    }
    return {};
}

/// One substage: how fast it is left for the next one of its stage, for the next stage, and for good.
struct Link {
    double on = 0, through = 0, lost = 0;  ///< per day
    std::size_t through_to = 0;
};

std::vector<Link> chain_of(LifeStage stage, const FixedParameters& fixed, const MiteParameters& draw,
                           const records::Climate& climate) {
    std::vector<Link> chain;
    for (const Stage one : stages_of(stage)) {
        const StageRates rates = stage_rates(one, fixed, draw, climate);
        const bool seeks = is_seeking(activity_of(one));
        const std::size_t end = chain.size() + static_cast<std::size_t>(rates.substages);
        for (int m = 1; m <= rates.substages; ++m) {
            const bool is_last = m == rates.substages;
            Link link{is_last ? 0 : rates.advance, 0, rates.loss, end};
            if (seeks) link.through = finding_rate(one, draw);
            if (is_last) (seeks ? link.lost : link.through) += rates.advance;
            chain.push_back(link);
        }
    }
    return chain;
}

/// Shares in each substage, and at the end the share that has come through.
using State = std::vector<double>;

State slope_of(const std::vector<Link>& chain, const State& at) {
    State slope(at.size());
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const Link& link = chain[i];
        slope[i] -= (link.on + link.through + link.lost) * at[i];
        slope[i + 1] += link.on * at[i];
        slope[link.through_to] += link.through * at[i];
    }
    return slope;
}

/// Classical Runge-Kutta, order 4. `step` is short against every rate of the tables (below 100 per day).
void advance(const std::vector<Link>& chain, State& at) {
    const auto moved = [&](const State& slope, double by) {
        State state = at;
        for (std::size_t i = 0; i < state.size(); ++i) state[i] += by * slope[i];
        return state;
    };
    const State a = slope_of(chain, at);
    const State b = slope_of(chain, moved(a, step / 2));
    const State c = slope_of(chain, moved(b, step / 2));
    const State d = slope_of(chain, moved(c, step));
    for (std::size_t i = 0; i < at.size(); ++i) at[i] += step / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
}

/// Share of those that ever come through that has done so, at each step.
std::vector<double> shares_through(const std::vector<Link>& chain) {
    State at(chain.size() + 1);
    at[0] = 1;
    std::vector<double> through{0};
    double left = 1;
    while (left > as_good_as_over && static_cast<double>(through.size()) * step < longest) {
        advance(chain, at);
        through.push_back(at.back());
        left = 0;
        for (std::size_t i = 0; i + 1 < at.size(); ++i) left += at[i];
    }
    if (through.back() < hardly_any) return {};
    const double all = through.back();
    for (double& share : through) share /= all;
    return through;
}

double day_of_share(const std::vector<double>& through, double share) {
    const auto above = std::lower_bound(through.begin(), through.end(), share);
    if (above == through.begin()) return 0;
    const double high = *above, low = *std::prev(above);
    const auto before = static_cast<double>(above - through.begin() - 1);
    return step * (before + (high > low ? (share - low) / (high - low) : 0));
}

}  // namespace

std::optional<Duration> duration_of(LifeStage stage, const FixedParameters& fixed,
                                    std::span<const MiteParameters> draws, std::span<const double> weights,
                                    const records::Climate& climate) {
    base::expects(draws.size() == weights.size(), "a weight for every draw");
    std::vector<double> all;
    double weighed = 0;
    for (std::size_t i = 0; i < draws.size(); ++i) {
        if (!(weights[i] > 0)) continue;
        const std::vector<double> through = shares_through(chain_of(stage, fixed, draws[i], climate));
        if (through.empty()) return std::nullopt;
        if (all.size() < through.size()) all.resize(through.size(), weighed);
        for (std::size_t t = 0; t < all.size(); ++t)
            all[t] += weights[i] * (t < through.size() ? through[t] : 1.0);
        weighed += weights[i];
    }
    base::expects(weighed > 0, "some draw has weight");
    Duration duration;
    for (double& share : all) {
        share /= weighed;
        duration.mean += step * (1 - share);
    }
    // Trapezoids: the first share, at the beginning, counts half.
    duration.mean -= step / 2;
    duration.p10 = day_of_share(all, 0.1);
    duration.p90 = day_of_share(all, 0.9);
    return duration;
}

}  // namespace mitefall::mites
