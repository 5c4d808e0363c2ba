#include "forecast/actions.h"

#include <algorithm>
#include <cmath>

namespace mitefall::forecast {
namespace {

using M = MiteParameters;
using records::Material;
using records::Method;

class ActionWriter {
  public:
    ActionWriter(Scenario& scenario, const Action& action, const FixedParameters& fixed)
        : scenario_(scenario),
          action_(action),
          fixed_(fixed),
          sealed_(scenario.places[action.place].material == Material::sealed) {}

    void write() {
        switch (action_.method) {
            case Method::spray_animal:
                return on_animal(sprayed(&M::kill_spray_on_animal_published, &M::kill_spray_on_animal_home));
            case Method::spray_bedding: return spray_bedding();
            case Method::soak: return on_animal(Amount::drawn(&M::kill_soak));
            case Method::wipe: return on_animal(Amount::drawn(&M::kill_wipe));
            case Method::change_substrate: return change_substrate();
            case Method::treat_room: return in_nest(Amount::drawn(&M::kill_room_treatment));
            case Method::permethrin_empty:
                return in_nest(by_material(&M::kill_permethrin_nest_sealed, &M::kill_permethrin_nest_porous));
            case Method::oral_afoxolaner: return by_mouth(fixed_.oral_days_afoxolaner);
            case Method::oral_fluralaner: return by_mouth(fixed_.oral_days_fluralaner);
            case Method::fipronil_wipe:
            case Method::injected_ivermectin:
            case Method::oil_wipe:
            case Method::soap_wash:
            case Method::heat_objects:
            case Method::freeze_objects:
            case Method::desiccant_dust:
            case Method::predatory_mites: return;  // no figure: nothing is counted
        }
    }

  private:
    void add(Happening what) { scenario_.events.push_back({action_.time, std::move(what)}); }

    [[nodiscard]] Amount sprayed(ParameterMember published, ParameterMember home) const {
        return at_strength(published, home, action_.strength, fixed_);
    }

    [[nodiscard]] Amount by_material(ParameterMember sealed, ParameterMember porous) const {
        return Amount::drawn(sealed_ ? sealed : porous);
    }

    void on_animal(const Amount& chance) { add(Kill{action_.place, Reach::on_animal, chance, action_.part}); }
    void in_nest(const Amount& chance) { add(Kill{action_.place, Reach::mobile_nest, chance, 1}); }

    void spray_bedding() {
        in_nest(sealed_ ? sprayed(&M::kill_spray_nest_published_sealed, &M::kill_spray_nest_home_sealed)
                        : sprayed(&M::kill_spray_nest_published_porous, &M::kill_spray_nest_home_porous));
        add(residue_of_spray(action_.place, action_.strength, std::max(action_.time, action_.damp_until),
                             fixed_));
    }

    void change_substrate() {
        add(ResidueGone{action_.place});
        in_nest(by_material(&M::substrate_nest_sealed, &M::substrate_nest_porous));
        add(Kill{action_.place, Reach::eggs,
                 by_material(&M::substrate_eggs_sealed, &M::substrate_eggs_porous), 1});
    }

    void by_mouth(double days) {
        add(MealKill{action_.place, Amount::drawn(&M::oral_kill_per_meal), action_.part,
                     action_.time + days});
    }

    Scenario& scenario_;
    const Action& action_;
    const FixedParameters& fixed_;
    bool sealed_;
};

}  // namespace

Amount at_strength(ParameterMember published, ParameterMember at_home, units::Strength strength,
                   const FixedParameters& fixed) {
    const double s = units::in_milligrams_per_litre(strength);
    const double begin = fixed.strength_without_caution;
    Amount amount = Amount::drawn(published);
    amount.toward = at_home;
    amount.weight =
        s > begin ? std::min(1.0, std::log(s / begin) / std::log(fixed.home_strength / begin)) : 0;
    amount.factor = std::clamp(s / fixed.published_strength_low, 0.0, 1.0);
    return amount;
}

Residue residue_of_spray(PlaceIndex place, units::Strength strength, double damp_until,
                         const FixedParameters& fixed) {
    return {place, at_strength(&M::damp_hazard_published, &M::damp_hazard_home, strength, fixed),
            Amount::drawn(&M::residual_half_life), damp_until};
}

CleanCheck clean_check(PlaceIndex place, records::CheckMethod method) {
    const Amount none = Amount::number(0);
    switch (method) {
        case records::CheckMethod::look_over:
            return {place, Amount::drawn(&M::detection_light), Amount::drawn(&M::detection_nest_part), true,
                    none};
        case records::CheckMethod::soak:
            return {place, Amount::drawn(&M::detection_light_soak), none, true, none};
        case records::CheckMethod::wipe:
            return {place, Amount::drawn(&M::detection_light_wipe), none, true, none};
        case records::CheckMethod::paper_trap:
            return {place, none, none, false, Amount::drawn(&M::detection_paper_trap)};
    }
    return {};
}

void add_action(Scenario& scenario, const Action& action, const FixedParameters& fixed) {
    ActionWriter(scenario, action, fixed).write();
}

}  // namespace mitefall::forecast
