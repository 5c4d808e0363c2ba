#include <algorithm>
#include <limits>

#include "base/contract.h"
#include "belief/lineage.h"

namespace mitefall::belief {

namespace {

constexpr double always = -std::numeric_limits<double>::infinity();

void change_spell(Spell& spell, scenario::PlaceIndex place, const scenario::Happening& what) {
    if (const auto* const move = std::get_if<scenario::MoveAnimal>(&what))
        spell.animals += (move->to == place ? 1 : 0) - (move->from == place ? 1 : 0);
    else if (std::holds_alternative<scenario::AnimalJoins>(what))
        ++spell.animals;
    else if (std::holds_alternative<scenario::AnimalLeaves>(what))
        --spell.animals;
    else if (const auto* const drugs = std::get_if<scenario::Medicated>(&what))
        spell.drugs = drugs;
    else if (const auto* const residue = std::get_if<scenario::Residue>(&what))
        scenario::lay(*residue, spell.on_paper);
    else if (std::holds_alternative<scenario::ResidueGone>(what))
        spell.on_paper.clear();
}

}  // namespace

Terrain::Terrain(const scenario::Scenario& scenario, std::span<const scenario::Look> looks, double at)
    : scenario_(&scenario), looks_(looks), at_(at) {
    const std::size_t n = scenario.places.size();
    spells_.resize(n);
    enclosures_.resize(n);
    last_looks_.resize(n);
    for (scenario::PlaceIndex p = 0; p < n; ++p) {
        const scenario::Place& place = scenario.places[p];
        spells_[p].push_back({always, climate_index(place.climate), place.animals, nullptr, {}, {}});
        if (!place.is_room && place.room != scenario::nowhere) enclosures_[place.room].push_back(p);
    }
    write_events();
    write_looks();
}

std::uint32_t Terrain::climate_index(const records::Climate& climate) {
    const std::tuple key(units::in_celsius(climate.day), units::in_celsius(climate.night),
                         units::in_percent(climate.humidity));
    const auto [found, is_new] =
        climate_indices_.try_emplace(key, static_cast<std::uint32_t>(climates_.size()));
    if (is_new) climates_.push_back(climate);
    return found->second;
}

/// The last spell of the place, begun at `time`.
Spell& Terrain::spell_beginning(scenario::PlaceIndex place, double time) {
    auto& spells = spells_[place];
    if (spells.back().begin < time) {
        Spell next = spells.back();
        next.begin = time;
        next.incidents.clear();
        spells.push_back(std::move(next));
    }
    return spells.back();
}

void Terrain::write_events() {
    for (std::size_t i = 0; i < scenario_->events.size(); ++i) {
        const scenario::Event& event = scenario_->events[i];
        if (event.time >= at_) break;
        if (!acts_on_mites(event.what)) continue;
        const scenario::PlaceIndex place = scenario::place_of(event.what);
        Spell& spell = spell_beginning(place, event.time);
        spell.incidents.push_back({order_of_event(i), &event.what, spell.animals, 0});
        change_spell(spell, place, event.what);
        if (const auto* const climate = std::get_if<scenario::ClimateChange>(&event.what))
            spell.climate = climate_index(climate->climate);
        const scenario::PlaceIndex target = scenario::target_of(event.what);
        if (std::holds_alternative<scenario::MoveAnimal>(event.what))
            change_spell(spell_beginning(target, event.time), target, event.what);
    }
}

/// Looks change nothing, so they may be put into the spells afterwards.
void Terrain::write_looks() {
    for (std::uint32_t i = 0; i < looks_.size(); ++i) {
        const scenario::Look& look = looks_[i];
        base::expects(look.time <= at_, "looks come before the moment asked about");
        if (scenario::is_find(look)) finds_.push_back(i);
        if (look.time >= at_) {
            last_looks_[look.place].push_back(i);
            continue;
        }
        auto& spells = spells_[look.place];
        std::size_t s = spell_at(look.place, look.time);
        if (spells[s].begin < look.time) {
            Spell next = spells[s];
            next.begin = look.time;
            next.incidents.clear();
            ++s;
            spells.insert(spells.begin() + static_cast<std::ptrdiff_t>(s), std::move(next));
        }
        auto& incidents = spells[s].incidents;
        const Incident incident{order_of_look(look), nullptr, 0, i};
        const auto after = std::find_if(incidents.begin(), incidents.end(),
                                        [&](const Incident& other) { return other.order > incident.order; });
        incidents.insert(after, incident);
    }
}

std::size_t Terrain::spell_at(scenario::PlaceIndex place, double time) const {
    const auto& spells = spells_[place];
    const auto after = std::partition_point(spells.begin(), spells.end(),
                                            [&](const Spell& spell) { return spell.begin <= time; });
    return static_cast<std::size_t>(std::distance(spells.begin(), after)) - 1;
}

}  // namespace mitefall::belief
