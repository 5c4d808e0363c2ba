#include "branching/step_kernel.h"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "base/contract.h"
#include "branching/instruction_set.h"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "branching/step_kernel.cpp"
#include <hwy/foreach_target.h>  // must come before highway.h
#include <hwy/highway.h>

#include <hwy/contrib/math/math-inl.h>

HWY_BEFORE_NAMESPACE();
namespace mitefall::branching::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

using Vector = hn::CappedTag<double, lane_count>;
using V = hn::Vec<Vector>;

HWY_INLINE V load(const Lanes& lanes, std::size_t at) { return hn::Load(Vector(), lanes.x.data() + at); }
HWY_INLINE void store(V value, Lanes& lanes, std::size_t at) {
    hn::Store(value, Vector(), lanes.x.data() + at);
}
HWY_INLINE V number(double value) { return hn::Set(Vector(), value); }

// Weights of chains
// -----------------------------------------------------------------------------------------------------------

/// Adds, for each number of moves n from `first` on, node.weight * a (a s)^n / n! exp(-decay s) times each of
/// the basis values to `count` rows of sums.
template <std::size_t Width>
HWY_INLINE void add_node(const QuadratureNode& node, V advance, V decay, std::size_t first, std::size_t count,
                         std::size_t at, const double (&basis)[Width], Lanes* sums) {
    const V since = number(node.since);
    V passing =
        hn::Mul(hn::Mul(number(node.weight), advance), hn::Exp(Vector(), hn::Neg(hn::Mul(decay, since))));
    const V moved = hn::Mul(advance, since);
    for (std::size_t n = 0; n < first + count; ++n) {
        for (std::size_t b = 0; n >= first && b < Width; ++b) {
            Lanes& sum = sums[(n - first) * Width + b];
            store(hn::MulAdd(passing, number(basis[b]), load(sum, at)), sum, at);
        }
        passing = hn::Mul(passing, hn::Mul(moved, number(1.0 / static_cast<double>(n + 1))));
    }
}

void home_weights(V advance, V decay, double length, std::size_t substages, std::size_t at, Lanes* home) {
    const V time = number(length);
    V chance = hn::Exp(Vector(), hn::Neg(hn::Mul(decay, time)));
    const V moved = hn::Mul(advance, time);
    for (std::size_t n = 0; n < substages; ++n) {
        store(chance, home[n], at);
        chance = hn::Mul(chance, hn::Mul(moved, number(1.0 / static_cast<double>(n + 1))));
    }
}

/// `x`: elapsed share of the step when the input entered. The first substage is `substages - 1` moves away
/// from the last.
void refill_weights(const QuadratureNode* nodes, std::size_t count, V advance, V decay, double length,
                    std::size_t substages, std::size_t at, Lanes* refill, Lanes* full) {
    for (std::size_t i = 0; i < count; ++i) {
        const double x = 1 - nodes[i].since / length;
        const double hermite[4] = {1 + x * x * (2 * x - 3), x * (1 + x * (x - 2)), x * x * (3 - 2 * x),
                                   x * x * (x - 1)};
        add_node(nodes[i], advance, decay, 0, substages, at, hermite, refill);
        const double basis[4] = {1 + x * x * (6 * x - 7), x * (1 + x * (2 * x - 3)), 8 * x * x * (1 - x),
                                 x * x * (2 * x - 1)};
        add_node(nodes[i], advance, decay, substages - 1, 1, at, basis, full);
    }
}

void half_weights(const QuadratureNode* nodes, std::size_t count, V advance, V decay, double length,
                  std::size_t substages, std::size_t at, Lanes* half) {
    for (std::size_t i = 0; i < count; ++i) {
        const double x = 1 - nodes[i].since / length;
        const double basis[3] = {1 - x * x, x * (1 - x) / 2, x * x};
        const QuadratureNode half_node{nodes[i].since / 2, nodes[i].weight / 2};
        add_node(half_node, advance, decay, substages - 1, 1, at, basis, half);
    }
}

