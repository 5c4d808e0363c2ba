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

}  // namespace

void pass_backward(const Jump& jump, std::vector<Lanes>& v) {
    for (std::uint32_t m = 0; m < jump.count; ++m) {
        Lanes& here = v[jump.first + m];
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            const double there = jump.target == no_type ? 0.0 : v[jump.target + m][lane];
            here[lane] = jump.keep[lane] * here[lane] + jump.move[lane] * there + jump.seen[lane];
        }
    }
}

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
    expects(from <= to, "a sweep starts before its horizon");
    expects(beyond.failure.size() == network.type_count, "a value at the horizon for every type");
    check_network(network);
    std::vector<Lanes> v = std::move(beyond.failure);
    v.push_back(beyond.imported);
    BackwardSolver solver(network, tolerance);
    std::size_t pending = network.jumps.size();
    const auto pass_jumps_from = [&](double time) {
        for (; pending > 0 && network.jumps[pending - 1].time >= time; --pending) {
            if (network.jumps[pending - 1].time <= to) pass_backward(network.jumps[pending - 1], v);
        }
    };
    const std::vector<double> bounds = smooth_bounds(network, from, to);
    pass_jumps_from(to);
    for (std::size_t i = bounds.size() - 1; i > 0; --i) {
        solver.go_back(bounds[i - 1], bounds[i], v);
        pass_jumps_from(bounds[i - 1]);
    }
    SweepResult result;
    result.imported = v.back();
    v.pop_back();
    for (Lanes& here : v) {
        for (double& chance : here.x) chance = checked_chance(chance);
    }
    result.failure = std::move(v);
    result.steps = beyond.steps + solver.steps();
    return result;
}

}  // namespace mitefall::branching
