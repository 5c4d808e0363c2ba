#include <benchmark/benchmark.h>

#include "forecast/forecast.h"

namespace mitefall::forecast {
namespace {

records::Climate climate(double celsius) {
    return {units::celsius(celsius), units::celsius(celsius), units::relative_humidity_percent(75)};
}

/// Enclosures that all differ, so that none are lumped; three rounds of treatment.
scenario::Scenario distinct_enclosures(int count) {
    scenario::Scenario scenario;
    scenario.places.emplace_back();
    scenario.places[0].is_room = true;
    scenario.places[0].climate = climate(25);
    for (int i = 0; i < count; ++i) {
        scenario::Place place;
        place.room = 0;
        place.climate = climate(26 + 0.2 * i);
        place.animals = 1;
        scenario.places.push_back(place);
    }
    for (double day = 0; day < 20; day += 7) {
        for (scenario::PlaceIndex p = 1; p < scenario.places.size(); ++p) {
            scenario.events.push_back(
                {day, scenario::Kill{
                          p, mites::Reach::on_animal,
                          scenario::Amount::drawn(&mites::MiteParameters::kill_spray_on_animal_home), 1}});
            scenario.events.push_back(
                {day, scenario::Kill{
                          p, mites::Reach::mobile_nest,
                          scenario::Amount::drawn(&mites::MiteParameters::kill_spray_nest_home_sealed), 1}});
            scenario.events.push_back(
                {day, scenario::Residue{p, scenario::Amount::drawn(&mites::MiteParameters::damp_hazard_home),
                                        scenario::Amount::drawn(&mites::MiteParameters::residual_half_life),
                                        day + 7}});
        }
    }
    return scenario;
}

void forecast_of_distinct_enclosures(benchmark::State& state) {
    const auto tables = evidence::Tables::load_embedded().value();
    const mites::Ensemble ensemble = mites::draw_parameters(tables, 256, 1);
    const scenario::Scenario scenario = distinct_enclosures(static_cast<int>(state.range(0)));
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = KnownStart{{1, mites::Stage::adult_feeding_1, 10}};
    request.to = 60;
    std::size_t steps = 0;
    for (auto _ : state) {
        const auto result = forecast_clear(request);
        steps = result->steps;
        benchmark::DoNotOptimize(result->clear.mean);
    }
    state.counters["steps"] = static_cast<double>(steps);
}
BENCHMARK(forecast_of_distinct_enclosures)
    ->Arg(1)
    ->Arg(10)
    ->Arg(40)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace mitefall::forecast
