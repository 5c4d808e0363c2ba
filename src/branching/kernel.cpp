#include "branching/kernel.h"

#include <cstddef>

#include "branching/instruction_set.h"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "branching/kernel.cpp"
#include <hwy/foreach_target.h>  // must come before highway.h
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace mitefall::branching::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

using Vector = hn::CappedTag<double, lane_count>;

/// Calls `body(offset)` for each vector's worth of lanes.
template <class Body>
HWY_INLINE void over_lanes(Body body) {
    const Vector d;
    for (std::size_t lane = 0; lane < lane_count; lane += hn::Lanes(d)) body(lane);
}

HWY_INLINE auto load(const Lanes& lanes, std::size_t at) { return hn::Load(Vector(), lanes.x.data() + at); }

void derive_forward_run(const Network& network, const Moment& moment, std::size_t run_index, std::size_t at,
                        const Lanes* m, Lanes* dm) {
    const Vector d;
    const Run& run = network.runs[run_index];
    const Lanes* const values = moment.values;
    const auto give = [&](TypeIndex target, auto flow) {
        double* const cell = dm[target].x.data() + at;
        hn::Store(hn::Add(hn::Load(d, cell), flow), d, cell);
    };
    const auto advance = load(values[run.advance], at);
    auto out = hn::Add(hn::Add(advance, load(values[run.loss], at)), load(moment.hazard[run_index], at));
    for (std::uint32_t e = run.exits.first; e < run.exits.first + run.exits.count; ++e) {
        out = hn::Add(out, load(values[network.exits[e].rate], at));
    }
    auto whole = hn::Zero(d);
    for (std::uint32_t s = 0; s < run.count; ++s) {
        const auto here = load(m[run.first + s], at);
        whole = hn::Add(whole, here);
        give(run.first + s, hn::Neg(hn::Mul(out, here)));
        if (s + 1 < run.count) give(run.first + s + 1, hn::Mul(advance, here));
        for (std::uint32_t e = run.exits.first; e < run.exits.first + run.exits.count; ++e) {
            const Exit& exit = network.exits[e];
            give(exit.target + (exit.same_substage ? s : 0), hn::Mul(load(values[exit.rate], at), here));
        }
    }
    const auto finishing = hn::Mul(advance, load(m[run.first + run.count - 1], at));
    for (std::uint32_t e = run.ends.first; e < run.ends.first + run.ends.count; ++e) {
        give(network.ends[e].target, hn::Mul(load(values[network.ends[e].share], at), finishing));
    }
    for (std::uint32_t b = run.births.first; b < run.births.first + run.births.count; ++b) {
        give(network.births[b].target, hn::Mul(load(values[network.births[b].rate], at), whole));
    }
}

void derive_forward(const Network& network, const Moment& moment, const Lanes* m, Lanes* dm) {
    for (std::size_t i = 0; i < network.type_count; ++i) dm[i] = Lanes{};
    over_lanes([&](std::size_t at) {
        for (std::size_t r = 0; r < network.runs.size(); ++r)
            derive_forward_run(network, moment, r, at, m, dm);
    });
}

void combine(const Lanes* y, double step, const double* weights, const Lanes* const* slopes,
             std::size_t terms, Lanes* out, std::size_t n) {
    const Vector d;
    for (std::size_t i = 0; i < n; ++i) {
        over_lanes([&](std::size_t at) {
            auto sum = hn::Zero(d);
            for (std::size_t j = 0; j < terms; ++j) {
                sum = hn::MulAdd(hn::Set(d, weights[j]), load(slopes[j][i], at), sum);
            }
            hn::Store(hn::MulAdd(hn::Set(d, step), sum, load(y[i], at)), d, out[i].x.data() + at);
        });
    }
}

double scaled_error(const Lanes* a, const Lanes* b, double step, const double* weights,
                    const Lanes* const* slopes, std::size_t terms, std::size_t n, double absolute,
                    double relative) {
    const Vector d;
    auto worst = hn::Zero(d);
    for (std::size_t i = 0; i < n; ++i) {
        over_lanes([&](std::size_t at) {
            auto sum = hn::Zero(d);
            for (std::size_t j = 0; j < terms; ++j) {
                sum = hn::MulAdd(hn::Set(d, weights[j]), load(slopes[j][i], at), sum);
            }
            const auto size = hn::Max(hn::Abs(load(a[i], at)), hn::Abs(load(b[i], at)));
            const auto scale = hn::MulAdd(hn::Set(d, relative), size, hn::Set(d, absolute));
            worst = hn::Max(worst, hn::Div(hn::Abs(hn::Mul(hn::Set(d, step), sum)), scale));
        });
    }
    return hn::GetLane(hn::MaxOfLanes(d, worst));
}

}  // namespace mitefall::branching::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace mitefall::branching {

namespace {

/// Slopes with a zero weight are left out before the inner loop.
struct Terms {
    double weights[7];
    const Lanes* slopes[7];
    std::size_t count = 0;

    Terms(const std::vector<double>& given, const std::vector<std::vector<Lanes>>& all)
        : weights{}, slopes{} {
        for (std::size_t j = 0; j < given.size(); ++j) {
            if (given[j] == 0) continue;
            weights[count] = given[j];
            slopes[count++] = all[j].data();
        }
    }
};

}  // namespace

void derive_forward(const Network& network, Moment moment, const Lanes* m, Lanes* dm) {
    MITEFALL_BEST_HERE(derive_forward)(network, moment, m, dm);
}

void combine(const Lanes* y, double step, const std::vector<double>& weights,
             const std::vector<std::vector<Lanes>>& slopes, Lanes* out, std::size_t n) {
    const Terms terms(weights, slopes);
    MITEFALL_BEST_HERE(combine)(y, step, terms.weights, terms.slopes, terms.count, out, n);
}

double scaled_error(const Lanes* a, const Lanes* b, double step, const std::vector<double>& weights,
                    const std::vector<std::vector<Lanes>>& slopes, std::size_t n, double absolute,
                    double relative) {
    const Terms terms(weights, slopes);
    return MITEFALL_BEST_HERE(scaled_error)(a, b, step, terms.weights, terms.slopes, terms.count, n, absolute,
                                            relative);
}

}  // namespace mitefall::branching
#endif
