#include "forecast/course_of_counts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "branching/expected_course.h"
#include "mites/rates.h"
#include "request.h"
#include "scenario/seen.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

namespace mitefall::forecast {
namespace {

using namespace fixtures;

constexpr double horizon = 35.3;

/// Two rooms, two of the tubs alike, a round, a contact and a residue.
scenario::Scenario small_collection() {
    scenario::Scenario scenario;
    scenario.places = {room("room", 25, {1}), room("hall", 23, {0}), tub("sighted", 0),
                       tub("alike", 0),       tub("alike too", 0),   tub("cool", 1, 25)};
    using M = mites::MiteParameters;
    scenario.events = {{3, scenario::Contact{2, 4, mites::Reach::on_animal, scenario::Amount::number(0.2)}},
                       {7, scenario::Kill{2, mites::Reach::on_animal,
                                          scenario::Amount::drawn(&M::kill_spray_on_animal_published), 1}},
                       {7, scenario::Kill{2, mites::Reach::mobile_nest, scenario::Amount::number(0.6), 1}},
                       {7, scenario::Residue{2, scenario::Amount::number(0.3),
                                             scenario::Amount::drawn(&M::residual_half_life), 9}}};
    return scenario;
}

/// Eight copies of one draw that walks and dies more than is likely, so that single runs can be followed.
mites::Ensemble one_draw() {
    mites::Ensemble ensemble = small_ensemble();
    ensemble.draws = block_of(restless(ensemble.mode));
    return ensemble;
}

ForecastRequest request_for(const scenario::Scenario& scenario, const mites::Ensemble& ensemble) {
    return request_of(scenario, ensemble, {{2, mites::Stage::adult_feeding_1, 2}, {2, mites::Stage::egg, 3}},
                      horizon);
}

void expect_bound_of_markov(const ForecastRequest& request) {
    const auto days = days_between(1.5, 36.5, 7);
    const auto counts = course_of_counts(request, days);
    const auto chance = chance_by_day(request, days);
    for (std::size_t t = 0; t < days.size(); ++t)
        EXPECT_LE(1 - (*chance)[t].mean, counts->collection[t].all.mean * (1 + 1e-3)) << days[t];
}

// Individuals against equations. The variance of a run is estimated from batches: 20 independent means of
// 2,000 runs each give the standard error of their mean; four of those, 19 degrees of freedom: t = 4 is about
// one false alarm in 1,300 for each of four comparisons, and the seed is fixed.
TEST(CourseOfCounts, mean_agrees_with_the_simulator) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble ensemble = one_draw();
    const std::vector<double> times{2.3, 8.3, 21.3, horizon};
    const auto course = course_of_counts(request_for(scenario, ensemble), times);
    ASSERT_TRUE(course);
    constexpr int batches = 20;
    std::vector<double> sum(times.size()), squares(times.size());
    for (int batch = 0; batch < batches; ++batch) {
        simulator::SimulationRequest request;
        request.scenario = &scenario;
        request.fixed = ensemble.fixed;
        request.draw = ensemble.draws[0];
        request.start = {{2, mites::Stage::adult_feeding_1, 2}, {2, mites::Stage::egg, 3}};
        request.to = horizon;
        request.runs = 2000;
        request.seed = 100 + static_cast<std::uint64_t>(batch);
        request.report_times = times;
        const simulator::SimulationResult simulated = simulator::simulate(request);
        for (std::size_t t = 0; t < times.size(); ++t) {
            sum[t] += simulated.counts[t].mean;
            squares[t] += simulated.counts[t].mean * simulated.counts[t].mean;
        }
    }
    for (std::size_t t = 0; t < times.size(); ++t) {
        const double mean = sum[t] / batches;
        const double error = std::sqrt((squares[t] / batches - mean * mean) / (batches - 1));
        EXPECT_NEAR(course->collection[t].all.mean, mean, 4 * error) << times[t];
    }
}

// The slow second way: every place its own class, types added up by hand.
TEST(CourseOfCounts, numbers_by_place_are_those_of_places_kept_apart) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble ensemble = one_draw();
    const network::Classes apart = network::keep_apart(scenario);
    const network::MiteNetwork compiled = network::compile(scenario, apart, ensemble.fixed, ensemble.draws);
    const auto at = [&](scenario::PlaceIndex place, mites::Stage stage) {
        return compiled.layout.first[place][static_cast<std::size_t>(stage)];
    };
    std::vector<branching::Lanes> numbers(compiled.network.type_count);
    numbers[at(2, mites::Stage::adult_feeding_1)] = branching::Lanes::all(2);
    numbers[at(2, mites::Stage::egg)] = branching::Lanes::all(3);
    const auto slow = branching::expected_course(compiled.network, 0, numbers, {20});
    const auto course = course_of_counts(request_for(scenario, ensemble), {20});
    ASSERT_EQ(course->places.size(), scenario.places.size());
    for (scenario::PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        double all = 0, on = 0, eggs = 0;
        for (const mites::Stage stage : mites::all_stages) {
            if (at(place, stage) == branching::no_type) continue;
            for (std::uint32_t m = 0; m < compiled.layout.substages(stage); ++m) {
                const double n = slow[0][at(place, stage) + m][0];
                all += n;
                if (mites::is_on_animal(mites::activity_of(stage))) on += n;
                if (stage == mites::Stage::egg) eggs += n;
            }
        }
        const CountBands& here = course->places[place][0];
        // Solved to 1e-4 of each step against 1e-7.
        EXPECT_NEAR(here.all.mean, all, 1e-3 * all + 1e-9) << scenario.places[place].name;
        EXPECT_NEAR(here.on_animals.mean, on, 1e-3 * on + 1e-9);
        EXPECT_NEAR(here.eggs.mean, eggs, 1e-3 * eggs + 1e-9);
        EXPECT_NEAR(here.in_nest.mean, all - on - eggs, 2e-3 * all + 1e-9);
    }
    EXPECT_GT(course->places[4][0].all.mean, 1.01 * course->places[3][0].all.mean)
        << "the target of a contact has more than its double";
}

