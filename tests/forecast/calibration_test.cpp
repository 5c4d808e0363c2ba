#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <random>

#include "belief/belief.h"
#include "forecast/forecast.h"
#include "scenario/actions.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

// Simulation-based calibration (Talts et al. 2018, arXiv:1804.06788; model.md, test 6): the truth is drawn
// from the prior, followed by the simulators, looked at, treated and looked at again; the program is told
// only what was seen and says how sure it is. Of what is called 90 % clear, about 90 % must be.
// MITEFALL_CALIBRATION_CASES sets the number of outbreaks; 100 by default.
namespace mitefall::forecast {
namespace {

using fixtures::room;
using fixtures::tables;
using fixtures::tub;
using records::SeenCount;

constexpr double sighted_on = 60;
constexpr double horizon = 130;
const std::vector<scenario::PlaceIndex> tubs{1, 2, 3, 4};

int case_count() {
    const char* const given = std::getenv("MITEFALL_CALIBRATION_CASES");
    return given == nullptr ? 100 : std::atoi(given);
}

/// Four tubs of one room; the animals of two of them came in on days 20 and 40.
scenario::Scenario collection() {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("a", 0, 28), tub("b", 0, 28, 0), tub("c", 0, 29),
                       tub("d", 0, 29, 0)};
    scenario.events = {{20, scenario::AnimalJoins{2}}, {40, scenario::AnimalJoins{4}}};
    return scenario;
}

/// What is done to every tub on three days after the sighting, and clean looks at the end.
scenario::Scenario with_treatment(scenario::Scenario scenario) {
    for (const double day : {sighted_on + 1, sighted_on + 8, sighted_on + 15}) {
        for (const scenario::PlaceIndex p : tubs) {
            scenario.events.push_back(
                {day, scenario::Kill{p, mites::Reach::on_animal, scenario::Amount::number(0.9), 1}});
            scenario.events.push_back(
                {day, scenario::Kill{p, mites::Reach::mobile_nest, scenario::Amount::number(0.9), 1}});
            scenario.events.push_back(
                {day, scenario::Kill{p, mites::Reach::eggs, scenario::Amount::number(0.5), 1}});
        }
    }
    for (const scenario::PlaceIndex p : tubs)
        scenario.events.push_back({100, scenario::clean_check(p, records::CheckMethod::look_over)});
    return scenario;
}

belief::IntroductionPrior busy_prior() {
    belief::IntroductionPrior prior = belief::introduction_prior(tables());
    prior.arrival_carries = 0.5;
    prior.unnoticed_entries_per_year = 1;
    prior.there_for_longer = 0.05;
    prior.longer_founders = {1, 2, 4};
    prior.errors = {0, 1e-12};
    return prior;
}

std::vector<scenario::ArrivalOnRecord> arrivals() {
    return {{records::AnimalId("otto"), "Otto", 2, 20, 0}, {records::AnimalId("juno"), "Juno", 4, 40, 1}};
}

SeenCount word_for(int number) {
    if (number == 0) return SeenCount::none;
    if (number == 1) return SeenCount::one;
    if (number <= 10) return SeenCount::few;
    return number <= 50 ? SeenCount::many : SeenCount::masses;
}

std::vector<scenario::Look> looks_at_all() {
    std::vector<scenario::Look> looks;
    for (const double day : {45.0, sighted_on - 0.5}) {
        for (const scenario::PlaceIndex p : tubs)
            looks.push_back(
                {p, day, 2, scenario::LookedAt::both, SeenCount::none, records::CheckMethod::look_over});
    }
    return looks;
}

struct Call {
    double called = 0;
    bool clear = false;
    bool within = false;  ///< the mites there were lie in the belief's 10-90 % range
};

/// One outbreak, or nothing if no mite was seen or a later look found some.
std::optional<Call> one_case(std::uint32_t number) {
    const scenario::Scenario scenario = collection();
    const belief::IntroductionPrior prior = busy_prior();
    const mites::Ensemble truth = mites::draw_parameters(tables(), branching::lane_count, 1000 + number);
    const mites::MiteParameters& draw = truth.draws[number % branching::lane_count];
    base::RandomStream random(77, number, 1);
    std::vector<scenario::Look> looks = looks_at_all();
    const belief::Sources sources = belief::list_sources(scenario, {arrivals(), {}}, {}, sighted_on, prior);
    const belief::Terrain terrain(scenario, looks, sighted_on);
    const belief::Pace pace(terrain, truth.fixed, draw);
    std::vector<std::uint32_t> cells;
    belief::draw_cells(sources, random, cells);
    std::vector<belief::Founder> founders;
    for (std::uint32_t slot = 0; slot < cells.size(); ++slot)
        belief::add_founders(sources, cells[slot], slot, pace, random, founders);
    belief::Lineage lineage(terrain, {belief::everybody, belief::everybody, {}});
    const belief::Outcome outcome = lineage.run(pace, founders, cells.size(), random);
    std::mt19937_64 dice(number);
    bool sighted = false;
    for (const auto& [index, visible] : outcome.sights.visible) {
        const belief::Eyes& eyes = pace.eyes_of(looks[index]);
        const auto seen = [&](double n, double p) {
            return std::binomial_distribution<int>(static_cast<int>(std::lround(n)), p)(dice);
        };
        looks[index].seen =
            word_for(seen(visible.on_animal, eyes.on_animal) + seen(visible.off_animal, eyes.off_animal));
        sighted = sighted || looks[index].seen != SeenCount::none;
    }
    if (!sighted) return std::nullopt;
    const scenario::Scenario later = with_treatment(scenario);
    simulator::SimulationRequest simulation;
    simulation.scenario = &later;
    simulation.fixed = truth.fixed;
    simulation.draw = draw;
    simulation.start = outcome.mites;
    simulation.from = sighted_on;
    simulation.to = horizon;
    simulation.runs = 1;
    simulation.seed = number;
    const simulator::SimulationResult result = simulator::simulate(simulation);
    if (result.clean.value < 0.5) return std::nullopt;

    const mites::Ensemble ensemble = mites::draw_parameters(tables(), 32, 5);
    belief::BeliefRequest request{&scenario, &ensemble, looks, arrivals(), sighted_on, prior, number, {}};
    request.options.histories = 12;
    const belief::Belief belief = belief::believe(request);
    ForecastRequest forecast;
    forecast.scenario = &later;
    forecast.ensemble = &ensemble;
    forecast.start = &belief;
    forecast.from = sighted_on;
    forecast.to = horizon;
    double alive = 0;
    for (const scenario::MiteCount& group : outcome.mites) alive += group.count;
    const belief::PlaceBelief mites = belief::mites_in_all(belief);
    return Call{forecast_clear(forecast)->clear.mean, result.clear.value > 0.5,
                mites.p10 <= alive && alive <= mites.p90};
}

TEST(Calibration, what_is_called_likely_is_as_likely) {
    std::vector<Call> calls;
    int tried = 0;
    while (static_cast<int>(calls.size()) < case_count()) {
        if (const auto call = one_case(static_cast<std::uint32_t>(++tried))) calls.push_back(*call);
    }
    double expected = 0;
    double variance = 0;
    double clear = 0;
    double within = 0;
    struct Bin {
        int n = 0;
        double called = 0, clear = 0, variance = 0;
    };
    std::array<Bin, 10> bins;
    for (const Call& call : calls) {
        Bin& bin = bins[std::min<std::size_t>(9, static_cast<std::size_t>(call.called * 10))];
        const double spread = call.called * (1 - call.called);
        ++bin.n;
        bin.called += call.called;
        bin.clear += call.clear ? 1 : 0;
        bin.variance += spread;
        expected += call.called;
        variance += spread;
        clear += call.clear ? 1 : 0;
        within += call.within ? 1 : 0;
    }
    std::printf("calibration: %zu outbreaks of %d drawn\n   called   n   mean called   clear\n", calls.size(),
                tried);
    for (std::size_t b = 0; b < bins.size(); ++b) {
        if (bins[b].n == 0) continue;
        std::printf("  %2zu-%3zu %% %4d   %.3f         %.3f\n", 10 * b, 10 * b + 10, bins[b].n,
                    bins[b].called / bins[b].n, bins[b].clear / bins[b].n);
        // Calls in a bin are independent trials: four standard errors and one case.
        EXPECT_NEAR(bins[b].called, bins[b].clear, 4 * std::sqrt(bins[b].variance) + 1) << b;
    }
    EXPECT_NEAR(expected, clear, 4 * std::sqrt(variance) + 1);
    // Clean looks later are asked for too, which leaves lighter outbreaks: a little slack beside the 80 %.
    const auto n = static_cast<double>(calls.size());
    std::printf("  mites alive at the sighting within the 80 %% range: %.3f\n", within / n);
    EXPECT_NEAR(within / n, 0.8, 4 * std::sqrt(0.8 * 0.2 / n) + 0.05);
}

}  // namespace
}  // namespace mitefall::forecast
