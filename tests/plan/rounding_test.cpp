#include "plan/rounding.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plan/large.h"
#include "plan/search.h"
#include "scenario/climates.h"

// Climates put together in a search, against the same with every climate as it is.
namespace mitefall::plan {
namespace {

records::Climate climate(double day, double night, double humidity) {
    return {units::celsius(day), units::celsius(night), units::relative_humidity_percent(humidity)};
}

double day_of(const scenario::Place& place) { return units::in_celsius(place.climate.day); }

scenario::Scenario three_tubs() {
    scenario::Scenario scenario;
    scenario.places.resize(5);
    scenario.places[0].is_room = true;
    scenario.places[0].climate = climate(24.3, 22, 50);
    for (scenario::PlaceIndex p = 1; p < 5; ++p) scenario.places[p].room = 0;
    scenario.places[1].climate = climate(28.2, 25, 60);
    scenario.places[2].climate = climate(28.6, 25, 62);
    scenario.places[3].climate = climate(29.1, 25, 60);
    scenario.places[4].climate = climate(28.4, 25, 60);
    scenario.events.push_back({3, scenario::ClimateChange{4, climate(30, 25, 60)}});
    return scenario;
}

TEST(Rounding, puts_neighbours_at_their_mean_and_leaves_the_others) {
    const scenario::Scenario rounded = with_rounded_climates(three_tubs(), {1, 1, 1, 1, 1});
    EXPECT_DOUBLE_EQ(day_of(rounded.places[0]), 24.3) << "a room";
    EXPECT_DOUBLE_EQ(day_of(rounded.places[1]), 28.4);
    EXPECT_DOUBLE_EQ(day_of(rounded.places[2]), 28.4);
    EXPECT_DOUBLE_EQ(units::in_percent(rounded.places[2].climate.humidity), 61);
    EXPECT_DOUBLE_EQ(day_of(rounded.places[3]), 29.1) << "in another box";
    EXPECT_DOUBLE_EQ(day_of(rounded.places[4]), 28.4) << "its climate changes, so it stands by itself";
    EXPECT_EQ(climates_in(three_tubs()), 4U);
    EXPECT_EQ(climates_in(rounded), 3U);
    EXPECT_EQ(climates_in(with_rounded_climates(three_tubs(), {0, 0, 0, 0, 0})), 4U);
}

TEST(Rounding, few_climates_are_told_apart_as_they_are) {
    const Large shed(50, Climates::two);
    EXPECT_FALSE(choose_plan(shed.setting, shed.ensemble, shed.belief, {})->rounding);
}

TEST(Rounding, the_chances_of_a_search_are_those_of_every_climate_to_within_a_point) {
    const Large shed(50, Climates::all);
    const PlanChoice choice = choose_plan(shed.setting, shed.ensemble, shed.belief, {}).value();
    ASSERT_TRUE(choice.rounding);
    EXPECT_EQ(choice.rounding->climates, 50U);
    EXPECT_LT(choice.rounding->told_apart, 25U);
    const Scorer exact(shed.setting, shed.ensemble, shed.belief, 84, branching::for_show);
    std::vector<const ScoredPlan*> shown{&choice.recommended};
    for (const ScoredPlan& plan : choice.alternatives) shown.push_back(&plan);
    for (const ScoredPlan* const plan : shown) {
        const base::Band wanted = exact.chance_of(plan->schedule, 0)->clear;
        EXPECT_NEAR(plan->clear.mean, wanted.mean, 0.01);
        EXPECT_NEAR(plan->clear.p10, wanted.p10, 0.015);
        EXPECT_NEAR(plan->clear.p90, wanted.p90, 0.015);
    }
    EXPECT_LT(std::abs(choice.rounding->difference), 0.01);
    EXPECT_NE(choice.rounding->difference, 0) << "the two were worked out from different climates";
}

TEST(Rounding, is_cancelled_like_the_rest_of_a_search) {
    const Large shed(50, Climates::all);
    Goal goal;
    goal.progress = [](double) { return false; };
    EXPECT_FALSE(choose_plan(shed.setting, shed.ensemble, shed.belief, goal));
}

}  // namespace
}  // namespace mitefall::plan