SightedStart a_sighting() { return {{3, 0, 3, 20, true, 2, 10}}; }

/// The same start two ways: by the forecast and by the course.
TEST(CourseOfCounts, begins_with_what_the_forecast_begins_with) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble& ensemble = small_ensemble();
    ForecastRequest request = request_for(scenario, ensemble);
    request.start = a_sighting();
    request.from = 20;
    const auto forecast = forecast_clear(request);
    const auto course = course_of_counts(request, {20, 30});
    EXPECT_NEAR(course->collection[0].all.mean / forecast->mites_now.mean, 1, 1e-3);
    EXPECT_NEAR(course->collection[0].all.p10 / forecast->mites_now.p10, 1, 1e-3);
    EXPECT_NEAR(course->collection[0].all.p90 / forecast->mites_now.p90, 1, 1e-3);
    for (scenario::PlaceIndex place = 0; place < scenario.places.size(); ++place)
        EXPECT_NEAR(course->places[place][0].all.mean, forecast->mites_now_by_place[place].mean,
                    1e-3 * forecast->mites_now_by_place[place].mean + 1e-12);
    request.counts = false;
    const auto uncounted = forecast_clear(request);
    EXPECT_EQ(uncounted->clear.mean, forecast->clear.mean);
    EXPECT_TRUE(uncounted->mites_now_by_place.empty());
}