/// `sums`: refill weights by number of moves; they are reversed into the order of substages.
void chain_weights(const QuadratureNode* nodes, std::size_t count, const Lanes& advance, const Lanes& loss,
                   std::size_t substages, double length, Lanes* block) {
    for (std::size_t i = 0; i < ChainWeights<Lanes>::size(substages); ++i) block[i] = Lanes{};
    Lanes* const home_half = block;
    Lanes* const home_full = home_half + substages;
    Lanes* const half = home_full + substages;
    Lanes* const full = half + 3;
    Lanes* const refill = full + 4;
    const Vector d;
    for (std::size_t at = 0; at < lane_count; at += hn::Lanes(d)) {
        const V a = load(advance, at);
        const V decay = hn::Add(a, load(loss, at));
        home_weights(a, decay, length / 2, substages, at, home_half);
        home_weights(a, decay, length, substages, at, home_full);
        half_weights(nodes, count, a, decay, length, substages, at, half);
        refill_weights(nodes, count, a, decay, length, substages, at, refill, full);
    }
    for (std::size_t m = 0, n = substages - 1; m < n; ++m, --n) {
        for (std::size_t b = 0; b < 4; ++b) std::swap(refill[4 * m + b], refill[4 * n + b]);
    }
}

// A step
// -----------------------------------------------------------------------------------------------------------

enum class At { start = 0, middle = 1, end = 2 };

/// In one precision, of so many blocks.
template <class L>
struct Stepper {
    using Lanes = L;
    using Step = branching::Step<L>;
    using Weights = ChainWeights<L>;
    using Hazard = StepHazard<L>;
    using Work = ChainWork<L>;
    using Vector = hn::CappedTag<typename L::Number, L::count>;
    using V = hn::Vec<Vector>;

    static HWY_INLINE V load(const Lanes& lanes, std::size_t at) {
        return hn::Load(Vector(), lanes.x.data() + at);
    }
    static HWY_INLINE void store(V value, Lanes& lanes, std::size_t at) {
        hn::Store(value, Vector(), lanes.x.data() + at);
    }
    static HWY_INLINE V number(double value) {
        return hn::Set(Vector(), static_cast<typename L::Number>(value));
    }

    // Vector stores may alias anything, so what the inner loops need is copied to local variables first.

    /// The substages of a run, last to first; sink(cell, slope). `walk`: rate and target of the one way out
    /// that keeps the substage.
    template <bool Walks, class Sink>
    static HWY_INLINE void derive_substages(const Run run, V advance, V decay, V constant, V beyond,
                                            V walk_rate, const Lanes* walk_to, std::size_t at, const Lanes* v,
                                            Sink sink) {
        for (std::uint32_t m = run.count; m-- > 0;) {
            const V here = load(v[run.first + m], at);
            V slope = hn::MulAdd(advance, beyond, constant);
            if (Walks) slope = hn::MulAdd(walk_rate, load(walk_to[m], at), slope);
            sink(run.first + m, hn::NegMulAdd(decay, here, slope));
            beyond = here;
        }
    }

    /// The same with several ways out that keep the substage.
    template <class Sink>
    static HWY_INLINE void derive_walkers(const Run run, const Exit* exits, const Lanes* values, V advance,
                                          V decay, V constant, V beyond, std::size_t at, const Lanes* v,
                                          Sink sink) {
        for (std::uint32_t m = run.count; m-- > 0;) {
            const V here = load(v[run.first + m], at);
            V slope = hn::MulAdd(advance, beyond, constant);
            for (std::uint32_t e = 0; e < run.exits.count; ++e) {
                const Exit exit = exits[e];
                if (exit.same_substage)
                    slope = hn::MulAdd(load(values[exit.rate], at), load(v[exit.target + m], at), slope);
            }
            sink(run.first + m, hn::NegMulAdd(decay, here, slope));
            beyond = here;
        }
    }

