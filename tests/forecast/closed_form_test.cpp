#include <gtest/gtest.h>

#include <cmath>

#include "branching/expected_course.h"
#include "branching/sweep.h"
#include "mites/life_table.h"

namespace mitefall::forecast {
namespace {

/// One stage in which every particle gives birth and dies at constant rates.
branching::Network birth_and_death(double birth, double death) {
    branching::Network network;
    network.type_count = 1;
    network.values = {{branching::Lanes::all(0), branching::Lanes::all(death), branching::Lanes::all(birth)}};
    network.births = {{0, 2}};
    branching::Run run;
    run.count = 1;
    run.advance = 0;
    run.loss = 1;
    run.births = {0, 1};
    network.runs = {run};
    network.segments = {{0, 0}};
    return network;
}

double chance_of_extinction(double birth, double death, double time, double n) {
    const branching::SweepResult result = branching::sweep(birth_and_death(birth, death), 0, time);
    return std::exp(n * std::log1p(-result.failure[0][0]));
}

// Kendall 1948, Ann. Math. Statist. 19:1-15, equation 12: P(0 at t) = d (e^((b-d)t) - 1) / (b e^((b-d)t) -
// d), and b t / (1 + b t) when b = d.
TEST(Kendall, values_of_the_closed_form) {
    EXPECT_NEAR(chance_of_extinction(0.3, 0.1, 5, 1), 0.240156, 1e-6);
    EXPECT_NEAR(chance_of_extinction(0.2, 0.5, 10, 10), 0.733789, 1e-6);
    EXPECT_NEAR(chance_of_extinction(0.1, 0.1, 10, 1), 0.5, 1e-6);
}

TEST(Kendall, whole_curve_to_the_stated_tolerance) {
    for (const double b : {0.05, 0.3, 1.0, 4.0}) {
        for (const double d : {0.01, 0.31, 1.1, 5.0}) {
            for (const double t : {0.0, 0.1, 3.0, 40.0}) {
                const double e = std::exp((d - b) * t);
                const double survives = (b - d) / (b - d * e);  // 1 - P(0), multiplied through by e^((d-b)t)
                const double v = branching::sweep(birth_and_death(b, d), 0, t).failure[0][0];
                // Relative 1e-6 down to near the absolute tolerance of the sweep (1e-13).
                EXPECT_NEAR(v, survives, 1e-6 * survives + 1e-12) << b << ' ' << d << ' ' << t;
            }
        }
    }
}

/// Kendall 1948, equation 11: the generating function of a birth-and-death process from one particle, and its
/// derivative.
struct Generating {
    double value;
    double slope;
};

Generating kendall(double birth, double death, double time, double z) {
    const double e = std::exp((death - birth) * time);
    const double above = death * (1 - z) - (death - birth * z) * e;
    const double below = birth * (1 - z) - (death - birth * z) * e;
    const double above_slope = -death + birth * e;
    const double below_slope = -birth + birth * e;
    return {above / below, (above_slope * below - above * below_slope) / (below * below)};
}

// A look on day s finds each particle with chance d and finds nobody. Before it, E[N_t | clean] = G'_t(h) h /
// G_s(1
// - d) with h = G_(s - t)(1 - d); on day s after it and later, (1 - d) G'_s(1 - d) e^((b - d)(t - s)) / G_s(1
// - d).
TEST(Kendall, expected_numbers_given_that_a_look_found_nothing) {
    const double birth = 0.3, death = 0.2, look = 6, detection = 0.4;
    branching::Network network = birth_and_death(birth, death);
    branching::Jump jump;
    jump.time = look;
    jump.count = 1;
    jump.keep = branching::Lanes::all(1 - detection);
    jump.seen = branching::Lanes::all(detection);
    network.jumps = {jump};
    const std::vector<double> times{0, 2, 5.5, 6, 9};
    const branching::ExpectedCourse expected(network, 0, times, 100, {1e-9, 1e-13});
    const auto course = expected.follow({branching::Lanes::all(1)});
    const double clean = kendall(birth, death, look, 1 - detection).value;
    EXPECT_NEAR(1 - expected.checks().failure[0][0], clean, 1e-8);
    for (std::size_t t = 0; t + 1 < times.size(); ++t) {
        const double h = kendall(birth, death, look - times[t], 1 - detection).value;
        EXPECT_NEAR(course[t][0][0], kendall(birth, death, times[t], h).slope * h / clean, 1e-6) << times[t];
    }
    const double left = (1 - detection) * kendall(birth, death, look, 1 - detection).slope / clean;
    EXPECT_NEAR(course[4][0][0], left * std::exp((birth - death) * (times[4] - look)), 1e-6);
    // Without the condition: e^((b - d) t).
    const auto plain = branching::expected_course(network, 0, {branching::Lanes::all(1)}, times);
    EXPECT_NEAR(plain[4][0][0], std::exp((birth - death) * 9), 1e-6);
}

TEST(Kendall, tiny_chances_of_survival_keep_their_digits) {
    // b = 0.2, d = 0.9, t = 60: v = (b - d) / (b - d e^((d-b)t)) = 0.7778 e^-42, far below double rounding of
    // 1 - v.
    const double v =
        branching::sweep(birth_and_death(0.2, 0.9), 0, 60, branching::Question::no_survivor, {1e-9, 1e-300})
            .failure[0][0];
    EXPECT_NEAR(v / ((0.2 - 0.9) / (0.2 - 0.9 * std::exp(0.7 * 60))), 1, 1e-5);
}

// A pure Erlang chain: chance that a stage of k substages of rate r is not over after t is Q(k, r t), the
// regularized upper incomplete gamma function (Abramowitz & Stegun 26.4.21).
TEST(Chain, erlang_stage_is_the_gamma_tail) {
    branching::Network network;
    network.type_count = 9;
    network.values = {{branching::Lanes::all(4.5), branching::Lanes::all(0)}};
    branching::Run run;
    run.count = 9;
    run.advance = 0;
    run.loss = 1;
    network.runs = {run};
    network.segments = {{0, 0}};
    double tail = 0;
    double term = std::exp(-4.5 * 2.0);
    for (int n = 0; n < 9; ++n) {
        tail += term;
        term *= 4.5 * 2.0 / (n + 1);
    }
    EXPECT_NEAR(branching::sweep(network, 0, 2).failure[0][0], tail, 1e-8);
}

TEST(Source, imported_particles_are_a_poisson_stream) {
    // Immigration at rate c into a death process of rate d: the number alive at t is Poisson with mean c/d (1
    // - e^-dt).
    branching::Network network = birth_and_death(0, 0.3);
    network.sources = {{0, 8, 0, branching::Lanes::all(0.7)}};
    EXPECT_NEAR(branching::sweep(network, 0, 8).imported[0], 0.7 / 0.3 * (1 - std::exp(-0.3 * 8)), 1e-7);
}

// Birch 1948, J. Anim. Ecol. 17:15-26, table 2: the rice weevil Calandra oryzae at 29 C, pivotal ages in
// weeks.
TEST(LifeTable, birch_rice_weevil) {
    const double survival[] = {.87, .83, .81, .80, .79, .77, .74, .66, .59, .52, .45, .36, .29, .25, .19};
    const double fecundity[] = {20, 23, 15, 12.5, 12.5, 14, 12.5, 14.5, 11, 9.5, 2.5, 2.5, 2.5, 4, 1};
    std::vector<mites::AgeClass> table;
    for (int i = 0; i < 15; ++i) table.push_back({4.5 + i, survival[i], fecundity[i]});
    EXPECT_NEAR(mites::net_reproduction(table), 113.485, 0.0005);
    EXPECT_NEAR(mites::intrinsic_rate(table), 0.76198, 0.000005);
    EXPECT_NEAR(mites::generation_time(table), 6.2097, 0.00005);
}

}  // namespace
}  // namespace mitefall::forecast
