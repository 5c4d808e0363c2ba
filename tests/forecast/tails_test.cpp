#include "forecast/tails.h"

#include <gtest/gtest.h>

#include <cmath>

#include "forecast/forecast.h"
#include "request.h"
#include "shared/fixtures.h"

// What follows the last event is swept by itself, over classes of its own, and shared.
namespace mitefall::forecast {
namespace {

using namespace fixtures;

constexpr double horizon = 70;  // random scenarios end by day 45

mites::Ensemble one_block() {
    mites::Ensemble ensemble = small_ensemble();
    ensemble.draws.resize(branching::lane_count);
    for (mites::MiteParameters& draw : ensemble.draws)
        draw.erlang_shape = ensemble.draws.front().erlang_shape;
    return ensemble;
}

ForecastRequest request_for(const scenario::Scenario& scenario, const mites::Ensemble& ensemble) {
    ForecastRequest request = request_of(
        scenario, ensemble, {{2, mites::Stage::adult_seeking_1, 1}, {2, mites::Stage::egg, 2}}, horizon);
    request.tolerance = {1e-8, 1e-13};
    return request;
}

class RandomTails : public testing::TestWithParam<int> {};

// The slow second way: one sweep over all the time, every place its own class. Two solutions to 1e-8 of a
// step.
TEST_P(RandomTails, change_no_answer) {
    const scenario::Scenario scenario =
        random_scenario(static_cast<std::uint64_t>(GetParam()), GetParam() % 2 == 0);
    const mites::Ensemble ensemble = one_block();
    TailBook book;
    ForecastRequest request = request_for(scenario, ensemble);
    request.tails = &book;
    const auto forecast = forecast_clear(request);
    const network::Classes apart = network::keep_apart(scenario);
    for (std::size_t d = 0; d < ensemble.draws.size(); ++d) {
        const std::vector<scenario::MiteCount> start{{2, mites::Stage::adult_seeking_1, 1},
                                                     {2, mites::Stage::egg, 2}};
        const auto whole = [&](branching::Question question) {
            return Swept(scenario, apart, ensemble.draws[d], 0, horizon, question, {1e-8, 1e-13})
                .log_chance(start);
        };
        const double clean = whole(branching::Question::any_check_fails);
        EXPECT_NEAR(forecast->chance[d], std::exp(whole(branching::Question::no_survivor) - clean), 1e-6)
            << d;
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomTails, testing::Range(1, 9));

/// Two tubs sprayed on days 5 and 12; before, one of them soaked on a day that may differ.
scenario::Scenario course(double soaked_on) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("a", 0), tub("b", 0)};
    scenario.events.push_back(
        {soaked_on, scenario::Kill{1, mites::Reach::on_animal, scenario::Amount::number(0.5), 1}});
    for (const double day : {5.0, 12.0}) {
        for (const scenario::PlaceIndex place : {scenario::PlaceIndex{1}, scenario::PlaceIndex{2}}) {
            scenario.events.push_back(
                {day, scenario::Residue{
                          place, scenario::Amount::drawn(&mites::MiteParameters::damp_hazard_published),
                          scenario::Amount::drawn(&mites::MiteParameters::residual_half_life), day + 3}});
        }
    }
    return scenario;
}

std::vector<double> chances(ForecastRequest request, TailBook& book) {
    request.start = KnownStart{{1, mites::Stage::adult_seeking_1, 3}};
    request.tails = &book;
    return forecast_clear(request)->chance;
}

TEST(TailBook, gives_the_same_bits_as_sweeping_anew) {
    const mites::Ensemble ensemble = one_block();
    TailBook shared;
    for (const double soaked_on : {1.0, 2.0, 3.0}) {
        const scenario::Scenario scenario = course(soaked_on);
        TailBook anew;
        EXPECT_EQ(chances(request_for(scenario, ensemble), shared),
                  chances(request_for(scenario, ensemble), anew))
            << soaked_on;
    }
}

TEST(TailBook, tells_tails_apart_that_differ_in_anything) {
    const mites::Ensemble ensemble = one_block();
    TailBook shared;
    scenario::Scenario other = course(1);
    std::get<scenario::Residue>(other.events.back().what).damp_until += 5;
    scenario::Scenario cooler = course(1);
    cooler.places[2].climate = climate(24, 80);
    for (const scenario::Scenario& scenario : {course(1), other, cooler}) {
        for (const double to : {horizon, horizon + 10}) {
            ForecastRequest request = request_for(scenario, ensemble);
            request.to = to;
            TailBook anew;
            EXPECT_EQ(chances(request, shared), chances(request, anew)) << to;
        }
    }
}

// Places that come to the same are computed once from then on, whether or not tails are shared.
TEST(Tails, are_coarser_where_places_come_to_the_same) {
    const mites::Ensemble ensemble = one_block();
    const scenario::Scenario scenario = course(1);
    ForecastRequest request = request_for(scenario, ensemble);
    request.start = KnownStart{{1, mites::Stage::adult_seeking_1, 3}};
    TailBook book;
    EXPECT_EQ(forecast_clear(request)->chance, chances(request, book));
}

// What is outdone for good tells no places apart any more.
TEST(ForgetPast, keeps_the_residues_and_the_drugs_that_may_still_act) {
    scenario::Scenario scenario = course(1);
    auto& weaker =
        std::get<scenario::Residue>(scenario.events[2].what);  // b, day 5; sprayed at full strength on day 12
    weaker.level.factor = 0.5;
    scenario.events.push_back({13, scenario::ResidueGone{1}});
    scenario.events.push_back({13, scenario::Medicated{2, {{{scenario::Amount::number(0.5), 1, 20}}}}});
    EXPECT_EQ(scenario::forget_past(scenario, 12.5).events.size(), 2U + 2U)
        << "two residues, two events to come";
    const scenario::Scenario later = scenario::forget_past(scenario, 14);
    ASSERT_EQ(later.events.size(), 2U);
    EXPECT_EQ(std::get<scenario::Residue>(later.events[0].what).place, 2U);
    EXPECT_EQ(scenario::forget_past(scenario, 21).events.size(), 1U) << "the drug has ended";
    scenario::Scenario alike = course(1);
    alike.events[2].what = scenario.events[2].what;
    EXPECT_EQ(network::lump(alike).members.size(), 3U);
    EXPECT_EQ(network::lump(scenario::forget_past(alike, 12.5)).members.size(), 2U)
        << "a and b are alike from then on";
    std::get<scenario::Residue>(alike.events[2].what) = {2, scenario::Amount::number(9),
                                                         scenario::Amount::number(1), 6};
    EXPECT_EQ(network::lump(scenario::forget_past(alike, 12.5)).members.size(), 3U)
        << "which is stronger depends on the draw";
}

}  // namespace
}  // namespace mitefall::forecast
