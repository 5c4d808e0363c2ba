#include "scenario/actions.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "base/contract.h"

namespace mitefall::scenario {
namespace {

using M = mites::MiteParameters;
using records::Material;
using records::Method;

/// One treatment of one animal, whatever it kills.
struct Given {
    Method method;
    units::Strength strength;
    double part;
};

double amount(units::Strength strength) { return units::in_milligrams_per_litre(strength); }

/// Parts of the animals add up; of one method on one animal the strongest counts.
void give(const Given& fresh, std::vector<Given>& to) {
    const auto same = std::find_if(to.begin(), to.end(), [&](const Given& g) {
        return g.method == fresh.method && amount(g.strength) == amount(fresh.strength);
    });
    if (same == to.end())
        to.push_back(fresh);
    else
        same->part = std::min(1.0, same->part + fresh.part);
    double strongest = -1;
    for (const Given& g : to) {
        if (g.method == fresh.method && g.part >= 1) strongest = std::max(strongest, amount(g.strength));
    }
    std::erase_if(to, [&](const Given& g) {
        const bool is_outdone =
            amount(g.strength) < strongest || (amount(g.strength) == strongest && g.part < 1);
        return g.method == fresh.method && is_outdone;
    });
}

/// What is done to one place at one moment.
class TreatmentWriter {
  public:
    TreatmentWriter(Scenario& scenario, std::span<const Action> together, const mites::FixedParameters& fixed,
                    Residents& residents)
        : scenario_(scenario),
          actions_(together),
          fixed_(fixed),
          residents_(residents),
          place_(together.front().place),
          time_(together.front().time),
          sealed_(scenario.places[place_].material == Material::sealed) {
        for (const Action& action : together)
            base::expects(action.place == place_ && action.time == time_, "one place at one moment");
    }

    /// New paper is laid before it is sprayed.
    void write() {
        if (is_done(Method::change_substrate)) change_substrate();
        if (is_done(Method::treat_room)) in_nest(Amount::drawn(&M::kill_room_treatment));
        if (is_done(Method::permethrin_empty))
            in_nest(by_material(&M::kill_permethrin_nest_sealed, &M::kill_permethrin_nest_porous));
        if (is_done(Method::spray_bedding)) spray_bedding();
        treat_animals();
    }

  private:
    void add(Happening what) { scenario_.events.push_back({time_, std::move(what)}); }

    [[nodiscard]] bool is_done(Method method) const {
        return std::any_of(actions_.begin(), actions_.end(),
                           [&](const Action& action) { return action.method == method; });
    }

    [[nodiscard]] Amount by_material(mites::ParameterMember sealed, mites::ParameterMember porous) const {
        return Amount::drawn(sealed_ ? sealed : porous);
    }

    void in_nest(const Amount& chance) { add(Kill{place_, mites::Reach::mobile_nest, chance, 1}); }

    void spray_bedding() {
        units::Strength strongest;
        std::vector<Residue> on_paper;
        for (const Action& action : actions_) {
            if (action.method != Method::spray_bedding) continue;
            if (amount(action.strength) > amount(strongest)) strongest = action.strength;
            lay(residue_of_spray(place_, action.strength, std::max(time_, action.damp_until), fixed_),
                on_paper);
        }
        in_nest(sealed_ ? at_strength(&M::kill_spray_nest_published_sealed, &M::kill_spray_nest_home_sealed,
                                      strongest, fixed_)
                        : at_strength(&M::kill_spray_nest_published_porous, &M::kill_spray_nest_home_porous,
                                      strongest, fixed_));
        for (const Residue& residue : on_paper) add(residue);
    }

    void change_substrate() {
        add(ResidueGone{place_});
        in_nest(by_material(&M::substrate_nest_sealed, &M::substrate_nest_porous));
        add(Kill{place_, mites::Reach::eggs,
                 by_material(&M::substrate_eggs_sealed, &M::substrate_eggs_porous), 1});
    }

    /// What a method kills of the mites on an animal it is given to; none where there is no figure.
    [[nodiscard]] std::optional<Amount> kill_of(const Given& given) const {
        switch (given.method) {
            case Method::spray_animal:
                return at_strength(&M::kill_spray_on_animal_published, &M::kill_spray_on_animal_home,
                                   given.strength, fixed_);
            case Method::soak: return Amount::drawn(&M::kill_soak);
            case Method::wipe: return Amount::drawn(&M::kill_wipe);
            case Method::oral_afoxolaner:
            case Method::oral_fluralaner: return Amount::drawn(&M::oral_kill_per_meal);
            case Method::spray_bedding:
            case Method::change_substrate:
            case Method::treat_room:
            case Method::permethrin_empty:
            case Method::fipronil_wipe:
            case Method::injected_ivermectin:
            case Method::oil_wipe:
            case Method::soap_wash:
            case Method::heat_objects:
            case Method::freeze_objects:
            case Method::desiccant_dust:
            case Method::predatory_mites: return std::nullopt;
        }
        return std::nullopt;
    }