    /// Calls sink(cell, slope) for every substage of an open run.
    template <class Sink>
    static HWY_INLINE void derive_run(const Network& open, const Run run, const Lanes* values, V hazard,
                                      std::size_t at, const Lanes* v, Sink sink) {
        const V advance = load(values[run.advance], at);
        V decay = hn::Add(hn::Add(advance, load(values[run.loss], at)), hazard);
        V constant = hn::Zero(Vector());
        const Exit* const exits = open.exits.data() + run.exits.first;
        Exit walk;
        std::size_t walks = 0;
        for (std::uint32_t e = 0; e < run.exits.count; ++e) {
            const Exit exit = exits[e];
            const V rate = load(values[exit.rate], at);
            decay = hn::Add(decay, rate);
            if (exit.same_substage) {
                walk = exit;
                ++walks;
            } else {
                constant = hn::MulAdd(rate, load(v[exit.target], at), constant);
            }
        }
        const Birth* const births = open.births.data() + run.births.first;
        for (std::uint32_t b = 0; b < run.births.count; ++b) {
            const V born = hn::Mul(load(values[births[b].rate], at), load(v[births[b].target], at));
            constant = hn::Add(constant, born);
            decay = hn::Add(decay, born);
        }
        const End* const ends = open.ends.data() + run.ends.first;
        V beyond = hn::Zero(Vector());
        for (std::uint32_t e = 0; e < run.ends.count; ++e)
            beyond = hn::MulAdd(load(values[ends[e].share], at), load(v[ends[e].target], at), beyond);
        if (walks == 0) {
            derive_substages<false>(run, advance, decay, constant, beyond, advance, nullptr, at, v, sink);
        } else if (walks == 1) {
            derive_substages<true>(run, advance, decay, constant, beyond, load(values[walk.rate], at),
                                   v + walk.target, at, v, sink);
        } else {
            derive_walkers(run, exits, values, advance, decay, constant, beyond, at, v, sink);
        }
    }

    /// Calls sink(cell, slope) for every open cell and the imported.
    template <class Sink>
    static HWY_INLINE void derive(const Step& step, At when, std::size_t at, const Lanes* v, Sink sink) {
        const Network& open = step.split->open;
        for (std::size_t r = 0; r < open.runs.size(); ++r) {
            const Hazard& hazard = step.hazards[step.hazard_of_run[r]];
            derive_run(open, open.runs[r], step.values, load(hazard.level[static_cast<int>(when)], at), at, v,
                       sink);
        }
        V imported = hn::Zero(Vector());
        for (std::size_t s = 0; s < step.source_count; ++s)
            imported =
                hn::MulAdd(load(step.sources[s].rate, at), load(v[step.sources[s].cell], at), imported);
        sink(step.split->imported(), imported);
    }

    /// What the end of a chain leads to.
    static HWY_INLINE V input_of(const Step& step, const Chain& chain, std::size_t at, const Lanes* v) {
        V sum = hn::Zero(Vector());
        for (std::uint32_t e = chain.ends.first; e < chain.ends.first + chain.ends.count; ++e) {
            const End& end = step.split->chain_ends[e];
            sum = hn::MulAdd(load(step.values[end.share], at), load(v[end.target], at), sum);
        }
        return sum;
    }

    static HWY_INLINE const Hazard& hazard_of(const Step& step, std::size_t c) {
        return step.hazards[step.hazard_of_run[step.split->open.runs.size() + c]];
    }

