#include "mites/durations.h"

#include <gtest/gtest.h>

#include <boost/math/distributions/gamma.hpp>
#include <cmath>

#include "mites/rates.h"
#include "shared/tables.h"

namespace mitefall::mites {
namespace {

records::Climate at(double celsius, double humidity = 80) {
    return {units::celsius(celsius), units::celsius(celsius), units::relative_humidity_percent(humidity)};
}

const Ensemble& ensemble() {
    static const Ensemble drawn = draw_parameters(fixtures::tables(), 16, 7);
    return drawn;
}

std::optional<Duration> of_one(LifeStage stage, const MiteParameters& draw, const records::Climate& climate) {
    const std::vector<MiteParameters> draws{draw};
    const std::vector<double> weights{1};
    return duration_of(stage, ensemble().fixed, draws, weights, climate);
}

// Of k substages left at the rate a, in each of which a mite may also die at the rate l, those that come
// through take a time that is Erlang with k and a + l. The quantiles are those of Boost.
TEST(Durations, of_stages_that_only_develop_are_erlang) {
    for (const double celsius : {22.0, 28.0, 34.0}) {
        for (const auto& [stage, one] : {std::pair{LifeStage::egg, Stage::egg},
                                         {LifeStage::larva, Stage::larva},
                                         {LifeStage::deutonymph, Stage::deutonymph}}) {
            const StageRates rates = stage_rates(one, ensemble().fixed, ensemble().mode, at(celsius));
            const double through = rates.advance + rates.loss;
            const boost::math::gamma_distribution<> erlang(rates.substages, 1 / through);
            const auto told = of_one(stage, ensemble().mode, at(celsius));
            ASSERT_TRUE(told);
            constexpr double solver = 1e-3;  // days
            EXPECT_NEAR(told->mean, rates.substages / through, solver);
            EXPECT_NEAR(told->p10, quantile(erlang, 0.1), solver);
            EXPECT_NEAR(told->p90, quantile(erlang, 0.9), solver);
        }
    }
}

// A seeking mite starves after u substages left at the rate a, and finds at the rate f: it has found after m
// substages with chance (a / (a + f))^m f / (a + f), after a time that is Erlang with m + 1 and a + f; then
// it feeds for k / b days.
TEST(Durations, of_a_nymph_are_those_of_finding_and_of_feeding) {
    const MiteParameters& draw = ensemble().draws[3];
    const StageRates seeks = stage_rates(Stage::protonymph_seeking, ensemble().fixed, draw, at(27));
    const StageRates feeds = stage_rates(Stage::protonymph_feeding, ensemble().fixed, draw, at(27));
    const double finds = finding_rate(Stage::protonymph_seeking, draw);
    const double out = seeks.advance + finds;
    double ever = 0, time = 0;
    for (int m = 0; m < seeks.substages; ++m) {
        const double chance = std::pow(seeks.advance / out, m) * finds / out;
        ever += chance;
        time += chance * (m + 1) / out;
    }
    const double expected = time / ever + feeds.substages / (feeds.advance + feeds.loss);
    EXPECT_NEAR(of_one(LifeStage::protonymph, draw, at(27))->mean, expected, 1e-3);
}

// Camin 1953: an egg takes 98 h at 20 C and 28 h at 30 C. Those that die on the way are the slow ones, so
// that the mean of the others is a little less.
TEST(Durations, of_an_egg_are_those_published_for_20_and_30_degrees) {
    for (const auto& [celsius, hours] : {std::pair{20.0, 98.0}, {30.0, 28.0}}) {
        const auto told = of_one(LifeStage::egg, ensemble().mode, at(celsius, 85));
        EXPECT_LT(told->mean, hours / 24 + 1e-3);
        EXPECT_GT(told->mean, 0.93 * hours / 24);
        EXPECT_LT(told->p10, told->mean);
        EXPECT_GT(told->p90, told->mean);
    }
}

TEST(Durations, in_the_cold_are_longer_and_where_nothing_develops_there_are_none) {
    for (const LifeStage stage : all_life_stages)
        EXPECT_GT(of_one(stage, ensemble().mode, at(22))->mean, of_one(stage, ensemble().mode, at(30))->mean)
            << to_text(stage);
    EXPECT_FALSE(of_one(LifeStage::egg, ensemble().mode, at(5)));
}

TEST(Durations, of_a_draw_without_weight_do_not_count) {
    const std::vector<MiteParameters> draws{ensemble().draws[0], ensemble().draws[9]};
    const std::vector<double> weights{2, 0};
    const auto told = duration_of(LifeStage::adult, ensemble().fixed, draws, weights, at(28));
    const auto alone = of_one(LifeStage::adult, ensemble().draws[0], at(28));
    EXPECT_DOUBLE_EQ(told->mean, alone->mean);
    EXPECT_DOUBLE_EQ(told->p90, alone->p90);
}

}  // namespace
}  // namespace mitefall::mites
