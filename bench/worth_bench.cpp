#include <benchmark/benchmark.h>

#include <cmath>
#include <ctime>

#include "branching/split.h"
#include "forecast/forecast.h"
#include "peak.h"
#include "simulator/simulator.h"

// What a sweep costs, how much of the machine it uses, and what the same answer costs by simulation. Time is
// CPU time of the whole process, so that other work on the machine disturbs little. docs/bench.md has the
// figures.
namespace mitefall::forecast {
namespace {

constexpr double horizon = 60;
constexpr std::size_t draw_total = 256;

double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

records::Climate climate(double celsius) {
    return {units::celsius(celsius), units::celsius(celsius), units::relative_humidity_percent(75)};
}

void treat(scenario::Scenario& scenario, double day, scenario::PlaceIndex place) {
    using M = mites::MiteParameters;
    scenario.events.push_back(
        {day, scenario::Kill{place, mites::Reach::on_animal,
                             scenario::Amount::drawn(&M::kill_spray_on_animal_home), 1}});
    scenario.events.push_back(
        {day, scenario::Kill{place, mites::Reach::mobile_nest,
                             scenario::Amount::drawn(&M::kill_spray_nest_home_sealed), 1}});
    scenario.events.push_back(
        {day, scenario::Residue{place, scenario::Amount::drawn(&M::damp_hazard_home),
                                scenario::Amount::drawn(&M::residual_half_life), day + 7}});
}

/// Ten enclosures in one room, weekly rounds; as many kinds (temperatures) as asked for.
scenario::Scenario ten_enclosures(int kinds, int rounds) {
    scenario::Scenario scenario;
    scenario.places.resize(11);
    scenario.places[0].is_room = true;
    scenario.places[0].climate = climate(25);
    for (int i = 0; i < 10; ++i) {
        scenario::Place& place = scenario.places[static_cast<std::size_t>(i) + 1];
        place.room = 0;
        place.climate = climate(26 + 0.5 * (i % kinds));
        place.animals = 1;
    }
    scenario.places[1].set_apart = true;  // where the mites are
    for (int round = 0; round < rounds; ++round) {
        for (scenario::PlaceIndex p = 1; p < scenario.places.size(); ++p) treat(scenario, 7.0 * round, p);
    }
    return scenario;
}

const evidence::Tables& tables() {
    static const evidence::Tables loaded = evidence::Tables::load_embedded().value();
    return loaded;
}

const mites::Ensemble& ensemble() {
    static const mites::Ensemble drawn = mites::draw_parameters(tables(), draw_total, 1);
    return drawn;
}

/// Multiply-adds of doubles in one step, counted after step_kernel.cpp: four slopes and six combinations of
/// each open cell; carrying, filling and refilling each chain. Weights, hazards, errors and what happens
/// between steps are left out, so the count is low.
double multiply_adds_of_step(const branching::Split& split) {
    double count = 0;
    for (const branching::Run& run : split.open.runs) {
        double walks = 0;
        for (std::uint32_t e = 0; e < run.exits.count; ++e)
            walks += split.open.exits[run.exits.first + e].same_substage ? 1 : 0;
        const double others = run.exits.count - walks + run.births.count + run.ends.count;
        count += 4 * (run.count * (2 + walks) + others) + 6 * run.count;
    }
    for (const branching::Chain& chain : split.chains) {
        const double n = chain.count;
        count += 2 * n + n * (n + 1) / 2 + 4 * n + 8 + 6 * chain.ends.count;
    }
    return count * branching::lane_count;
}

/// The same for the forecast of an ensemble: steps of each block times those of its step.
double multiply_adds_of(const scenario::Scenario& scenario, double& steps) {
    const network::Classes classes = network::lump(scenario);
    double count = 0;
    for (std::size_t b = 0; b < draw_total / branching::lane_count; ++b) {
        const auto draws =
            std::span(ensemble().draws).subspan(b * branching::lane_count, branching::lane_count);
        const network::MiteNetwork compiled = network::compile(scenario, classes, ensemble().fixed, draws);
        const auto taken =
            static_cast<double>(branching::sweep(compiled.network, 0, horizon,
                                                 branching::Question::no_survivor, branching::for_show)
                                    .steps);
        steps += taken;
        count += taken * multiply_adds_of_step(branching::split(compiled.network));
    }
    return count;
}

/// Multiply-adds per second of one core: the best of several short runs.
double peak() {
    static const double best = [] {
        double most = 0;
        for (int i = 0; i < 10; ++i) {
            double result = 0;
            const double begin = cpu_seconds();
            const auto done = static_cast<double>(bench::multiply_add(20'000'000, result));
            most = std::max(most, done / (cpu_seconds() - begin));
            benchmark::DoNotOptimize(result);
        }
        return most;
    }();
    return best;
}

void multiply_add_peak(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(peak());
    state.counters["per_second"] = peak();
}
BENCHMARK(multiply_add_peak)->Iterations(1);

void forecast_of_ten(benchmark::State& state) {
    const scenario::Scenario scenario = ten_enclosures(static_cast<int>(state.range(0)), 3);
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble();
    request.start = KnownStart{{1, mites::Stage::adult_feeding_1, 10}};
    request.to = horizon;
    const double begin = cpu_seconds();
    for (auto _ : state) benchmark::DoNotOptimize(forecast_clear(request)->clear.mean);
    const double each = (cpu_seconds() - begin) / static_cast<double>(state.iterations());
    double steps = 0;
    const double work = multiply_adds_of(scenario, steps);
    state.counters["classes"] = static_cast<double>(network::lump(scenario).members.size());
    state.counters["steps"] = steps;
    state.counters["multiply_adds"] = work;
    state.counters["sweeps_per_cpu_s"] = draw_total / each;
    state.counters["of_peak"] = work / each / peak();
}
BENCHMARK(forecast_of_ten)
    ->ArgName("kinds")
    ->Arg(3)
    ->Arg(10)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

/// As many mites at the start as bring the chance at the most likely parameters next to a half.
double mites_for_a_half(const scenario::Scenario& scenario) {
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble();
    request.start = KnownStart{{1, mites::Stage::adult_feeding_1, 1}};
    request.to = horizon;
    request.only_mode = true;
    return std::max(1.0, std::round(std::log(0.5) / std::log(forecast_clear(request)->clear_at_mode)));
}

/// CPU seconds of one draw of an ensemble, out of many.
double seconds_of_a_draw(ForecastRequest request) {
    request.only_mode = false;
    constexpr int times = 10;
    const double begin = cpu_seconds();
    for (int i = 0; i < times; ++i) benchmark::DoNotOptimize(forecast_clear(request)->clear.mean);
    return (cpu_seconds() - begin) / times / draw_total;
}

/// One round only, so that a few mites bring the chance next to a half: a start of many would flatter the
/// sweep.
void simulator_against_sweep(benchmark::State& state) {
    const scenario::Scenario scenario = ten_enclosures(static_cast<int>(state.range(0)), 1);
    const double mites = mites_for_a_half(scenario);
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble();
    request.start = KnownStart{{1, mites::Stage::adult_feeding_1, mites}};
    request.to = horizon;
    request.only_mode = true;
    const double swept = forecast_clear(request)->clear_at_mode;
    const double sweep_cpu = seconds_of_a_draw(request);
    simulator::SimulationRequest simulation;
    simulation.scenario = &scenario;
    simulation.fixed = ensemble().fixed;
    simulation.draw = ensemble().mode;
    simulation.start = {{1, mites::Stage::adult_feeding_1, mites}};
    simulation.to = horizon;
    simulation.runs = 4000;
    simulator::Estimate estimate;
    const double begin = cpu_seconds();
    for (auto _ : state) estimate = simulator::simulate(simulation).clear;
    const double run_cpu =
        (cpu_seconds() - begin) / static_cast<double>(state.iterations()) / simulation.runs;
    // Runs for a standard error s: p (1 - p) / s^2. Three digits: 0.0005.
    const double runs_needed = swept * (1 - swept) / (0.0005 * 0.0005);
    state.counters["mites"] = mites;
    state.counters["swept"] = swept;
    state.counters["simulated"] = estimate.value;
    state.counters["standard_error"] = estimate.standard_error;
    state.counters["sweep_cpu_ms"] = 1e3 * sweep_cpu;
    state.counters["run_cpu_ms"] = 1e3 * run_cpu;
    state.counters["runs_for_3_digits"] = runs_needed;
    state.counters["times_the_sweep"] = runs_needed * run_cpu / sweep_cpu;
}
BENCHMARK(simulator_against_sweep)
    ->ArgName("kinds")
    ->Arg(3)
    ->Arg(10)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

}  // namespace
}  // namespace mitefall::forecast