    static HWY_INLINE void begin_chains(const Step& step, std::size_t at, Work* work) {
        const std::vector<Chain>& chains = step.split->chains;
        const V length = number(step.length);
        for (std::size_t c = 0; c < chains.size(); ++c) {
            const Chain chain = chains[c];
            const Weights w = step.weights[c];
            V half = hn::Zero(Vector());
            V full = hn::Zero(Vector());
            const Lanes* const types = step.types + chain.first;
            for (std::uint32_t n = 0; n < chain.count; ++n) {
                const V here = load(types[n], at);
                half = hn::MulAdd(load(w.home_half[n], at), here, half);
                full = hn::MulAdd(load(w.home_full[n], at), here, full);
            }
            const V input = input_of(step, chain, at, step.start);
            const V level = load(hazard_of(step, c).level[0], at);
            const V slope = hn::Mul(length, hn::MulAdd(level, input, input_of(step, chain, at, step.slope)));
            store(input, work[c].input, at);
            store(slope, work[c].input_slope, at);
            half = hn::MulAdd(load(w.half[0], at), input, hn::MulAdd(load(w.half[1], at), slope, half));
            full = hn::MulAdd(load(w.full[0], at), input, hn::MulAdd(load(w.full[1], at), slope, full));
            store(half, work[c].known_half, at);
            store(full, work[c].known_full, at);
        }
    }

    /// First substages of chains after half the step, in `v`.
    static HWY_INLINE void chains_at_middle(const Step& step, std::size_t at, Work* work, Lanes* v) {
        const std::vector<Chain>& chains = step.split->chains;
        for (std::size_t c = 0; c < chains.size(); ++c) {
            const Hazard& hazard = hazard_of(step, c);
            const V middle = hn::Mul(load(hazard.recover[0], at), input_of(step, chains[c], at, v));
            store(middle, work[c].middle, at);
            const V sum = hn::MulAdd(load(step.weights[c].half[2], at), middle, load(work[c].known_half, at));
            store(hn::Mul(load(hazard.survive[0], at), sum), v[chains[c].cell], at);
        }
    }

    /// First substages of chains after the step, in `v`.
    static HWY_INLINE void chains_at_end(const Step& step, std::size_t at, const Work* work, Lanes* v) {
        const std::vector<Chain>& chains = step.split->chains;
        for (std::size_t c = 0; c < chains.size(); ++c) {
            const Hazard& hazard = hazard_of(step, c);
            const Weights w = step.weights[c];
            const V end = hn::Mul(load(hazard.recover[1], at), input_of(step, chains[c], at, v));
            V sum = hn::MulAdd(load(w.full[2], at), load(work[c].middle, at), load(work[c].known_full, at));
            sum = hn::MulAdd(load(w.full[3], at), end, sum);
            store(hn::Mul(load(hazard.survive[1], at), sum), v[chains[c].cell], at);
        }
    }

    /// What the values at the start give to each substage: put(m, sum_n home[n] types[m + n]). Four at a
    /// time, so that most of what is loaded serves four sums.
    template <class Put>
    static HWY_INLINE void carry_home(const Lanes* home, const Lanes* types, std::uint32_t count,
                                      std::size_t at, Put put) {
        std::uint32_t m = 0;
        for (; m + 4 <= count; m += 4) {
            const std::uint32_t last = count - m - 1;
            V t0 = load(types[m], at), t1 = load(types[m + 1], at), t2 = load(types[m + 2], at);
            V s0 = hn::Zero(Vector()), s1 = s0, s2 = s0, s3 = s0;
            std::uint32_t n = 0;
            for (; n + 3 <= last; ++n) {
                const V w = load(home[n], at);
                const V t3 = load(types[m + n + 3], at);
                s0 = hn::MulAdd(w, t0, s0);
                s1 = hn::MulAdd(w, t1, s1);
                s2 = hn::MulAdd(w, t2, s2);
                s3 = hn::MulAdd(w, t3, s3);
                t0 = t1;
                t1 = t2;
                t2 = t3;
            }
            const V w0 = load(home[n], at), w1 = load(home[n + 1], at), w2 = load(home[n + 2], at);
            s0 = hn::MulAdd(w0, t0, hn::MulAdd(w1, t1, hn::MulAdd(w2, t2, s0)));
            s1 = hn::MulAdd(w0, t1, hn::MulAdd(w1, t2, s1));
            s2 = hn::MulAdd(w0, t2, s2);
            put(m, s0);
            put(m + 1, s1);
            put(m + 2, s2);
            put(m + 3, s3);
        }
        for (; m < count; ++m) {
            V sum = hn::Zero(Vector());
            for (std::uint32_t n = 0; n < count - m; ++n)
                sum = hn::MulAdd(load(home[n], at), load(types[m + n], at), sum);
            put(m, sum);
        }
    }

