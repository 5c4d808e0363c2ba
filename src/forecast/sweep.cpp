#include "forecast/sweep.h"

#include <algorithm>

#include "base/contract.h"
#include "forecast/integrator.h"
#include "forecast/kernel.h"
#include "forecast/solver.h"
#include "forecast/timeline.h"

namespace mitefall::forecast {
namespace {

using base::expects;

/// The state carries one cell beyond the types: the expected failures among imported particles.
void apply_backward(const Jump& jump, std::vector<Lanes>& v) {
    for (std::uint32_t m = 0; m < jump.count; ++m) {
        Lanes& here = v[jump.first + m];
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            const double there = jump.target == no_type ? 0.0 : v[jump.target + m][lane];
            here[lane] = jump.keep[lane] * here[lane] + jump.move[lane] * there + jump.seen[lane];
        }
    }
}

void apply_forward(const Jump& jump, std::vector<Lanes>& m) {
    for (std::uint32_t s = 0; s < jump.count; ++s) {
        Lanes& here = m[jump.first + s];
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            if (jump.target != no_type) m[jump.target + s][lane] += jump.move[lane] * here[lane];
            here[lane] *= jump.keep[lane] + jump.seen[lane];
        }
    }
}

void advance_forward(const Network& network, double begin, double end, Integrator& integrator,
                     std::vector<Lanes>& m) {
    const Stretch stretch = stretch_between(network, begin, end);
    std::vector<Lanes> hazard(network.runs.size());
    integrator.advance(
        m, end - begin, [&](double elapsed, const std::vector<Lanes>& state, std::vector<Lanes>& slope) {
            hazards_at(stretch, begin + elapsed, hazard);
            derive_forward(network, {stretch.values->data(), hazard.data()}, state.data(), slope.data());
            for (const Source* const source : stretch.sources) {
                for (std::size_t lane = 0; lane < lane_count; ++lane)
                    slope[source->target][lane] += source->rate[lane];
            }
        });
}

}  // namespace

SweepResult sweep(const Network& network, double from, double to, Question question, Tolerance tolerance) {
    const double survivor = question == Question::no_survivor ? 1.0 : 0.0;
    return sweep(network, from, to, std::vector<double>(network.type_count, survivor), tolerance);
}

SweepResult sweep(const Network& network, double from, double to, const std::vector<double>& at_horizon,
                  Tolerance tolerance) {
    expects(from <= to, "a sweep starts before its horizon");
    expects(at_horizon.size() == network.type_count, "a value at the horizon for every type");
    check_network(network);
    std::vector<Lanes> v(network.type_count + 1);
    for (std::size_t i = 0; i < at_horizon.size(); ++i) v[i] = Lanes::all(at_horizon[i]);
    BackwardSolver solver(network, tolerance);
    std::size_t pending = network.jumps.size();
    const auto pass_jumps_from = [&](double time) {
        for (; pending > 0 && network.jumps[pending - 1].time >= time; --pending) {
            if (network.jumps[pending - 1].time <= to) apply_backward(network.jumps[pending - 1], v);
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
    result.failure = std::move(v);
    result.steps = solver.steps();
    return result;
}

std::vector<std::vector<Lanes>> expected_course(const Network& network, double from,
                                                const std::vector<Lanes>& start,
                                                const std::vector<double>& times, Tolerance tolerance) {
    expects(start.size() == network.type_count, "a starting number for every type");
    expects(std::is_sorted(times.begin(), times.end()) && !times.empty() && times.front() >= from,
            "reported times ascend from the start");
    check_network(network);
    std::vector<Lanes> m = start;
    Integrator integrator(m.size(), tolerance);
    std::vector<std::vector<Lanes>> course;
    std::vector<double> bounds = smooth_bounds(network, from, times.back());
    bounds.insert(bounds.end(), times.begin(), times.end());
    std::sort(bounds.begin(), bounds.end());
    bounds.erase(std::unique(bounds.begin(), bounds.end()), bounds.end());
    std::size_t next_jump = 0;
    while (next_jump < network.jumps.size() && network.jumps[next_jump].time < from) ++next_jump;
    for (std::size_t i = 0; i < bounds.size(); ++i) {
        if (std::binary_search(times.begin(), times.end(), bounds[i])) course.push_back(m);
        if (i + 1 == bounds.size()) break;
        for (; next_jump < network.jumps.size() && network.jumps[next_jump].time <= bounds[i]; ++next_jump) {
            apply_forward(network.jumps[next_jump], m);
        }
        advance_forward(network, bounds[i], bounds[i + 1], integrator, m);
    }
    return course;
}

}  // namespace mitefall::forecast
