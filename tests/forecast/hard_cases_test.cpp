#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "branching/passing.h"
#include "forecast/forecast.h"
#include "request.h"
#include "scenario/pace.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

// Parameters at the corners of what a case file may set, and checks that all but certainly show a mite.
namespace mitefall::forecast {
namespace {

using fixtures::tables;

scenario::Scenario one_tub(double celsius) {
    scenario::Scenario scenario;
    scenario.places = {fixtures::room("room"), fixtures::tub("tub", 0, celsius)};
    return scenario;
}

mites::Ensemble all_drawn_as(const mites::MiteParameters& draw) {
    mites::Ensemble ensemble{mites::fixed_parameters(tables()), draw, {}};
    ensemble.draws.assign(branching::lane_count, draw);
    return ensemble;
}

mites::MiteParameters at_mode() { return mites::draw_parameters(tables(), branching::lane_count, 1).mode; }

Forecast ask(const scenario::Scenario& scenario, const mites::Ensemble& ensemble, const KnownStart& start,
             double to) {
    ForecastRequest request = request_of(scenario, ensemble, start, to);
    request.tolerance = {};
    return *forecast_clear(request);
}

// A chain so fast that it is over at once: with 64 substages at 33 C a deutonymph makes some 140 changes a
// day, a larva 100, in steps of up to two days. The simulator follows them one by one.
TEST(HardCases, fast_chains_agree_with_the_simulator) {
    for (const int shape : {16, 32, 64}) {
        mites::MiteParameters draw = at_mode();
        draw.erlang_shape = shape;
        draw.deutonymph_survival = 0.6;
        const mites::Ensemble ensemble = all_drawn_as(draw);
        const scenario::Scenario scenario = one_tub(33);
        const KnownStart start{{1, mites::Stage::larva, 1}, {1, mites::Stage::deutonymph, 1}};
        simulator::SimulationRequest request;
        request.scenario = &scenario;
        request.fixed = ensemble.fixed;
        request.draw = draw;
        request.start = start;
        request.to = 20;
        request.runs = 20'000;
        request.most_steps = 20'000;  // an outbreak that large is not clear
        const simulator::Estimate simulated = simulator::simulate(request).clear;
        const double swept = ask(scenario, ensemble, start, 20).clear.mean;
        EXPECT_NEAR(swept, simulated.value, 4 * simulated.standard_error) << shape;
        EXPECT_GT(swept, 0.01);
        EXPECT_LT(swept, 0.99);
    }
}

// The survival of a stage is set exactly whatever its shape: of larvae of which a share s hatches to seek,
// and that cannot find anybody, none is alive when the last has starved, and before that s are (no animal in
// the tub).
TEST(HardCases, a_fast_stage_is_outlived_by_the_share_that_is_set) {
    for (const int shape : {1, 9, 40, 64}) {
        mites::MiteParameters draw = at_mode();
        draw.erlang_shape = shape;
        draw.larva_survival = 0.7;
        draw.leaving_rate = 0;
        draw.unfed_protonymph_life = 1000;
        scenario::Scenario scenario = one_tub(33);
        scenario.places[1].animals = 0;
        const double clear = ask(scenario, all_drawn_as(draw), {{1, mites::Stage::larva, 1}}, 20).clear.mean;
        EXPECT_NEAR(clear, 0.3, 1e-4) << shape;  // 6e-5 have starved by then
    }
}

/// Every row anywhere in its range, every corner among them.
mites::MiteParameters random_draw() {
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), branching::lane_count,
                                                            *rc::gen::inRange<std::uint64_t>(1, 1'000'000));
    mites::MiteParameters draw = ensemble.draws[0];
    draw.erlang_shape = *rc::gen::inRange(1, 65);
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        const auto row = std::find_if(tables().rows().begin(), tables().rows().end(),
                                      [&](const auto& r) { return r.cited.key == field.key; });
        const int corner = *rc::gen::inRange(0, 6);
        if (corner == 0) draw.*field.member = row->cited.low;
        if (corner == 1) draw.*field.member = row->cited.high;
    }
    return draw;
}