/// A belief of two particles in one draw: numbers are the weighted mean, and only that draw has any.
TEST(CourseOfCounts, begins_with_the_mean_of_the_particles) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble& ensemble = small_ensemble();
    belief::Belief belief;
    belief.draw_weight.assign(ensemble.draws.size(), 0);
    belief.draw_weight[1] = 1;
    for (const mites::MiteParameters& draw : ensemble.draws) belief.shapes.push_back(draw.erlang_shape);
    belief.particles = {
        {0.25, 1, 0, {0}, {{3, mites::Stage::egg, 8, 0}}},
        {0.75, 1, 0, {0}, {{3, mites::Stage::adult_feeding_1, 4, 0}, {2, mites::Stage::egg, 4, 1}}}};
    ForecastRequest request = request_for(scenario, ensemble);
    request.start = &belief;
    const auto course = course_of_counts(request, {0}, belief.draw_weight);
    EXPECT_NEAR(course->collection[0].eggs.mean, 0.25 * 8 + 0.75 * 4, 1e-12);
    EXPECT_NEAR(course->collection[0].on_animals.mean, 0.75 * 4, 1e-12);
    EXPECT_NEAR(course->places[3][0].eggs.mean, 0.25 * 8, 1e-12);
}

// P(not clear) <= E[number]: Markov's inequality, draw by draw and so in the mean.
TEST(CourseOfCounts, the_chance_of_not_being_clear_is_at_most_the_number_expected) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble& ensemble = small_ensemble();
    expect_bound_of_markov(request_for(scenario, ensemble));
}

TEST(ChanceByDay, ends_with_the_forecast_and_grows_when_nothing_is_done_to_stop_it) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble& ensemble = small_ensemble();
    const ForecastRequest request = request_for(scenario, ensemble);
    const auto curve = chance_by_day(request, days_between(0, horizon, 7));
    ASSERT_EQ(curve->size(), 7U);
    EXPECT_EQ(curve->back().mean, forecast_clear(request)->clear.mean);
    EXPECT_EQ((*curve)[0].mean, 0) << "mites known to be there";
    // Nothing comes from outside: who is clear stays clear. Solver error of a chance: 1e-5.
    for (std::size_t t = 1; t < curve->size(); ++t) EXPECT_GE((*curve)[t].mean, (*curve)[t - 1].mean - 1e-5);
}

TEST(WeightedBand, equal_weights_and_repeated_values) {
    std::vector<double> values;
    for (int i = 0; i < 100; ++i) values.push_back((i * 37) % 100);
    const base::Band alike = base::band_of(values, std::vector<double>(100, 0.3));
    EXPECT_NEAR(alike.mean, 49.5, 1e-12);
    EXPECT_EQ(alike.p10, 9);
    EXPECT_EQ(alike.p90, 89);
    const base::Band heavy = base::band_of({1, 2, 3}, std::vector<double>{0, 1, 8});
    EXPECT_NEAR(heavy.mean, 26.0 / 9, 1e-12);
    EXPECT_EQ(heavy.p10, 2);
    EXPECT_EQ(heavy.p90, 3);
}

TEST(CourseOfCounts, weights_choose_among_draws) {
    const scenario::Scenario scenario = small_collection();
    const mites::Ensemble& ensemble = small_ensemble();
    const ForecastRequest request = request_for(scenario, ensemble);
    std::vector<double> only_third(ensemble.draws.size(), 0);
    only_third[2] = 5;
    const auto third = course_of_counts(request, {20}, only_third);
    EXPECT_EQ(third->collection[0].all.p10, third->collection[0].all.p90);
    EXPECT_NEAR(third->collection[0].all.mean, third->collection[0].all.p10, 1e-12);
}