    /// All substages of chains after the step, and the value and slope of their first. Returns the largest
    /// error.
    static HWY_INLINE V refill_chains(const Step& step, std::size_t at, const Work* work) {
        const std::vector<Chain>& chains = step.split->chains;
        const V length = number(step.length);
        V worst = hn::Zero(Vector());
        for (std::size_t c = 0; c < chains.size(); ++c) {
            const Chain chain = chains[c];
            const Weights w = step.weights[c];
            const Hazard& hazard = hazard_of(step, c);
            const V recover = load(hazard.recover[1], at);
            const V survive = load(hazard.survive[1], at);
            const V level = load(hazard.level[2], at);
            const V p0 = load(work[c].input, at);
            const V d0 = load(work[c].input_slope, at);
            const V end = input_of(step, chain, at, step.end);
            const V p1 = hn::Mul(recover, end);
            const V d1 = hn::Mul(hn::Mul(length, recover),
                                 hn::MulAdd(level, end, input_of(step, chain, at, step.end_slope)));
            const Lanes* const types = step.types + chain.first;
            Lanes* const filled = step.end_types + chain.first;
            const auto put = [=](std::uint32_t m, V home) {
                const Lanes* const weight = w.refill + 4 * m;
                const V now = hn::MulAdd(load(weight[0], at), p0, hn::Mul(load(weight[1], at), d0));
                const V then = hn::MulAdd(load(weight[2], at), p1, hn::Mul(load(weight[3], at), d1));
                store(hn::Mul(survive, hn::Add(home, hn::Add(now, then))), filled[m], at);
            };
            carry_home(w.home_full, types, chain.count, at, put);
            const V first = load(filled[0], at);
            const V second = chain.count > 1 ? load(filled[1], at) : end;
            const V advance = load(step.values[chain.advance], at);
            const V decay = hn::Add(hn::Add(advance, load(step.values[chain.loss], at)), level);
            const V scale = hn::MulAdd(number(step.relative), first, number(step.absolute));
            const V error = hn::Div(hn::Abs(hn::Sub(first, load(step.end[chain.cell], at))), scale);
            worst = hn::Max(worst, error);
            store(first, step.end[chain.cell], at);
            store(hn::NegMulAdd(decay, first, hn::Mul(advance, second)), step.end_slope[chain.cell], at);
        }
        return worst;
    }

    /// Largest error among the substages of open runs: |difference| in units of the scale. All of them: a
    /// step too long for a fast run goes wrong in its later substages long before the first shows it.
    static HWY_INLINE V error_of_open(const Step& step, std::size_t at, V sixth, const Lanes* before_last) {
        V worst = hn::Zero(Vector());
        for (std::size_t cell = 0; cell < step.split->open.type_count; ++cell) {
            const V size = hn::Max(load(step.start[cell], at), load(step.end[cell], at));
            const V scale = hn::MulAdd(number(step.relative), size, number(step.absolute));
            const V change = hn::Sub(load(step.end_slope[cell], at), load(before_last[cell], at));
            worst = hn::Max(worst, hn::Div(hn::Mul(sixth, hn::Abs(change)), scale));
        }
        return worst;
    }

    /// Of the open cells, by the slope at the start alone.
    static void go_half_way(const Step& step, std::size_t at, V half, Lanes* middle) {
        const std::size_t open = step.split->open.type_count + 1;
        for (std::size_t i = 0; i < open; ++i)
            store(hn::MulAdd(half, load(step.slope[i], at), load(step.start[i], at)), middle[i], at);
    }

