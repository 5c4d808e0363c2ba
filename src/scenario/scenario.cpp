#include "scenario/scenario.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace mitefall::scenario {
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

template <class Given, class Test>
bool all_given(const std::vector<std::vector<Given>>& animals, Test test) {
    return std::all_of(animals.begin(), animals.end(), [&](const std::vector<Given>& given) {
        return std::all_of(given.begin(), given.end(), [&](const Given& one) {
            return is_chance(one.chance) && is_share(one.part) && test(one);
        });
    });
}

bool amounts_are_possible(const Happening& what) {
    if (const auto* const e = std::get_if<Kill>(&what)) return is_chance(e->chance) && is_share(e->part);
    if (const auto* const e = std::get_if<KillOnAnimals>(&what))
        return all_given(e->animals, [](const Dab&) { return true; });
    if (const auto* const e = std::get_if<Medicated>(&what))
        return all_given(e->animals, [](const Dose& dose) { return std::isfinite(dose.until); });
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
    if (import != nullptr && on_room && !mites::lives_in_room(mites::activity_of(import->stage))) {
        return fail(wrong("no such stage lives in a room", std::string(to_text(import->stage)),
                          "a wandering stage, an egg or a larva"));
    }
    if (target == place) return fail(wrong("a place cannot be in contact with itself", when, "two places"));
    if (!amounts_are_possible(event.what)) {
        return fail(wrong("a chance, rate or time is impossible", when + ", " + scenario.places[place].name,
                          "chances 0 to 1, rates and times finite and not negative"));
    }
    const auto tells_of = [&](const auto* given) {
        return given == nullptr || given->animals.size() == static_cast<std::size_t>(animals[place]);
    };
    if (!tells_of(std::get_if<KillOnAnimals>(&event.what)) ||
        !tells_of(std::get_if<Medicated>(&event.what))) {
        return fail(wrong("a treatment of single animals must tell of all that are there",
                          when + ", " + scenario.places[place].name, fmt::format("{}", animals[place])));
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

double Amount::in(const mites::MiteParameters& draw) const {
    if (parameter == nullptr) return factor * fixed;
    const double base = draw.*parameter;
    return factor * (toward == nullptr ? base : base + weight * std::max(0.0, draw.*toward - base));
}

double KillOnAnimals::chance(const mites::MiteParameters& draw) const {
    double outlived = 0;
    for (const std::vector<Dab>& given : animals) {
        double here = 1;
        for (const Dab& dab : given) here *= 1 - dab.part * dab.chance.in(draw);
        outlived += here;
    }
    return animals.empty() ? 0 : 1 - outlived / static_cast<double>(animals.size());
}

namespace {

/// Expected kill of the strongest of the doses in force, each given with its chance, by itself.
double strongest_of(const std::vector<Dose>& doses, const mites::MiteParameters& draw, double time) {
    std::vector<std::pair<double, double>> in_force;
    for (const Dose& dose : doses) {
        if (time < dose.until) in_force.emplace_back(dose.chance.in(draw), dose.part);
    }
    std::sort(in_force.rbegin(), in_force.rend());
    double expected = 0;
    double no_stronger = 1;
    for (const auto& [chance, part] : in_force) {
        expected += no_stronger * part * chance;
        no_stronger *= 1 - part;
    }
    return expected;
}

/// Whether `a` is at least as much as `b` in every draw, as far as that can be told without one.
bool is_no_less(const Amount& a, const Amount& b) {
    if (a.parameter != b.parameter || a.toward != b.toward) return false;
    if (a.parameter == nullptr) return a.factor * a.fixed >= b.factor * b.fixed;
    return a.weight >= b.weight && a.factor >= b.factor;
}

/// Never weaker than `b` from the moment both are there.
bool outdoes(const Residue& a, const Residue& b) {
    return is_no_less(a.level, b.level) && is_no_less(a.half_life, b.half_life) &&
           a.damp_until >= b.damp_until;
}

/// As `lay`, where `residue_of` tells what each element of a list stands for.
template <class Element, class ResidueOf>
void lay_by(const Residue& fresh, const Element& as, std::vector<Element>& on_paper, ResidueOf residue_of) {
    const bool adds_nothing = std::any_of(on_paper.begin(), on_paper.end(),
                                          [&](const Element& e) { return outdoes(residue_of(e), fresh); });
    if (adds_nothing) return;
    std::erase_if(on_paper, [&](const Element& e) { return outdoes(fresh, residue_of(e)); });
    on_paper.push_back(as);
}

double level_of(const Residue& residue, const mites::MiteParameters& draw, double time) {
    const double level = residue.level.in(draw);
    const double dry_for = time - residue.damp_until;
    return dry_for > 0 ? level * std::exp2(-dry_for / residue.half_life.in(draw)) : level;
}

}  // namespace

double Medicated::chance(const mites::MiteParameters& draw, double time) const {
    double sum = 0;
    for (const std::vector<Dose>& doses : animals) sum += strongest_of(doses, draw, time);
    return animals.empty() ? 0 : sum / static_cast<double>(animals.size());
}

bool Medicated::acts_after(double time) const {
    return std::any_of(animals.begin(), animals.end(), [&](const std::vector<Dose>& doses) {
        return std::any_of(doses.begin(), doses.end(), [&](const Dose& dose) { return dose.until > time; });
    });
}

void lay(const Residue& fresh, std::vector<Residue>& on_paper) {
    lay_by(fresh, fresh, on_paper, [](const Residue& residue) { return residue; });
}

double hazard_of(const std::vector<Residue>& on_paper, const mites::MiteParameters& draw, double time) {
    double strongest = 0;
    for (const Residue& residue : on_paper) strongest = std::max(strongest, level_of(residue, draw, time));
    return strongest;
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

/// For each event before `from`, whether it still acts then: residues on the paper that is there, what was
/// last said of a place's drugs, streams that have not ended.
std::vector<bool> still_acting(const Scenario& scenario, double from) {
    std::vector<bool> acts(scenario.events.size(), false);
    std::vector<std::vector<std::size_t>> residues(scenario.places.size());
    std::vector<std::optional<std::size_t>> drug(scenario.places.size());
    for (std::size_t i = 0; i < scenario.events.size() && scenario.events[i].time < from; ++i) {
        const Happening& what = scenario.events[i].what;
        const PlaceIndex place = place_of(what);
        if (const auto* const fresh = std::get_if<Residue>(&what)) {
            const auto residue = [&](std::size_t e) { return std::get<Residue>(scenario.events[e].what); };
            lay_by(*fresh, i, residues[place], residue);
        }
        if (std::holds_alternative<ResidueGone>(what)) residues[place].clear();
        if (const auto* const given = std::get_if<Medicated>(&what)) {
            drug[place].reset();
            if (given->acts_after(from)) drug[place] = i;
        }
        if (const auto* const stream = std::get_if<Import>(&what)) acts[i] = stream->until > from;
    }
    for (const auto& left : residues) {
        for (const std::size_t i : left) acts[i] = true;
    }
    for (const auto& last : drug) {
        if (last) acts[*last] = true;
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

}  // namespace mitefall::scenario