/// A look-over of the sighted tub on a day finds nothing.
scenario::Scenario with_check_on(double day) {
    scenario::Scenario scenario = small_collection();
    const scenario::CleanCheck check{2, scenario::Amount::number(0.4), scenario::Amount::number(0.5), true,
                                     scenario::Amount::number(0)};
    scenario.events.push_back({day, check});
    std::stable_sort(scenario.events.begin(), scenario.events.end(),
                     [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
    return scenario;
}

CourseOfCounts counts_of(const scenario::Scenario& scenario, const std::vector<double>& times) {
    ForecastRequest request = request_for(scenario, small_ensemble());
    request.from = 1;
    return course_of_counts(request, times).value();
}

// Later numbers may be higher: who was not seen feeding may be laying already.
TEST(CourseOfCounts, a_clean_check_counts_from_its_day_on) {
    const std::vector<double> times{4, 5, 10};
    const auto unchecked = counts_of(with_check_on(21), times);
    const auto checked = counts_of(with_check_on(5), times);
    const auto too_early = counts_of(with_check_on(0.5), times);
    // A check is one more day on which the solver stops: a step's error is 1e-4.
    const auto are_alike = [&](const CountBands& a, const CountBands& b) {
        return std::abs(a.all.mean - b.all.mean) < 1e-3 * a.all.mean;
    };
    EXPECT_TRUE(are_alike(checked.collection[0], unchecked.collection[0])) << "the day before";
    EXPECT_LT(checked.collection[1].on_animals.mean, 0.95 * unchecked.collection[1].on_animals.mean);
    EXPECT_FALSE(are_alike(checked.collection[2], unchecked.collection[2]));
    for (std::size_t t = 0; t < times.size(); ++t)
        EXPECT_TRUE(are_alike(too_early.collection[t], unchecked.collection[t])) << "before the start";
}

// The chance of clear takes the same checks into account: the bound of Markov holds given them too.
TEST(CourseOfCounts, the_bound_on_the_chance_holds_given_a_clean_check) {
    const scenario::Scenario scenario = with_check_on(12);
    expect_bound_of_markov(request_for(scenario, small_ensemble()));
}

/// Of two states of a draw the one with many adults in sight would have shown them.
TEST(CourseOfCounts, a_clean_check_weighs_the_states_and_draws_of_a_belief) {
    const scenario::Scenario scenario = with_check_on(5);
    const mites::Ensemble& ensemble = small_ensemble();
    belief::Belief belief;
    belief.at = 5;
    belief.draw_weight.assign(ensemble.draws.size(), 0);
    belief.draw_weight[1] = 1;
    for (const mites::MiteParameters& draw : ensemble.draws) belief.shapes.push_back(draw.erlang_shape);
    belief.particles = {{0.5, 1, 0, {0}, {{2, mites::Stage::egg, 8, 0}}},
                        {0.5, 1, 0, {0}, {{2, mites::Stage::adult_feeding_1, 4, 0}}}};
    ForecastRequest request = request_for(scenario, ensemble);
    request.start = &belief;
    request.from = 5;
    const auto course = course_of_counts(request, {5}, belief.draw_weight);
    const scenario::CleanCheck& check = std::get<scenario::CleanCheck>(scenario.events[1].what);
    const double seen =
        scenario::chance_to_be_seen(check, mites::Activity::adult_feeding, ensemble.fixed, ensemble.draws[1]);
    const double missed = std::pow(1 - seen, 4);  // all four of them
    EXPECT_NEAR(course->collection[0].eggs.mean, 8 / (1 + missed), 1e-9);
    EXPECT_NEAR(course->collection[0].on_animals.mean, 4 * missed / (1 + missed), 1e-9);
    request.to = 5;
    EXPECT_NEAR(forecast_clear(request)->mites_now.mean, course->collection[0].all.mean, 1e-9);
}

TEST(CourseOfCounts, can_be_cancelled) {
    const scenario::Scenario scenario = small_collection();
    ForecastRequest request = request_for(scenario, small_ensemble());
    request.progress = [](double) { return false; };
    EXPECT_FALSE(course_of_counts(request, {10}));
    EXPECT_FALSE(chance_by_day(request, {10}));
}

TEST(DaysBetween, has_both_ends) {
    EXPECT_EQ(days_between(2, 10, 4), (std::vector<double>{2, 6, 10}));
    EXPECT_EQ(days_between(2, 9, 4), (std::vector<double>{2, 6, 9}));
    EXPECT_EQ(days_between(2, 2, 4), (std::vector<double>{2}));
}

}  // namespace
}  // namespace mitefall::forecast