    static double step_once(const Step& step) {
        const std::size_t cells = step.split->type_of_cell.size();
        const Lanes* const start = step.start;
        const Lanes* const slope = step.slope;
        Lanes* const end = step.end;
        Lanes* const end_slope = step.end_slope;
        Lanes* const a = step.work;
        Lanes* const b = a + cells;
        Lanes* const sum = b + cells;
        Work* const chains = step.chain_work;
        const V whole = number(step.length);
        const V half = number(step.length / 2);
        const V sixth = number(step.length / 6);
        const V two = number(2);
        V worst = number(0);
        for (std::size_t at = 0; at < Lanes::count; at += hn::Lanes(Vector())) {
            begin_chains(step, at, chains);
            go_half_way(step, at, half, a);
            chains_at_middle(step, at, chains, a);
            derive(step, At::middle, at, a, [=](std::size_t i, V k) {
                store(hn::MulAdd(half, k, load(start[i], at)), b[i], at);
                store(hn::MulAdd(two, k, load(slope[i], at)), sum[i], at);
            });
            chains_at_middle(step, at, chains, b);
            derive(step, At::middle, at, b, [=](std::size_t i, V k) {
                store(hn::MulAdd(whole, k, load(start[i], at)), a[i], at);
                store(hn::MulAdd(two, k, load(sum[i], at)), sum[i], at);
            });
            chains_at_end(step, at, chains, a);
            derive(step, At::end, at, a, [=](std::size_t i, V k) {
                store(hn::MulAdd(sixth, hn::Add(k, load(sum[i], at)), load(start[i], at)), end[i], at);
                store(k, sum[i], at);
            });
            chains_at_end(step, at, chains, end);
            derive(step, At::end, at, end, [=](std::size_t i, V k) { store(k, end_slope[i], at); });
            worst = hn::Max(worst, error_of_open(step, at, sixth, sum));
            worst = hn::Max(worst, refill_chains(step, at, chains));
        }
        return hn::GetLane(hn::MaxOfLanes(Vector(), worst));
    }

    static void slope_at_start(const Step& step, Lanes* slope) {
        const Vector d;
        const std::vector<Chain>& chains = step.split->chains;
        for (std::size_t at = 0; at < Lanes::count; at += hn::Lanes(d)) {
            derive(step, At::start, at, step.start, [=](std::size_t i, V k) { store(k, slope[i], at); });
            for (std::size_t c = 0; c < chains.size(); ++c) {
                const Chain chain = chains[c];
                const V first = load(step.types[chain.first], at);
                const V second = chain.count > 1 ? load(step.types[chain.first + 1], at)
                                                 : input_of(step, chain, at, step.start);
                const V advance = load(step.values[chain.advance], at);
                const V loss =
                    hn::Add(load(step.values[chain.loss], at), load(hazard_of(step, c).level[0], at));
                store(hn::NegMulAdd(hn::Add(advance, loss), first, hn::Mul(advance, second)),
                      slope[chain.cell], at);
            }
        }
    }
};

double step_of_lanes(const Step<Lanes>& step) { return Stepper<Lanes>::step_once(step); }
double step_of_single(const Step<SingleLanes>& step) { return Stepper<SingleLanes>::step_once(step); }
double step_of_paired(const Step<PairedLanes>& step) { return Stepper<PairedLanes>::step_once(step); }
void slope_of_lanes(const Step<Lanes>& step, Lanes* slope) { Stepper<Lanes>::slope_at_start(step, slope); }
void slope_of_single(const Step<SingleLanes>& step, SingleLanes* slope) {
    Stepper<SingleLanes>::slope_at_start(step, slope);
}
void slope_of_paired(const Step<PairedLanes>& step, PairedLanes* slope) {
    Stepper<PairedLanes>::slope_at_start(step, slope);
}

}  // namespace mitefall::branching::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace mitefall::branching {

