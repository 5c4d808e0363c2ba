#include "scenario/climates.h"

#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>
#include <variant>

namespace mitefall::scenario {
namespace {

constexpr double percent_per_celsius = 10;  // of humidity, to a degree of width

using Celsius = std::tuple<double, double, double>;  // day, night, and per cent of humidity

Celsius numbers_of(const records::Climate& climate) {
    return {units::in_celsius(climate.day), units::in_celsius(climate.night),
            units::in_percent(climate.humidity)};
}

/// The box of a grid that the climate lies in.
Celsius box_of(const records::Climate& climate, double width) {
    const auto [day, night, humidity] = numbers_of(climate);
    return {std::floor(day / width), std::floor(night / width),
            std::floor(humidity / (width * percent_per_celsius))};
}

records::Climate mean_of(const Scenario& scenario, const std::vector<PlaceIndex>& members) {
    double day = 0;
    double night = 0;
    double humidity = 0;
    for (const PlaceIndex place : members) {
        const auto [d, n, h] = numbers_of(scenario.places[place].climate);
        day += d;
        night += n;
        humidity += h;
    }
    const auto count = static_cast<double>(members.size());
    return {units::celsius(day / count), units::celsius(night / count),
            units::relative_humidity_percent(humidity / count)};
}

}  // namespace

Scenario with_rounded_climates(Scenario scenario, const std::vector<double>& width) {
    std::vector<bool> changes(scenario.places.size());
    for (const Event& event : scenario.events) {
        if (const auto* const change = std::get_if<ClimateChange>(&event.what)) changes[change->place] = true;
    }
    std::map<std::pair<double, Celsius>, std::vector<PlaceIndex>> boxes;
    for (PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        if (scenario.places[place].is_room || changes[place] || !(width[place] > 0)) continue;
        boxes[{width[place], box_of(scenario.places[place].climate, width[place])}].push_back(place);
    }
    for (const auto& [box, members] : boxes) {
        const records::Climate mean = mean_of(scenario, members);
        for (const PlaceIndex place : members) scenario.places[place].climate = mean;
    }
    return scenario;
}

std::size_t climates_in(const Scenario& scenario) {
    std::set<Celsius> climates;
    for (const Place& place : scenario.places) {
        if (!place.is_room) climates.insert(numbers_of(place.climate));
    }
    return climates.size();
}

}  // namespace mitefall::scenario
