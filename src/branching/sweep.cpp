#include "branching/sweep.h"

#include <algorithm>
#include <utility>

#include "base/contract.h"
#include "branching/solver.h"
#include "branching/timeline.h"

namespace mitefall::branching {

using base::expects;

namespace {

double checked_chance(double v) {
    expects(v >= -overshoot && v <= 1 + overshoot, "a chance lies between 0 and 1");
    return std::clamp(v, 0.0, 1.0);
}

template <class L>
using Jumps = std::array<const Jump*, L::blocks>;

/// The same jump of each block.
template <class L>
void pass(const Jumps<L>& jumps, std::vector<L>& v) {
    const Jump& of_all = *jumps.front();
    const auto keep = from_blocks<L>([&](std::size_t b) -> const Lanes& { return jumps[b]->keep; });
    const auto move = from_blocks<L>([&](std::size_t b) -> const Lanes& { return jumps[b]->move; });
    const auto seen = from_blocks<L>([&](std::size_t b) -> const Lanes& { return jumps[b]->seen; });
    for (std::uint32_t m = 0; m < of_all.count; ++m) {
        L& here = v[of_all.first + m];
        for (std::size_t lane = 0; lane < L::count; ++lane) {
            const typename L::Number there =
                of_all.target == no_type ? typename L::Number{0} : v[of_all.target + m][lane];
            here[lane] = keep[lane] * here[lane] + move[lane] * there + seen[lane];
        }
    }
}

template <class L>
using Networks = typename SolverOf<L>::Networks;
template <class L>
using Results = std::array<SweepResult, L::blocks>;

/// Of all blocks.
template <class L>
std::vector<double> bounds_of(const Networks<L>& networks, double from, double to) {
    std::vector<double> bounds;
    for (const Network* const network : networks) {
        const std::vector<double> own = smooth_bounds(*network, from, to);
        bounds.insert(bounds.end(), own.begin(), own.end());
    }
    std::sort(bounds.begin(), bounds.end());
    bounds.erase(std::unique(bounds.begin(), bounds.end()), bounds.end());
    return bounds;
}

template <class L>
std::vector<L> side_by_side(const Results<L>& results) {
    std::vector<L> v;
    for (std::size_t i = 0; i < results.front().failure.size(); ++i)
        v.push_back(from_blocks<L>([&](std::size_t b) -> const Lanes& { return results[b].failure[i]; }));
    v.push_back(from_blocks<L>([&](std::size_t b) -> const Lanes& { return results[b].imported; }));
    return v;
}

SweepResult checked(std::vector<Lanes> v, std::size_t steps) {
    SweepResult result;
    result.imported = v.back();
    v.pop_back();
    for (Lanes& here : v) {
        for (double& chance : here.x) chance = checked_chance(chance);
    }
    result.failure = std::move(v);
    result.steps = steps;
    return result;
}

template <class L>
void check_networks(const Networks<L>& networks) {
    const Network& first = *networks.front();
    for (const Network* const network : networks) {
        check_network(*network);
        expects(network->type_count == first.type_count && network->jumps.size() == first.jumps.size(),
                "networks side by side differ in numbers alone");
    }
}

/// By the solver of these networks, which are as they should be.
template <class L>
Results<L> swept_by(SolverOf<L>& solver, const Networks<L>& networks, double from, double to,
                    Results<L> beyond) {
    expects(from <= to, "a sweep starts before its horizon");
    const Network& first = *networks.front();
    for (const SweepResult& one : beyond)
        expects(one.failure.size() == first.type_count, "a value at the horizon for every type");
    std::vector<L> v = side_by_side<L>(beyond);
    const std::size_t steps_before = solver.steps();
    solver.begin_anew();
    std::size_t pending = first.jumps.size();
    const auto pass_jumps_from = [&](double time) {
        for (; pending > 0 && first.jumps[pending - 1].time >= time; --pending) {
            if (first.jumps[pending - 1].time > to) continue;
            Jumps<L> jumps;
            for (std::size_t b = 0; b < jumps.size(); ++b) jumps[b] = &networks[b]->jumps[pending - 1];
            pass<L>(jumps, v);
        }
    };
    const std::vector<double> bounds = bounds_of<L>(networks, from, to);
    pass_jumps_from(to);
    for (std::size_t i = bounds.size() - 1; i > 0; --i) {
        solver.go_back(bounds[i - 1], bounds[i], v);
        pass_jumps_from(bounds[i - 1]);
    }
    Results<L> results;
    for (std::size_t b = 0; b < results.size(); ++b) {
        std::vector<Lanes> of_block;
        of_block.reserve(v.size());
        for (const L& here : v) of_block.push_back(block_of(here, b));
        results[b] = checked(std::move(of_block), beyond[b].steps + solver.steps() - steps_before);
    }
    return results;
}

template <class L>
Results<L> swept(const Networks<L>& networks, double from, double to, Results<L> beyond,
                 Tolerance tolerance) {
    check_networks<L>(networks);
    SolverOf<L> solver(networks, tolerance);
    return swept_by<L>(solver, networks, from, to, std::move(beyond));
}

}  // namespace

struct SweepInStretches::Solver {
    BackwardSolver solver;
};

SweepInStretches::SweepInStretches(const Network& network, Tolerance tolerance)
    : network_(network), solver_(new Solver{{network, tolerance}}) {
    check_network(network);
}
SweepInStretches::~SweepInStretches() = default;

SweepResult SweepInStretches::go_on(double from, double to, SweepResult beyond) {
    return std::move(swept_by<Lanes>(solver_->solver, {&network_}, from, to, {std::move(beyond)}).front());
}

void pass_backward(const Jump& jump, std::vector<Lanes>& v) { pass<Lanes>({&jump}, v); }

SweepResult sweep(const Network& network, double from, double to, Question question, Tolerance tolerance) {
    const double survivor = question == Question::no_survivor ? 1.0 : 0.0;
    return sweep(network, from, to, std::vector<double>(network.type_count, survivor), tolerance);
}

SweepResult sweep(const Network& network, double from, double to, const std::vector<double>& at_horizon,
                  Tolerance tolerance) {
    SweepResult beyond;
    for (const double v : at_horizon) beyond.failure.push_back(Lanes::all(v));
    return go_on(network, from, to, std::move(beyond), tolerance);
}

SweepResult go_on(const Network& network, double from, double to, SweepResult beyond, Tolerance tolerance) {
    return std::move(swept<Lanes>({&network}, from, to, {std::move(beyond)}, tolerance).front());
}

std::array<SweepResult, 1> go_on(const std::array<const Network*, 1>& networks, double from, double to,
                                 std::array<SweepResult, 1> beyond, Tolerance tolerance) {
    return tolerance.in_single ? swept<SingleLanes>(networks, from, to, std::move(beyond), tolerance)
                               : swept<Lanes>(networks, from, to, std::move(beyond), tolerance);
}

std::array<SweepResult, 2> go_on(const std::array<const Network*, 2>& networks, double from, double to,
                                 std::array<SweepResult, 2> beyond, Tolerance tolerance) {
    return swept<PairedLanes>(networks, from, to, std::move(beyond), tolerance);
}

}  // namespace mitefall::branching