TEST(HardCases, no_chance_leaves_the_engine_outside_0_and_1) {
    EXPECT_TRUE(rc::check("chances between 0 and 1", [] {
        const mites::Ensemble ensemble = all_drawn_as(random_draw());
        scenario::Scenario scenario = one_tub(15 + *rc::gen::inRange(0, 25));
        scenario.events = {
            {3, scenario::Kill{1, mites::Reach::on_animal, scenario::Amount::number(0.9), 1}},
            {3, scenario::Residue{1, scenario::Amount::number(100), scenario::Amount::number(0.05), 3}},
            {9, scenario::CleanCheck{1, scenario::Amount::drawn(&mites::MiteParameters::detection_light),
                                     scenario::Amount::drawn(&mites::MiteParameters::detection_nest_part),
                                     true}}};
        RC_PRE(scenario::check_pace(scenario, ensemble).has_value());
        const Forecast found = ask(
            scenario, ensemble,
            {{1, mites::Stage::adult_feeding_1, 3}, {1, mites::Stage::egg, 2}, {0, mites::Stage::larva, 1}},
            45);
        for (const double chance : found.chance) RC_ASSERT(chance >= 0 && chance <= 1);
        RC_ASSERT(found.clear.p10 <= found.clear.mean && found.clear.mean <= found.clear.p90);
    }));
}

TEST(HardCases, a_pace_that_cannot_be_followed_is_refused_by_name) {
    mites::MiteParameters draw = at_mode();
    draw.laying_time = 0.05;
    draw.unfed_life_q10 = 20;
    const auto refused = scenario::check_pace(one_tub(33), all_drawn_as(draw));
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().remedy.find("laying_time"), std::string::npos) << refused.error().message();
    EXPECT_NE(refused.error().limit.find("1000"), std::string::npos);
    EXPECT_TRUE(scenario::check_pace(one_tub(33), mites::draw_parameters(tables(), 256, 1)))
        << "what the evidence draws is far from it";
}

/// The same mites for certain, as a belief.
belief::Belief sure_of(const KnownStart& mites, const mites::Ensemble& ensemble) {
    belief::Belief belief;
    const auto draws = static_cast<std::uint32_t>(ensemble.draws.size());
    for (std::uint32_t draw = 0; draw < draws; ++draw) {
        belief::Particle particle;
        particle.weight = 1.0 / draws;
        particle.draw = draw;
        particle.mites = mites;
        belief.particles.push_back(particle);
        belief.draw_weight.push_back(particle.weight);
        belief.shapes.push_back(static_cast<int>(ensemble.draws[draw].erlang_shape));
    }
    return belief;
}

/// One feeding mite, five times looked at in vain, each time to be seen with chance d.
scenario::Scenario looked_at(int times, double d, double every) {
    scenario::Scenario scenario = one_tub(28);
    for (int i = 0; i < times; ++i)
        scenario.events.push_back(
            {i * every, scenario::CleanCheck{1, scenario::Amount::number(d), scenario::Amount::number(0)}});
    return scenario;
}

// By hand: looks of one moment show a mite or not whatever becomes of it, so they say nothing about that:
// given that all were clean, the chance of clear is what it is without them. Twenty of them leave 1e-60 of
// the mite.
TEST(HardCases, looks_at_one_moment_that_must_have_missed_the_mite_change_nothing) {
    const mites::Ensemble ensemble = all_drawn_as(at_mode());
    const KnownStart start{{1, mites::Stage::adult_feeding_1, 1}};
    const double without = ask(one_tub(28), ensemble, start, 60).clear.mean;
    for (const int times : {1, 2, 5, 6, 20}) {
        const Forecast found = ask(looked_at(times, 0.999, 0), ensemble, start, 60);
        EXPECT_NEAR(found.clear.mean, without, 1e-5) << times;
        EXPECT_NEAR(std::log10(found.clean->mean), -3.0 * times, 1e-3) << times;
    }
}

// By hand: who is sure of his mites knows them.
TEST(HardCases, a_belief_in_one_mite_is_that_mite_however_often_it_was_missed) {
    const mites::Ensemble ensemble = all_drawn_as(at_mode());
    const KnownStart start{{1, mites::Stage::adult_feeding_1, 1}};
    const belief::Belief belief = sure_of(start, ensemble);
    for (const int times : {1, 2, 5, 6, 20}) {
        const scenario::Scenario scenario = looked_at(times, 0.999, 0);
        const Forecast known = ask(scenario, ensemble, start, 60);
        ForecastRequest request = request_of(scenario, ensemble, start, 60);
        request.start = &belief;
        request.tolerance = {};
        const Forecast believed = *forecast_clear(request);
        EXPECT_NEAR(believed.clear.mean, known.clear.mean, 1e-12) << times;
        EXPECT_NEAR(std::log(believed.clean->mean), std::log(known.clean->mean), 1e-9) << times;
    }
}

