#include "forecast/scenario.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace mitefall::forecast {
namespace {

using base::fail;
using base::invalid;
using base::Result;

void follow_animals(const Happening& what, std::vector<int>& animals) {
    if (const auto* const move = std::get_if<MoveAnimal>(&what)) {
        --animals[move->from];
        ++animals[move->to];
    } else if (const auto* const join = std::get_if<AnimalJoins>(&what)) {
        ++animals[join->place];
    } else if (const auto* const leave = std::get_if<AnimalLeaves>(&what)) {
        --animals[leave->place];
    }
}

base::Error wrong(std::string what, std::string value, std::string limit) {
    return invalid(std::move(what), std::move(value), std::move(limit), "correct the case");
}

Result<void> check_place(const Scenario& scenario, const Place& place) {
    const auto is_room = [&](PlaceIndex index) {
        return index < scenario.places.size() && scenario.places[index].is_room;
    };
    if (!place.is_room && place.room != nowhere && !is_room(place.room)) {
        return fail(wrong("an enclosure must stand in a room", place.name, "the index of a room"));
    }
    for (const PlaceIndex other : place.adjoining) {
        if (!place.is_room || !is_room(other)) {
            return fail(wrong("only rooms adjoin, and only rooms", place.name, "the index of a room"));
        }
    }
    if (place.animals < 0 || (place.is_room && place.animals > 0)) {
        return fail(wrong("impossible number of animals in a place",
                          fmt::format("{}: {}", place.name, place.animals),
                          "zero or more in an enclosure, none in a room"));
    }
    const double day = units::in_celsius(place.climate.day);
    const double night = units::in_celsius(place.climate.night);
    const double humidity = units::in_percent(place.climate.humidity);
    if (!(day >= -50 && day <= 100 && night >= -50 && night <= 100 && humidity >= 0 && humidity <= 100)) {
        return fail(wrong("impossible climate", place.name, "-50 to 100 C and 0 to 100 % humidity"));
    }
    return {};
}

bool is_share(double x) { return x >= 0 && x <= 1; }

/// A fixed amount that is a chance; drawn ones are checked with the evidence tables.
bool is_chance(const Amount& amount) {
    return amount.parameter != nullptr ? is_share(amount.factor) : is_share(amount.fixed);
}

bool is_positive(const Amount& amount) {
    return amount.parameter != nullptr || (amount.fixed >= 0 && std::isfinite(amount.fixed));
}

bool amounts_are_possible(const Happening& what) {
    if (const auto* const e = std::get_if<Kill>(&what)) return is_chance(e->chance) && is_share(e->part);
    if (const auto* const e = std::get_if<MealKill>(&what))
        return is_chance(e->chance) && is_share(e->part) && std::isfinite(e->until);
    if (const auto* const e = std::get_if<Contact>(&what)) return is_chance(e->chance);
    if (const auto* const e = std::get_if<CleanCheck>(&what))
        return is_chance(e->detection) && is_chance(e->nest_part) && is_chance(e->trap);
    if (const auto* const e = std::get_if<Import>(&what))
        return is_positive(e->rate) && std::isfinite(e->until);
    if (const auto* const e = std::get_if<Residue>(&what)) {
        return is_positive(e->level) && is_positive(e->half_life) && std::isfinite(e->damp_until);
    }
    return true;
}

bool acts_on_enclosures_only(const Happening& what) {
    return !std::holds_alternative<Kill>(what) && !std::holds_alternative<ClimateChange>(what) &&
           !std::holds_alternative<Import>(what);
}

Result<void> check_event(const Scenario& scenario, const Event& event, const std::vector<int>& animals) {
    const PlaceIndex place = place_of(event.what);
    const PlaceIndex target = target_of(event.what);
    const std::string when = fmt::format("day {}", event.time);
    if (!std::isfinite(event.time) || event.time < 0)
        return fail(wrong("an event without a time", when, "0 or later"));
    if (place >= scenario.places.size() || (target != nowhere && target >= scenario.places.size())) {
        return fail(wrong("an event at a place that does not exist", when, "the places of the case"));
    }
    const bool on_room =
        scenario.places[place].is_room || (target != nowhere && scenario.places[target].is_room);
    if (on_room && acts_on_enclosures_only(event.what)) {
        return fail(wrong("this can happen to enclosures only", when + ", " + scenario.places[place].name,
                          "an enclosure"));
    }
    const auto* const import = std::get_if<Import>(&event.what);
    if (import != nullptr && on_room && !lives_in_room(activity_of(import->stage))) {
        return fail(wrong("no such stage lives in a room", std::string(to_text(import->stage)),
                          "a wandering stage, an egg or a larva"));
    }
    if (target == place) return fail(wrong("a place cannot be in contact with itself", when, "two places"));
    if (!amounts_are_possible(event.what)) {
        return fail(wrong("a chance, rate or time is impossible", when + ", " + scenario.places[place].name,
                          "chances 0 to 1, rates and times finite and not negative"));
    }
    const bool takes_an_animal =
        std::holds_alternative<MoveAnimal>(event.what) || std::holds_alternative<AnimalLeaves>(event.what);
    if (takes_an_animal && animals[place] < 1) {
        return fail(wrong("an animal leaves an empty enclosure", when + ", " + scenario.places[place].name,
                          "an animal in it"));
    }
    return {};
}

}  // namespace

