#include "scenario/actions.h"

#include <algorithm>
#include <cmath>
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

mites::ParameterMember member(evidence::ShareKey key) {
    const mites::ParameterMember found = mites::find_parameter(key.text());
    base::expects(found != nullptr, "the figure of a method is a parameter of the model");
    return found;
}

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
    TreatmentWriter(Scenario& scenario, std::span<const Action* const> together,
                    const mites::FixedParameters& fixed, Residents& residents)
        : scenario_(scenario),
          actions_(together),
          fixed_(fixed),
          residents_(residents),
          place_(together.front()->place),
          time_(together.front()->time),
          sealed_(scenario.places[place_].material == Material::sealed) {
        for (const Action* const action : together)
            base::expects(action->place == place_ && action->time == time_, "one place at one moment");
    }

    /// New paper is laid before it is sprayed.
    void write() {
        using records::Paper;
        for (const Paper paper : {Paper::renewed, Paper::as_it_is, Paper::sprayed}) {
            for (const records::MethodRow& row : records::method_rows) {
                if (row.paper == paper && is_done(row.method)) treat_place(row);
            }
        }
        treat_animals();
    }

  private:
    void add(Happening what) { scenario_.events.push_back({time_, std::move(what)}); }

    [[nodiscard]] bool is_done(Method method) const {
        return std::any_of(actions_.begin(), actions_.end(),
                           [&](const Action* action) { return action->method == method; });
    }

    /// At that strength, where it matters.
    [[nodiscard]] Amount chance(const records::KillKeys& keys, units::Strength strength) const {
        const auto usual = member(sealed_ ? keys.sealed : keys.porous);
        if (keys.home_sealed.empty()) return Amount::drawn(usual);
        return at_strength(usual, member(sealed_ ? keys.home_sealed : keys.home_porous), strength, fixed_);
    }

    void kill(mites::Reach reach, const records::KillKeys& keys, units::Strength strength) {
        if (!keys.sealed.empty()) add(Kill{place_, reach, chance(keys, strength), 1});
    }

    void treat_place(const records::MethodRow& row) {
        if (row.paper == records::Paper::renewed) add(ResidueGone{place_});
        units::Strength strongest;
        std::vector<Residue> on_paper;
        for (const Action* const action : actions_) {
            if (action->method != row.method) continue;
            if (amount(action->strength) > amount(strongest)) strongest = action->strength;
            if (row.paper != records::Paper::sprayed) continue;
            lay(residue_of_spray(place_, action->strength, std::max(time_, action->damp_until), fixed_),
                on_paper);
        }
        kill(mites::Reach::mobile_nest, row.kills.nest, strongest);
        kill(mites::Reach::eggs, row.kills.eggs, strongest);
        for (const Residue& residue : on_paper) add(residue);
    }

    /// What a method kills of the mites on an animal it is given to; none where there is no figure.
    [[nodiscard]] std::optional<Amount> kill_of(const Given& given) const {
        const records::KillKeys& keys = records::row_of(given.method).kills.on_animal;
        if (keys.sealed.empty()) return std::nullopt;
        return chance(keys, given.strength);
    }

    void treat_animals() {
        const std::vector<Host>& hosts = residents_.of(place_);
        // Feeding mites where no animal lives: what was given to nobody in particular reaches them.
        std::vector<std::vector<Given>> given(std::max<std::size_t>(1, hosts.size()));
        for (std::size_t i = 0; i < given.size(); ++i) {
            for (const Action* const action : actions_) {
                const bool is_for_all = action->animals.empty();
                const bool is_meant = is_for_all || (i < hosts.size() && names(*action, hosts[i]));
                const Given one{action->method, action->strength, is_for_all ? action->part : 1.0};
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
                if (!records::row_of(g.method).kills.days_in_blood.empty())
                    doses.back().push_back(
                        {*kill_of(g), g.part, time_ + mites::days_in_blood(fixed_, g.method)});
            }
            any = any || !doses.back().empty();
        }
        if (any) residents_.dose(time_, place_, doses);
    }

    Scenario& scenario_;
    std::span<const Action* const> actions_;
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
    std::vector<const Action*> by_place;
    by_place.reserve(together.size());
    for (const Action& action : together) by_place.push_back(&action);
    std::stable_sort(by_place.begin(), by_place.end(),
                     [](const Action* a, const Action* b) { return a->place < b->place; });
    for (auto first = by_place.begin(); first != by_place.end();) {
        const auto next = std::find_if(
            first, by_place.end(), [&](const Action* action) { return action->place != (*first)->place; });
        TreatmentWriter(scenario, {first, next}, fixed, residents).write();
        first = next;
    }
}

void add_action(Scenario& scenario, const Action& action, const mites::FixedParameters& fixed) {
    Residents residents(scenario);
    add_treatments(scenario, std::span(&action, 1), fixed, residents);
}

}  // namespace mitefall::scenario