    void treat_animals() {
        const std::vector<Host>& hosts = residents_.of(place_);
        // Feeding mites where no animal lives: what was given to nobody in particular reaches them.
        std::vector<std::vector<Given>> given(std::max<std::size_t>(1, hosts.size()));
        for (std::size_t i = 0; i < given.size(); ++i) {
            for (const Action& action : actions_) {
                const bool is_meant = action.animals.empty() || (i < hosts.size() && names(action, hosts[i]));
                const Given one{action.method, action.strength, action.animals.empty() ? action.part : 1.0};
                if (is_meant && one.part > 0 && kill_of(one)) give(one, given[i]);
            }
            std::sort(given[i].begin(), given[i].end(), [](const Given& a, const Given& b) {
                return std::pair(a.method, amount(a.strength)) < std::pair(b.method, amount(b.strength));
            });
        }
        kill_on_animals(given);
        if (!hosts.empty()) dose(given);
    }

    [[nodiscard]] static bool names(const Action& action, Host host) {
        return std::find(action.animals.begin(), action.animals.end(), host) != action.animals.end();
    }

    void kill_on_animals(const std::vector<std::vector<Given>>& given) {
        KillOnAnimals kill{place_, {}};
        for (const std::vector<Given>& to_one : given) {
            kill.animals.emplace_back();
            for (const Given& g : to_one) kill.animals.back().push_back({*kill_of(g), g.part});
        }
        const std::vector<Dab>& first = kill.animals.front();
        const bool all_alike = std::all_of(kill.animals.begin(), kill.animals.end(),
                                           [&](const std::vector<Dab>& dabs) { return dabs == first; });
        if (!all_alike) return add_kills(scenario_, time_, std::move(kill));
        for (const Dab& dab : first) add(Kill{place_, mites::Reach::on_animal, dab.chance, dab.part});
    }

    void dose(const std::vector<std::vector<Given>>& given) {
        std::vector<std::vector<Dose>> doses;
        bool any = false;
        for (const std::vector<Given>& to_one : given) {
            doses.emplace_back();
            for (const Given& g : to_one) {
                const auto days = days_in_blood(g.method);
                if (days) doses.back().push_back({*kill_of(g), g.part, time_ + *days});
            }
            any = any || !doses.back().empty();
        }
        if (any) residents_.dose(time_, place_, doses);
    }

    [[nodiscard]] std::optional<double> days_in_blood(Method method) const {
        if (method == Method::oral_afoxolaner) return fixed_.oral_days_afoxolaner;
        if (method == Method::oral_fluralaner) return fixed_.oral_days_fluralaner;
        return std::nullopt;
    }

    Scenario& scenario_;
    std::span<const Action> actions_;
    const mites::FixedParameters& fixed_;
    Residents& residents_;
    PlaceIndex place_;
    double time_;
    bool sealed_;
};

}  // namespace

Amount at_strength(mites::ParameterMember published, mites::ParameterMember at_home, units::Strength strength,
                   const mites::FixedParameters& fixed) {
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
                         const mites::FixedParameters& fixed) {
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

void add_kills(Scenario& scenario, double time, KillOnAnimals kills) {
    for (auto event = scenario.events.rbegin(); event != scenario.events.rend(); ++event) {
        if (event->time < time) break;
        auto* const said = std::get_if<KillOnAnimals>(&event->what);
        if (said == nullptr || said->place != kills.place || said->animals.size() != kills.animals.size())
            continue;
        for (std::size_t i = 0; i < kills.animals.size(); ++i) {
            const std::vector<Dab>& more = kills.animals[i];
            said->animals[i].insert(said->animals[i].end(), more.begin(), more.end());
        }
        return;
    }
    scenario.events.push_back({time, std::move(kills)});
}

void add_treatments(Scenario& scenario, std::span<const Action> together, const mites::FixedParameters& fixed,
                    Residents& residents) {
    std::map<PlaceIndex, std::vector<Action>> by_place;
    for (const Action& action : together) by_place[action.place].push_back(action);
    for (const auto& [place, actions] : by_place)
        TreatmentWriter(scenario, actions, fixed, residents).write();
}

void add_action(Scenario& scenario, const Action& action, const mites::FixedParameters& fixed) {
    Residents residents(scenario);
    add_treatments(scenario, std::span(&action, 1), fixed, residents);
}

}  // namespace mitefall::scenario
