#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "branching/expected_course.h"
#include "forecast/start.h"
#include "scenario/residents.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

namespace mitefall::forecast {
namespace {

using namespace fixtures;

constexpr double horizon = 42;
constexpr std::uint32_t runs = 20'000;

std::vector<scenario::MiteCount> a_few_mites(const scenario::Scenario& scenario) {
    scenario::PlaceIndex first = 2;
    while (first + 1 < scenario.places.size() && scenario.places[first].animals == 0) ++first;
    std::vector<scenario::MiteCount> start{{first, mites::Stage::adult_seeking_1, 1},
                                           {first, mites::Stage::egg, 2}};
    if (scenario.places[first].animals > 0) start.push_back({first, mites::Stage::adult_feeding_2, 1});
    return start;
}

simulator::SimulationResult simulate_case(const scenario::Scenario& scenario,
                                          const mites::MiteParameters& draw,
                                          const std::vector<scenario::MiteCount>& start, std::uint64_t seed,
                                          const std::vector<double>& times = {}) {
    simulator::SimulationRequest request;
    request.scenario = &scenario;
    request.fixed = small_ensemble().fixed;
    request.draw = draw;
    request.start = start;
    request.to = horizon;
    request.runs = runs;
    request.seed = seed;
    request.report_times = times;
    return simulator::simulate(request);
}

void expect_agreement(const scenario::Scenario& scenario, std::uint64_t seed) {
    ASSERT_TRUE(scenario::check_scenario(scenario)) << scenario::check_scenario(scenario).error().message();
    const mites::MiteParameters draw = restless(small_draw(static_cast<std::size_t>(seed)));
    const auto start = a_few_mites(scenario);
    const Swept swept(scenario, network::lump(scenario), draw, 0, horizon);
    const simulator::SimulationResult simulated = simulate_case(scenario, draw, start, seed);
    EXPECT_EQ(simulated.cut_short, 0U);
    EXPECT_NEAR(std::exp(swept.log_chance(start)), simulated.clear.value, 4 * simulated.clear.standard_error);
}

class RandomNetworks : public testing::TestWithParam<int> {};

// Two programs for one model: equations backward over classes, and individuals forward over places. Four
// standard errors: about one false alarm in 16,000 comparisons.
TEST_P(RandomNetworks, chance_of_clear_agrees_within_four_standard_errors) {
    const auto seed = static_cast<std::uint64_t>(GetParam());
    expect_agreement(random_scenario(seed, false), seed);
}

TEST_P(RandomNetworks, clean_checks_and_clearance_agree_within_four_standard_errors) {
    const auto seed = static_cast<std::uint64_t>(GetParam()) + 1000;
    const scenario::Scenario scenario = random_scenario(seed, true);
    ASSERT_TRUE(scenario::check_scenario(scenario)) << scenario::check_scenario(scenario).error().message();
    const mites::MiteParameters draw = restless(small_draw(static_cast<std::size_t>(seed)));
    const auto start = a_few_mites(scenario);
    const network::Classes classes = network::lump(scenario);
    const double both = Swept(scenario, classes, draw, 0, horizon).log_chance(start);
    const double clean =
        Swept(scenario, classes, draw, 0, horizon, branching::Question::any_check_fails).log_chance(start);
    const simulator::SimulationResult simulated = simulate_case(scenario, draw, start, seed);
    EXPECT_NEAR(std::exp(clean), simulated.clean.value, 4 * simulated.clean.standard_error);
    EXPECT_NEAR(std::exp(both), simulated.clear_and_clean.value,
                4 * simulated.clear_and_clean.standard_error);
    EXPECT_NEAR(std::exp(both - clean), simulated.clear_given_clean.value,
                4 * simulated.clear_given_clean.standard_error);
}

/// Expected numbers of all mites, given that every check of the scenario is clean.
std::vector<double> numbers_given_clean(const scenario::Scenario& scenario, const mites::MiteParameters& draw,
                                        const std::vector<scenario::MiteCount>& start,
                                        const std::vector<double>& times) {
    const network::Classes classes = network::lump(scenario);
    const auto draws = block_of(draw);
    const network::MiteNetwork compiled = network::compile(scenario, classes, small_ensemble().fixed, draws);
    const CompiledBlock block{compiled, classes, small_ensemble().fixed, draws};
    const Start known = start;
    const branching::ExpectedCourse expected(compiled.network, 0, times, horizon, branching::for_show);
    const auto course =
        expected.follow(BlockStart(known, block, 0, branching::for_show).numbers(&expected.checks()));
    std::vector<double> totals(times.size());
    for (std::size_t t = 0; t < times.size(); ++t) {
        for (const branching::Lanes& lanes : course[t]) totals[t] += lanes[0];
    }
    return totals;
}

// Of the simulated outbreaks only those in which every check was clean. Numbers of mites have long tails:
// five standard errors, themselves estimated. Streams from outside are not simulated, so seeds that have them
// are left out; a network whose checks are hardly ever clean says nothing.
TEST_P(RandomNetworks, numbers_given_clean_checks_agree_with_the_clean_runs) {
    const auto seed = static_cast<std::uint64_t>(GetParam()) + 1000;
    scenario::Scenario scenario = random_scenario(seed, true);
    std::erase_if(scenario.events, [](const scenario::Event& event) {
        return std::holds_alternative<scenario::Import>(event.what);
    });
    const mites::MiteParameters draw = restless(small_draw(static_cast<std::size_t>(seed)));
    const auto start = a_few_mites(scenario);
    const std::vector<double> times{5.2, 17.3, 30.1, 41.7};
    const simulator::SimulationResult simulated = simulate_case(scenario, draw, start, seed, times);
    ASSERT_GT(simulated.clean.value, 0.02) << "hardly a clean run: the seed says nothing";
    const auto expected = numbers_given_clean(scenario, draw, start, times);
    for (std::size_t t = 0; t < expected.size(); ++t) {
        const simulator::CountBand& counted = simulated.counts_given_clean[t];
        EXPECT_NEAR(expected[t], counted.mean, 5 * counted.standard_error + 1e-3 * expected[t] + 1e-4)
            << counted.time;
    }
}

/// The same network with an enclosure emptied on one day: everybody in it into a tub that was not there, both
/// treated from then on, as plan::apply writes it. What would move or count animals later is left out.
scenario::Scenario with_emptied_wood(const scenario::Scenario& random, double day) {
    scenario::Scenario scenario{random.places, {}};
    std::vector<scenario::Event> later;
    for (const scenario::Event& event : random.events) {
        const bool counts_animals = std::holds_alternative<scenario::KillOnAnimals>(event.what) ||
                                    std::holds_alternative<scenario::Medicated>(event.what) ||
                                    std::holds_alternative<scenario::MoveAnimal>(event.what);
        if (event.time < day)
            scenario.events.push_back(event);
        else if (!counts_animals)
            later.push_back(event);
    }
    const std::vector<int> animals = scenario::animals_at(scenario, day);
    scenario::PlaceIndex wood = 2;
    while (wood + 1 < animals.size() && animals[wood] == 0) ++wood;
    scenario.places[wood].material = records::Material::porous;
    const scenario::PlaceIndex tub = scenario.places.size();
    scenario.places.push_back(fixtures::tub("tub for wood", scenario.places[wood].room, 29, 0));
    scenario::Residents residents(scenario);
    const std::vector<scenario::Host> hosts = residents.of(wood);
    for (const scenario::Host host : hosts) residents.move(day, host, wood, tub);
    const auto fixed = mites::fixed_parameters(tables());
    const units::Strength strength = units::milligrams_per_litre(10);
    for (const auto& [method, place] :
         {std::pair(records::Method::spray_animal, tub), std::pair(records::Method::spray_bedding, tub),
          std::pair(records::Method::change_substrate, wood),
          std::pair(records::Method::spray_bedding, wood)}) {
        const scenario::Action action{method, place, day, strength, 1, day + 1, {}};
        scenario::add_treatments(scenario, std::span(&action, 1), fixed, residents);
    }
    scenario.events.insert(scenario.events.end(), later.begin(), later.end());
    return scenario;
}

TEST_P(RandomNetworks, emptied_wood_agrees_within_four_standard_errors) {
    const auto seed = static_cast<std::uint64_t>(GetParam()) + 3000;
    const double day = 3 + static_cast<double>(seed % 9);
    expect_agreement(with_emptied_wood(random_scenario(seed, false), day), seed);
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomNetworks, testing::Range(1, 25));

class OutsideAlone : public testing::TestWithParam<int> {};

// No mite at the start: all there can be came with one contact on one day, which may have reached a room and
// an enclosure, with chance 0.4 in all (as scenario/history puts it: a stream of one day, -ln(1 - p) over the
// places).
TEST_P(OutsideAlone, a_contact_with_the_outside_agrees_within_four_standard_errors) {
    const auto seed = static_cast<std::uint64_t>(GetParam()) + 2000;
    scenario::Scenario scenario = random_scenario(seed, false);
    std::erase_if(scenario.events, [](const scenario::Event& event) {
        return std::holds_alternative<scenario::Import>(event.what);
    });
    const double day = 1 + static_cast<double>(seed % 7);
    const double rate = -std::log(0.6) / 2;
    for (const scenario::PlaceIndex place : {scenario::PlaceIndex{0}, scenario.places.size() - 1}) {
        const scenario::Import brought{place, mites::Stage::adult_seeking_1, scenario::Amount::number(rate),
                                       day + 1};
        scenario.events.push_back({day, brought});
    }
    std::stable_sort(scenario.events.begin(), scenario.events.end(),
                     [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
    ASSERT_TRUE(scenario::check_scenario(scenario)) << scenario::check_scenario(scenario).error().message();
    const mites::MiteParameters draw = restless(small_draw(static_cast<std::size_t>(seed)));
    const double swept = std::exp(Swept(scenario, network::lump(scenario), draw, 0, horizon).log_chance({}));
    const simulator::SimulationResult simulated = simulate_case(scenario, draw, {}, seed);
    EXPECT_NEAR(swept, simulated.clear.value, 4 * simulated.clear.standard_error);
    EXPECT_GE(swept, 0.6) << "who brought nothing is clear";
    EXPECT_LT(swept, 1);
}

INSTANTIATE_TEST_SUITE_P(Seeds, OutsideAlone, testing::Range(1, 25));

TEST(Simulator, same_seed_same_answer) {
    const scenario::Scenario scenario = random_scenario(3, true);
    const auto start = a_few_mites(scenario);
    const auto once = simulate_case(scenario, restless(small_draw(3)), start, 11);
    const auto again = simulate_case(scenario, restless(small_draw(3)), start, 11);
    EXPECT_EQ(once.clear.value, again.clear.value);
    EXPECT_EQ(once.clear_and_clean.value, again.clear_and_clean.value);
    EXPECT_NE(once.clear.value, simulate_case(scenario, restless(small_draw(3)), start, 12).clear.value);
}

TEST(Simulator, expected_numbers_agree_with_the_forward_course) {
    scenario::Scenario scenario = random_scenario(5, false);
    const mites::MiteParameters draw = restless(small_draw(5));
    const auto start = a_few_mites(scenario);
    const network::Classes apart = network::keep_apart(scenario);
    const auto block = block_of(draw);
    const network::MiteNetwork compiled = network::compile(scenario, apart, small_ensemble().fixed, block);
    std::vector<branching::Lanes> numbers(compiled.network.type_count);
    for (const scenario::MiteCount& group : start) {
        numbers[compiled.layout.first[group.place][static_cast<std::size_t>(group.stage)]] =
            branching::Lanes::all(group.count);
    }
    const std::vector<double> times{7.3, 21.3, 35.3};
    const auto course = branching::expected_course(compiled.network, 0, numbers, times);
    const simulator::SimulationResult simulated = simulate_case(scenario, draw, start, 1, times);
    for (std::size_t t = 0; t < times.size(); ++t) {
        double total = 0;
        for (const branching::Lanes& lanes : course[t]) total += lanes[0];
        // The spread of the counts gives the standard error of their mean; here bounded through the upper
        // band.
        const double spread =
            std::max(simulated.counts[t].p90 - simulated.counts[t].p10, simulated.counts[t].mean) + 1;
        EXPECT_NEAR(total, simulated.counts[t].mean, 8 * spread / std::sqrt(static_cast<double>(runs)))
            << times[t];
    }
}

}  // namespace
}  // namespace mitefall::forecast
