#include <gtest/gtest.h>

#include <boost/math/distributions/poisson.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/numeric/odeint.hpp>

#include "branching/split.h"
#include "branching/step_kernel.h"
#include "shared/fixtures.h"

// The backward solver against a second way: the equations of docs/model.md section 6 written out plainly for
// one draw, solved by Fehlberg's method of order 7(8) from Boost.Odeint.
namespace mitefall::forecast {
namespace {

using State = std::vector<double>;

/// `middle`: of the stretch between two events, which says what is in force.
double hazard_on(const branching::Network& network, std::uint32_t run, double time, double middle,
                 std::size_t lane) {
    double sum = 0;
    for (const branching::HazardWindow& window : network.hazards) {
        const bool acts = window.begin < middle && middle < window.end &&
                          std::count(window.runs.begin(), window.runs.end(), run) > 0;
        if (!acts) continue;
        const double dry = std::max(0.0, time - window.decays_from[lane]);
        sum += window.level[lane] * std::exp2(-dry / window.half_life[lane]);
    }
    return sum;
}

State slope_of(const branching::Network& network, const std::vector<branching::Lanes>& values, const State& v,
               double time, double middle, std::size_t lane) {
    State slope(v.size());
    for (std::uint32_t r = 0; r < network.runs.size(); ++r) {
        const branching::Run& run = network.runs[r];
        const double advance = values[run.advance][lane];
        const double loss = values[run.loss][lane] + hazard_on(network, r, time, middle, lane);
        for (std::uint32_t m = 0; m < run.count; ++m) {
            const double here = v[run.first + m];
            double next = 0;
            if (m + 1 < run.count) {
                next = v[run.first + m + 1];
            } else {
                for (std::uint32_t e = run.ends.first; e < run.ends.first + run.ends.count; ++e)
                    next += values[network.ends[e].share][lane] * v[network.ends[e].target];
            }
            double sum = advance * (next - here) - loss * here;
            for (std::uint32_t e = run.exits.first; e < run.exits.first + run.exits.count; ++e) {
                const branching::Exit& exit = network.exits[e];
                sum += values[exit.rate][lane] * (v[exit.target + (exit.same_substage ? m : 0)] - here);
            }
            for (std::uint32_t b = run.births.first; b < run.births.first + run.births.count; ++b)
                sum += values[network.births[b].rate][lane] * v[network.births[b].target] * (1 - here);
            slope[run.first + m] = sum;
        }
    }
    return slope;
}

const std::vector<branching::Lanes>& values_at(const branching::Network& network, double time) {
    std::size_t s = 0;
    while (s + 1 < network.segments.size() && network.segments[s + 1].begin < time) ++s;
    return network.values[network.segments[s].value_table];
}

/// v at `from` for one draw.
State plain_sweep(const branching::Network& network, double from, double to, std::size_t lane) {
    namespace odeint = boost::numeric::odeint;
    State v(network.type_count, 1.0);
    std::vector<double> bounds{from, to};
    for (const branching::Segment& segment : network.segments) bounds.push_back(segment.begin);
    for (const branching::HazardWindow& window : network.hazards)
        bounds.insert(bounds.end(), {window.begin, window.decays_from[0], window.end});
    for (const branching::Jump& jump : network.jumps) bounds.push_back(jump.time);
    std::sort(bounds.begin(), bounds.end());
    bounds.erase(std::unique(bounds.begin(), bounds.end()), bounds.end());
    const auto stepper = odeint::make_controlled(1e-14, 1e-10, odeint::runge_kutta_fehlberg78<State>());
    for (std::size_t i = bounds.size(); i-- > 0;) {
        if (bounds[i] > to || bounds[i] < from) continue;
        for (std::size_t j = network.jumps.size(); j-- > 0;) {
            const branching::Jump& jump = network.jumps[j];
            if (jump.time != bounds[i]) continue;
            for (std::uint32_t m = 0; m < jump.count; ++m) {
                const double there = jump.target == branching::no_type ? 0 : v[jump.target + m];
                v[jump.first + m] =
                    jump.keep[lane] * v[jump.first + m] + jump.move[lane] * there + jump.seen[lane];
            }
        }
        if (i == 0 || bounds[i] <= from) break;
        const double end = bounds[i];
        const double middle = (end + bounds[i - 1]) / 2;
        const auto& values = values_at(network, middle);
        odeint::integrate_adaptive(
            stepper,
            [&](const State& state, State& slope, double tau) {
                slope = slope_of(network, values, state, end - tau, middle, lane);
            },
            v, 0.0, end - bounds[i - 1], 0.01);
    }
    return v;
}

double worst_difference(const std::vector<branching::Lanes>& a, const State& b, std::size_t lane) {
    double worst = 0;
    for (std::size_t i = 0; i < b.size(); ++i)
        worst = std::max(worst, std::abs(a[i][lane] - b[i]) / (1e-9 + std::abs(b[i])));
    return worst;
}

class SolverOnRandomNetworks : public testing::TestWithParam<int> {};

TEST_P(SolverOnRandomNetworks, agrees_with_fehlberg78) {
    const scenario::Scenario scenario =
        fixtures::random_scenario(static_cast<std::uint64_t>(GetParam()), true);
    const network::Classes classes = network::lump(scenario);
    const auto& ensemble = fixtures::small_ensemble();
    const network::MiteNetwork compiled = network::compile(
        scenario, classes, ensemble.fixed, std::span(ensemble.draws).first(branching::lane_count));
    const auto swept = branching::sweep(compiled.network, 0, 60);
    const auto shown =
        branching::sweep(compiled.network, 0, 60, branching::Question::no_survivor, branching::for_show);
    for (const std::size_t lane : {std::size_t{0}, std::size_t{5}}) {
        const State plain = plain_sweep(compiled.network, 0, 60, lane);
        EXPECT_LT(worst_difference(swept.failure, plain, lane), 2e-6);
        EXPECT_LT(worst_difference(shown.failure, plain, lane), 2e-3);
    }
}
/// Two blocks of draws, each with residues of its own, side by side and one alone.
TEST_P(SolverOnRandomNetworks, agrees_with_fehlberg78_in_single_precision) {
    const scenario::Scenario scenario =
        fixtures::random_scenario(static_cast<std::uint64_t>(GetParam()), true);
    const network::Classes classes = network::lump(scenario);
    const mites::Ensemble ensemble =
        mites::draw_parameters(fixtures::tables(), 2 * branching::lane_count, 20261130);
    std::vector<mites::MiteParameters> draws = ensemble.draws;
    for (mites::MiteParameters& draw : draws) draw.erlang_shape = 6;
    const auto compiled = [&](std::size_t block) {
        return network::compile(
            scenario, classes, ensemble.fixed,
            std::span(draws).subspan(block * branching::lane_count, branching::lane_count));
    };
    const network::MiteNetwork first = compiled(0);
    const network::MiteNetwork second = compiled(1);
    branching::SweepResult horizon;
    horizon.failure.assign(first.network.type_count, branching::Lanes::all(1));
    const auto swept = branching::go_on(std::array{&first.network, &second.network}, 0, 60,
                                        {horizon, horizon}, branching::for_screening);
    const auto alone =
        branching::go_on(std::array{&first.network}, 0, 60, {horizon}, branching::for_screening);
    constexpr double of_screening = 0.03;
    for (const std::size_t lane : {std::size_t{0}, std::size_t{5}}) {
        EXPECT_LT(worst_difference(swept[0].failure, plain_sweep(first.network, 0, 60, lane), lane),
                  of_screening);
        EXPECT_LT(worst_difference(swept[1].failure, plain_sweep(second.network, 0, 60, lane), lane),
                  of_screening);
        EXPECT_LT(worst_difference(alone[0].failure, plain_sweep(first.network, 0, 60, lane), lane),
                  of_screening);
    }
}

TEST_P(SolverOnRandomNetworks, goes_over_several_stretches_as_solvers_of_each_would) {
    const scenario::Scenario scenario =
        fixtures::random_scenario(static_cast<std::uint64_t>(GetParam()), true);
    const network::Classes classes = network::lump(scenario);
    const auto& ensemble = fixtures::small_ensemble();
    const network::MiteNetwork compiled = network::compile(
        scenario, classes, ensemble.fixed, std::span(ensemble.draws).first(branching::lane_count));
    constexpr branching::Tolerance rough{1e-3, 1e-9};
    branching::SweepResult each;
    each.failure.assign(compiled.network.type_count, branching::Lanes::all(1));
    branching::SweepResult all = each;
    branching::SweepInStretches sweep(compiled.network, rough);
    for (double until = 60; until > 0; until -= 12) {
        each = branching::go_on(compiled.network, until - 12, until, std::move(each), rough);
        all = sweep.go_on(until - 12, until, std::move(all));
    }
    EXPECT_EQ(all.steps, each.steps);
    for (std::size_t type = 0; type < all.failure.size(); ++type) {
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane)
            EXPECT_EQ(all.failure[type][lane], each.failure[type][lane]) << "the very same number";
    }
}
INSTANTIATE_TEST_SUITE_P(Seeds, SolverOnRandomNetworks, testing::Range(1, 13));

/// A chain without losses passes on what came in by the Erlang distribution function (Poisson process).
TEST(ChainWeights, follow_the_poisson_process) {
    for (const std::size_t substages : {1U, 4U, 9U, 16U}) {
        for (const double step : {0.01, 0.5, 2.0}) {
            const double advance = 5;
            std::vector<branching::Lanes> block(branching::ChainWeights<branching::Lanes>::size(substages));
            branching::fill_chain_weights(branching::Lanes::all(advance), branching::Lanes{}, substages, step,
                                          block.data());
            const branching::ChainWeights<branching::Lanes> w =
                branching::ChainWeights<branching::Lanes>::within(block.data(), substages);
            const boost::math::poisson moves(advance * step);
            for (std::size_t n = 0; n < substages; ++n) {
                EXPECT_NEAR(w.home_full[n][3], boost::math::pdf(moves, static_cast<double>(n)), 1e-14);
                const double through = static_cast<double>(substages - n);
                EXPECT_NEAR(w.refill[4 * n][0] + w.refill[4 * n + 2][0],
                            boost::math::gamma_p(through, advance * step), 1e-13)
                    << "a steady input of 1 fills substage " << n;
            }
            EXPECT_NEAR(w.half[0][7] + w.half[2][7],
                        boost::math::gamma_p(static_cast<double>(substages), advance * step / 2), 1e-13);
            EXPECT_NEAR(w.full[0][7] + w.full[2][7] + w.full[3][7],
                        boost::math::gamma_p(static_cast<double>(substages), advance * step), 1e-13);
        }
    }
}

/// With losses: a chain of one substage, input t (slope 1) from 0. Integral of a exp(-d (h - t)) t dt by
/// hand.
TEST(ChainWeights, carry_a_ramp_through_one_lossy_substage) {
    const double a = 3, d = 4, h = 0.7;
    std::vector<branching::Lanes> block(branching::ChainWeights<branching::Lanes>::size(1));
    branching::fill_chain_weights(branching::Lanes::all(a), branching::Lanes::all(d - a), 1, h, block.data());
    const branching::ChainWeights<branching::Lanes> w =
        branching::ChainWeights<branching::Lanes>::within(block.data(), 1);
    const double expected = a * (h / d - (1 - std::exp(-d * h)) / (d * d));
    EXPECT_NEAR(w.refill[1][0] * h + w.refill[2][0] * h + w.refill[3][0] * h, expected, 1e-14);
    EXPECT_NEAR(w.full[1][0] * h + w.full[2][0] * h / 2 + w.full[3][0] * h, expected, 1e-14);
}

branching::Network ring_of_chains() {
    branching::Network network;
    network.values = {{branching::Lanes::all(2), branching::Lanes::all(0.1), branching::Lanes::all(0.9),
                       branching::Lanes::all(0.3)}};
    network.segments = {{0, 0}};
    network.runs = {{0, 3, 0, 1, {0, 0}, {0, 1}, {0, 0}}, {3, 2, 0, 1, {0, 0}, {1, 1}, {0, 0}}};
    network.ends = {{3, 2}, {0, 2}};
    network.type_count = 5;
    return network;
}

TEST(Split, breaks_a_ring_of_chains) {
    const branching::Split parts = branching::split(ring_of_chains());
    EXPECT_EQ(parts.chains.size(), 1U);
    EXPECT_EQ(parts.open_runs.size(), 1U);
    const auto swept = branching::sweep(ring_of_chains(), 0, 5);
    const State plain = plain_sweep(ring_of_chains(), 0, 5, 0);
    EXPECT_LT(worst_difference(swept.failure, plain, 0), 1e-6);
}

TEST(Split, keeps_open_what_is_entered_in_the_middle) {
    branching::Network network = ring_of_chains();
    network.ends[0].target = 4;  // into the last substage
    network.ends[1].share = 3;
    const branching::Split parts = branching::split(network);
    for (const branching::Chain& chain : parts.chains) EXPECT_NE(chain.first, 3U);
    const auto swept = branching::sweep(network, 0, 5);
    EXPECT_LT(worst_difference(swept.failure, plain_sweep(network, 0, 5, 0), 0), 1e-6);
}

TEST(Split, takes_every_mite_stage_that_only_delays_as_a_chain) {
    scenario::Scenario scenario;
    scenario.places = {fixtures::room("room"), fixtures::tub("tub", 0)};
    const network::Classes classes = network::lump(scenario);
    const auto& ensemble = fixtures::small_ensemble();
    const network::MiteNetwork compiled = network::compile(
        scenario, classes, ensemble.fixed, std::span(ensemble.draws).first(branching::lane_count));
    // In the tub egg, larva, deutonymph and four feeding stages; in the room egg and larva.
    EXPECT_EQ(branching::split(compiled.network).chains.size(), 9U);
}

}  // namespace
}  // namespace mitefall::forecast