// Of twenty thousand eggs a check all but certainly shows some: what is asked is a ratio of two tiny chances,
// in which the solver's error of each is multiplied by their number. One is never likelier than the other.
TEST(HardCases, checks_of_very_many_mites_leave_a_chance) {
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), 4 * branching::lane_count, 7);
    for (const double detection : {0.01, 0.9}) {
        for (const double day : {431.0, 799.9}) {
            scenario::Scenario scenario = one_tub(28);
            scenario.places[1].animals = 2;
            scenario.events.push_back({day, scenario::CleanCheck{1, scenario::Amount::number(detection),
                                                                 scenario::Amount::number(1)}});
            ForecastRequest request;
            request.scenario = &scenario;
            request.ensemble = &ensemble;
            request.start = KnownStart{{1, mites::Stage::egg, 20'000}};
            request.to = 800;
            const Forecast found = *forecast_clear(request);
            for (const double chance : found.chance)
                EXPECT_TRUE(std::isnan(chance) || (chance >= 0 && chance <= 1)) << detection << " on " << day;
        }
    }
}

class TwoWays : public testing::TestWithParam<int> {};

// The sweep in v by a solver of our own, that in q by Dormand & Prince's method from Boost.Odeint.
TEST_P(TwoWays, to_sweep_agree_where_both_can_tell) {
    const scenario::Scenario scenario =
        fixtures::random_scenario(static_cast<std::uint64_t>(GetParam()), true);
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), branching::lane_count, 5);
    const network::MiteNetwork compiled =
        network::compile(scenario, network::keep_apart(scenario), ensemble.fixed, ensemble.draws);
    const branching::Network& network = compiled.network;
    const std::vector<double> survivors(network.type_count, 1.0);
    const branching::Passing exact = branching::passing(network, 0, 45, survivors);
    const branching::SweepResult clear =
        branching::sweep(network, 0, 45, branching::Question::no_survivor, {1e-9, 1e-13});
    const branching::SweepResult clean =
        branching::sweep(network, 0, 45, branching::Question::any_check_fails, {1e-9, 1e-13});
    for (std::size_t i = 0; i < network.type_count; ++i) {
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
            EXPECT_NEAR(exact.clear[i][lane], 1 - clear.failure[i][lane], 1e-6);
            EXPECT_NEAR(exact.clean[i][lane], 1 - clean.failure[i][lane], 1e-6);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, TwoWays, testing::Range(1, 7));

TEST(HardCases, more_looks_than_any_mite_can_have_missed_are_told_as_such) {
    const mites::Ensemble ensemble = all_drawn_as(at_mode());
    const Forecast found =
        ask(looked_at(150, 0.999, 0), ensemble, {{1, mites::Stage::adult_feeding_1, 1}}, 60);
    EXPECT_FALSE(found.checks_can_be_clean);
    EXPECT_TRUE(std::isnan(found.clear.mean));
}

// Bayes by hand: a draw that makes clean checks likely counts for more.
TEST(HardCases, clean_checks_weigh_the_draws_of_known_mites) {
    mites::MiteParameters sharp = at_mode();
    mites::MiteParameters blind = at_mode();
    sharp.detection_light = 0.9;
    blind.detection_light = 0.1;
    blind.kill_soak = 0.9;
    mites::Ensemble ensemble = all_drawn_as(sharp);
    for (std::size_t i = 0; i < branching::lane_count; i += 2) ensemble.draws[i] = blind;
    scenario::Scenario scenario = one_tub(28);
    scenario.events = {
        {0, scenario::Kill{1, mites::Reach::on_animal,
                           scenario::Amount::drawn(&mites::MiteParameters::kill_soak), 1}},
        {0, scenario::CleanCheck{1, scenario::Amount::drawn(&mites::MiteParameters::detection_light),
                                 scenario::Amount::number(0), true}}};
    const KnownStart start{{1, mites::Stage::adult_feeding_1, 5}};
    const Forecast found = ask(scenario, ensemble, start, 40);
    const auto alone = [&](const mites::MiteParameters& draw) {
        return ask(scenario, all_drawn_as(draw), start, 40);
    };
    const Forecast a = alone(blind);
    const Forecast b = alone(sharp);
    const double clean = (a.clean->mean + b.clean->mean) / 2;
    EXPECT_NEAR(found.clean->mean, clean, 1e-9);
    EXPECT_NEAR(found.clear.mean, (a.clean->mean * a.clear.mean + b.clean->mean * b.clear.mean) / (2 * clean),
                1e-9);
    EXPECT_GT(found.weight[0], found.weight[1]);
}

}  // namespace
}  // namespace mitefall::forecast
