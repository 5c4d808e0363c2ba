#include "forecast/actions.h"

#include <algorithm>
#include <cmath>

namespace mitefall::forecast {
namespace {

using M = MiteParameters;
using records::Material;
using records::Method;

constexpr double published_low = 5;     // mg/L; evidence: published_strength_low
constexpr double published_high = 10.6; // mg/L; evidence: strength_without_caution
constexpr double home = 200;            // mg/L; evidence: home_strength

void add(Scenario& scenario, double time, Happening what) { scenario.events.push_back({time, std::move(what)}); }

void spray_bedding(Scenario& scenario, const Action& action) {
    const bool sealed = scenario.places[action.place].material == Material::sealed;
    const Amount kill = sealed ? at_strength(&M::kill_spray_nest_published_sealed, &M::kill_spray_nest_home_sealed, action.strength)
                               : at_strength(&M::kill_spray_nest_published_porous, &M::kill_spray_nest_home_porous, action.strength);
    add(scenario, action.time, Kill{action.place, Reach::mobile_nest, kill, 1});
    add(scenario, action.time, Residue{action.place, at_strength(&M::damp_hazard_published, &M::damp_hazard_home, action.strength),
                                       Amount::drawn(&M::residual_half_life), std::max(action.time, action.damp_until)});
}

void change_substrate(Scenario& scenario, const Action& action) {
    const bool sealed = scenario.places[action.place].material == Material::sealed;
    add(scenario, action.time, ResidueGone{action.place});
    add(scenario, action.time, Kill{action.place, Reach::mobile_nest, Amount::drawn(sealed ? &M::substrate_nest_sealed : &M::substrate_nest_porous), 1});
    add(scenario, action.time, Kill{action.place, Reach::eggs, Amount::drawn(sealed ? &M::substrate_eggs_sealed : &M::substrate_eggs_porous), 1});
}

void on_animal(Scenario& scenario, const Action& action, const Amount& chance) {
    add(scenario, action.time, Kill{action.place, Reach::on_animal, chance, action.part});
}

void by_mouth(Scenario& scenario, const Action& action, double days) {
    add(scenario, action.time, MealKill{action.place, Amount::drawn(&M::oral_kill_per_meal), action.part, action.time + days});
}

}  // namespace

Amount at_strength(ParameterMember published, ParameterMember at_home, units::Strength strength) {
    const double s = units::in_milligrams_per_litre(strength);
    Amount amount = Amount::drawn(published);
    amount.toward = at_home;
    amount.weight = s > published_high ? std::min(1.0, std::log(s / published_high) / std::log(home / published_high)) : 0;
    amount.factor = std::clamp(s / published_low, 0.0, 1.0);
    return amount;
}

void add_action(Scenario& scenario, const Action& action) {
    const bool sealed = scenario.places[action.place].material == Material::sealed;
    switch (action.method) {
        case Method::spray_animal:
            return on_animal(scenario, action, at_strength(&M::kill_spray_on_animal_published, &M::kill_spray_on_animal_home, action.strength));
        case Method::spray_bedding: return spray_bedding(scenario, action);
        case Method::soak: return on_animal(scenario, action, Amount::drawn(&M::kill_soak));
        case Method::wipe: return on_animal(scenario, action, Amount::drawn(&M::kill_wipe));
        case Method::change_substrate: return change_substrate(scenario, action);
        case Method::treat_room:
            return add(scenario, action.time, Kill{action.place, Reach::mobile_nest, Amount::drawn(&M::kill_room_treatment), 1});
        case Method::permethrin_empty:
            return add(scenario, action.time, Kill{action.place, Reach::mobile_nest,
                                                   Amount::drawn(sealed ? &M::kill_permethrin_nest_sealed : &M::kill_permethrin_nest_porous), 1});
        case Method::oral_afoxolaner: return by_mouth(scenario, action, 28);  // evidence: oral_days_afoxolaner
        case Method::oral_fluralaner: return by_mouth(scenario, action, 90);  // evidence: oral_days_fluralaner
        case Method::fipronil_wipe:
        case Method::injected_ivermectin: return;
    }
}

}  // namespace mitefall::forecast