namespace {

/// Gauss & Legendre's rule on each of some equal parts of [0, length].
template <unsigned Points>
std::vector<QuadratureNode> nodes_on(double length, int parts) {
    using Rule = boost::math::quadrature::gauss<double, Points>;
    std::vector<QuadratureNode> nodes;
    const double half = length / parts / 2;
    for (int part = 0; part < parts; ++part) {
        const double middle = (2 * part + 1) * half;
        for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
            const double x = Rule::abscissa()[i];
            const double weight = Rule::weights()[i] * half;
            nodes.push_back({middle + x * half, weight});
            if (x != 0) nodes.push_back({middle - x * half, weight});
        }
    }
    return nodes;
}

/// The weights of an input that stands still, worked out another way: of those that enter a chain the share
/// that has gone through it after `time` days is (a / (a + l))^n (1 - e^-x (1 + x + ... + x^(n-1) / (n-1)!))
/// with x = (a + l) time (Erlang's distribution).
double gone_through(double advance, double loss, std::size_t substages, double time) {
    const double decay = advance + loss;
    if (!(advance > 0)) return 0;
    const double x = decay * time;
    double here = std::exp(-x);
    double within = 0;
    for (std::size_t n = 0; n < substages; ++n) {
        within += here;
        here *= x / static_cast<double>(n + 1);
    }
    return std::pow(advance / decay, static_cast<double>(substages)) * (1 - within);
}

constexpr double weights_agree = 1e-9;

void check_weights(const Lanes& advance, const Lanes& loss, std::size_t substages, double step,
                   const ChainWeights<Lanes>& w) {
    const auto agree = [](double a, double b) { return std::abs(a - b) < weights_agree; };
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const double half = gone_through(advance[lane], loss[lane], substages, step / 2);
        const double full = gone_through(advance[lane], loss[lane], substages, step);
        base::expects(agree(w.half[0][lane] + w.half[2][lane], half) &&
                          agree(w.full[0][lane] + w.full[2][lane] + w.full[3][lane], full) &&
                          agree(w.refill[0][lane] + w.refill[2][lane], full),
                      "the weights of a chain add up to the share that goes through it");
    }
}

}  // namespace

void fill_chain_weights(const Lanes& advance, const Lanes& loss, std::size_t substages, double step,
                        Lanes* block) {
    double decay = 0;
    for (std::size_t lane = 0; lane < lane_count; ++lane) decay = std::max(decay, advance[lane] + loss[lane]);
    // The error of n points on exp(-c x) is about c^2n (n!)^4 / (2n)!^3 (Abramowitz & Stegun 25.4.30). The
    // derivatives of a chain of substages are at most those of exp(-2 c x).
    constexpr double few_points_reach = 6;
    constexpr double many_points_reach = 24;
    const int parts = std::max(1, static_cast<int>(std::ceil(decay * step / many_points_reach)));
    const std::vector<QuadratureNode> nodes =
        decay * step < few_points_reach ? nodes_on<10>(step, 1) : nodes_on<30>(step, parts);
    MITEFALL_BEST_HERE(chain_weights)(nodes.data(), nodes.size(), advance, loss, substages, step, block);
    check_weights(advance, loss, substages, step, ChainWeights<Lanes>::within(block, substages));
}

void initial_slope(const Step<Lanes>& step, Lanes* slope) { MITEFALL_BEST_HERE(slope_of_lanes)(step, slope); }
void initial_slope(const Step<SingleLanes>& step, SingleLanes* slope) {
    MITEFALL_BEST_HERE(slope_of_single)(step, slope);
}
void initial_slope(const Step<PairedLanes>& step, PairedLanes* slope) {
    MITEFALL_BEST_HERE(slope_of_paired)(step, slope);
}

double take_step(const Step<Lanes>& step) { return MITEFALL_BEST_HERE(step_of_lanes)(step); }
double take_step(const Step<SingleLanes>& step) { return MITEFALL_BEST_HERE(step_of_single)(step); }
double take_step(const Step<PairedLanes>& step) { return MITEFALL_BEST_HERE(step_of_paired)(step); }

}  // namespace mitefall::branching
#endif