double Amount::in(const MiteParameters& draw) const {
    if (parameter == nullptr) return factor * fixed;
    const double base = draw.*parameter;
    return factor * (toward == nullptr ? base : base + weight * (draw.*toward - base));
}

std::vector<int> animals_at(const Scenario& scenario, double time) {
    std::vector<int> animals;
    for (const Place& place : scenario.places) animals.push_back(place.animals);
    for (const Event& event : scenario.events) {
        if (event.time < time) follow_animals(event.what, animals);
    }
    return animals;
}

PlaceIndex place_of(const Happening& what) {
    return std::visit(
        [](const auto& event) {
            if constexpr (requires { event.from; })
                return event.from;
            else
                return event.place;
        },
        what);
}

PlaceIndex target_of(const Happening& what) {
    return std::visit(
        [](const auto& event) -> PlaceIndex {
            if constexpr (requires { event.to; })
                return event.to;
            else
                return nowhere;
        },
        what);
}

Result<void> check_scenario(const Scenario& scenario) {
    for (const Place& place : scenario.places) {
        if (const auto ok = check_place(scenario, place); !ok) return ok;
    }
    std::vector<int> animals = animals_at(scenario, 0);
    double earlier = 0;
    for (const Event& event : scenario.events) {
        if (const auto ok = check_event(scenario, event, animals); !ok) return ok;
        if (event.time < earlier)
            return fail(wrong("events out of order", fmt::format("day {}", event.time), "ascending times"));
        earlier = event.time;
        follow_animals(event.what, animals);
    }
    return {};
}

namespace {

/// For each event before `from`, whether it still acts then: the last residue and the last drug of a place,
/// streams that have not ended.
std::vector<bool> still_acting(const Scenario& scenario, double from) {
    const std::size_t none = scenario.events.size();
    std::vector<bool> acts(none, false);
    std::vector<std::size_t> residue(scenario.places.size(), none);
    std::vector<std::size_t> drug(scenario.places.size(), none);
    for (std::size_t i = 0; i < none && scenario.events[i].time < from; ++i) {
        const Happening& what = scenario.events[i].what;
        if (std::holds_alternative<Residue>(what)) residue[place_of(what)] = i;
        if (std::holds_alternative<ResidueGone>(what)) residue[place_of(what)] = none;
        if (const auto* const given = std::get_if<MealKill>(&what))
            drug[given->place] = given->until > from ? i : none;
        if (const auto* const stream = std::get_if<Import>(&what)) acts[i] = stream->until > from;
    }
    for (const auto& last : {residue, drug}) {
        for (const std::size_t i : last) {
            if (i != none) acts[i] = true;
        }
    }
    return acts;
}

}  // namespace

Scenario forget_past(const Scenario& scenario, double from) {
    Scenario later{scenario.places, {}};
    const std::vector<int> animals = animals_at(scenario, from);
    for (PlaceIndex place = 0; place < later.places.size(); ++place)
        later.places[place].animals = animals[place];
    const std::vector<bool> acts = still_acting(scenario, from);
    for (std::size_t i = 0; i < scenario.events.size(); ++i) {
        const Event& event = scenario.events[i];
        const auto* const climate = std::get_if<ClimateChange>(&event.what);
        if (event.time >= from || acts[i])
            later.events.push_back(event);
        else if (climate != nullptr)
            later.places[climate->place].climate = climate->climate;
    }
    return later;
}

}  // namespace mitefall::forecast
