#include "forecast/passage.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "mites/rates.h"
#include "request.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

namespace mitefall::forecast {
namespace {

using namespace fixtures;
using mites::LifeStage;

mites::Ensemble one_draw() {
    mites::Ensemble ensemble = small_ensemble();
    ensemble.draws = block_of(restless(ensemble.mode));
    return ensemble;
}

/// A tub in a room with another, and a round in it on day 6.
scenario::Scenario treated() {
    scenario::Scenario scenario;
    scenario.places = {room("room", 25), tub("there", 0), tub("other", 0, 25)};
    using M = mites::MiteParameters;
    scenario.events = {{6, scenario::Kill{1, mites::Reach::on_animal,
                                          scenario::Amount::drawn(&M::kill_spray_on_animal_published), 1}},
                       {6, scenario::Kill{1, mites::Reach::mobile_nest, scenario::Amount::number(0.6), 1}},
                       {6, scenario::Kill{2, mites::Reach::eggs, scenario::Amount::number(1), 1}},
                       {6, scenario::Residue{1, scenario::Amount::number(0.3),
                                             scenario::Amount::drawn(&M::residual_half_life), 8}}};
    return scenario;
}

PassageRequest passage_in(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                          const KnownStart& start, std::vector<double> times) {
    return {request_of(scenario, ensemble, start, 60), 1, 0, std::move(times)};
}

double part(const Shares& shares, Cohort cohort, LifeStage stage) {
    return shares.at(static_cast<std::size_t>(cohort)).at(static_cast<std::size_t>(stage));
}

double sum(const Shares& shares) {
    double all = 0;
    for (const auto& cohort : shares) all = std::accumulate(cohort.begin(), cohort.end(), all);
    return all;
}

// Of eggs just laid, with k substages left at the rate a and death at the rate l, exp(-(a + l) t) sum over j
// < k of (a t)^j / j! are eggs still (Poisson steps).
TEST(Passage, eggs_that_were_just_laid_are_eggs_as_long_as_the_closed_form_says) {
    scenario::Scenario scenario = treated();
    scenario.events.clear();
    const mites::Ensemble ensemble = one_draw();
    const std::vector<double> times{0.5, 1.5, 3};
    const auto told = passage_of(passage_in(scenario, ensemble, {{1, mites::Stage::egg, 4}}, times));
    const auto rates =
        mites::stage_rates(mites::Stage::egg, ensemble.fixed, ensemble.draws[0], scenario.places[1].climate);
    for (std::size_t t = 0; t < times.size(); ++t) {
        double term = 1, steps = 0;
        for (int j = 0; j < rates.substages; ++j) {
            steps += term;
            term *= rates.advance * times[t] / (j + 1);
        }
        const double expected = std::exp(-(rates.advance + rates.loss) * times[t]) * steps;
        EXPECT_NEAR(part(told->draws[0][t], Cohort::egg, LifeStage::egg), expected, 1e-4) << times[t];
        EXPECT_EQ(part(told->draws[0][t], Cohort::later, LifeStage::adult), 0);
    }
}

TEST(Passage, on_day_0_everything_alive_is_told_once_and_nothing_is_laid_since) {
    const scenario::Scenario scenario = treated();
    const mites::Ensemble ensemble = one_draw();
    const auto told = passage_of(passage_in(
        scenario, ensemble,
        {{1, mites::Stage::egg, 6}, {1, mites::Stage::adult_laying_1, 3}, {2, mites::Stage::larva, 50}},
        {0, 1}));
    const Shares& now = told->draws[0][0];
    EXPECT_NEAR(part(now, Cohort::egg, LifeStage::egg), 6.0 / 9, 1e-12);
    EXPECT_NEAR(part(now, Cohort::later, LifeStage::adult), 3.0 / 9, 1e-12);
    EXPECT_NEAR(sum(now), 1, 1e-12);
    EXPECT_GT(part(told->draws[0][1], Cohort::laid_since, LifeStage::egg), 0.1);
}

// What is done that day kills no egg, and of the others what the kills say: eggs pass under it.
TEST(Passage, a_round_catches_what_it_reaches_and_no_egg) {
    const scenario::Scenario scenario = treated();
    const mites::Ensemble ensemble = one_draw();
    constexpr double instant = 1e-6;
    const auto told = passage_of(passage_in(scenario, ensemble,
                                            {{1, mites::Stage::egg, 5}, {1, mites::Stage::adult_laying_1, 5}},
                                            {6, 6 + instant}));
    const Shares& before = told->draws[0][0];
    const Shares& after = told->draws[0][1];
    for (const Cohort cohort : {Cohort::egg, Cohort::later, Cohort::laid_since}) {
        EXPECT_NEAR(part(after, cohort, LifeStage::egg), part(before, cohort, LifeStage::egg), 1e-4);
        EXPECT_NEAR(part(after, cohort, LifeStage::larva), 0.4 * part(before, cohort, LifeStage::larva),
                    1e-4);
    }
    EXPECT_LT(sum(after), sum(before));
}

// Individuals against equations: 20 independent means of 2,000 runs each give the standard error of their
// mean; four of those.
TEST(Passage, mean_agrees_with_the_simulator_of_the_tub_alone) {
    const scenario::Scenario scenario = treated();
    const mites::Ensemble ensemble = one_draw();
    const KnownStart start{{1, mites::Stage::egg, 5}, {1, mites::Stage::adult_feeding_1, 5}};
    const std::vector<double> times{5, 6.5, 14};
    const auto told = passage_of(passage_in(scenario, ensemble, start, times));
    const scenario::Scenario by_itself = alone(scenario, 1, 0);
    ASSERT_EQ(by_itself.places.size(), 1U);
    constexpr int batches = 20;
    std::vector<double> sums(times.size()), squares(times.size());
    for (int batch = 0; batch < batches; ++batch) {
        simulator::SimulationRequest request;
        request.scenario = &by_itself;
        request.fixed = ensemble.fixed;
        request.draw = ensemble.draws[0];
        request.start = {{0, mites::Stage::egg, 5}, {0, mites::Stage::adult_feeding_1, 5}};
        request.to = 15;
        request.runs = 2000;
        request.seed = 500 + static_cast<std::uint64_t>(batch);
        request.report_times = times;
        const auto simulated = simulator::simulate(request);
        for (std::size_t t = 0; t < times.size(); ++t) {
            const double share = simulated.counts[t].mean / 10;
            sums[t] += share;
            squares[t] += share * share;
        }
    }
    for (std::size_t t = 0; t < times.size(); ++t) {
        const double mean = sums[t] / batches;
        const double error = std::sqrt((squares[t] / batches - mean * mean) / (batches - 1));
        EXPECT_NEAR(sum(told->draws[0][t]), mean, 4 * error) << times[t];
    }
}

TEST(Passage, a_draw_without_a_mite_there_has_no_weight) {
    const scenario::Scenario scenario = treated();
    const mites::Ensemble ensemble = one_draw();
    const auto told = passage_of(passage_in(scenario, ensemble, {{1, mites::Stage::egg, 0}}, {1}));
    EXPECT_EQ(told->weights, std::vector<double>(branching::lane_count, 0.0));
}

}  // namespace
}  // namespace mitefall::forecast
