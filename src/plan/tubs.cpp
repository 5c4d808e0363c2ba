#include "plan/tubs.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

#include "plan/emptied.h"

namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;

/// The smaller the sooner.
using Turn = std::tuple<bool, bool, bool>;

class Asking {
  public:
    Asking(const Setting& setting, PermitBook& permits) : setting_(setting), permits_(permits) {
        for (const auto& [id, place] : setting.known.enclosures) {
            const auto& sighted = setting.known.sighted;
            if (std::find(sighted.begin(), sighted.end(), place) != sighted.end()) sighted_.insert(id);
        }
    }

    [[nodiscard]] bool is_permitted(const EnclosureId& id) {
        const safety::Request move{Method::fresh_tub, {}, setting_.today};
        if (const records::EmptiedWood* const wood = wood_of(setting_.wood, id))
            return wood->enclosure == id && can_be_emptied(*wood, setting_.with) &&
                   permits_.emptied(*wood).permits().enclosure(wood->tub, move).has_value();
        const bool is_lived_in = setting_.with.survey.inside.contains(id);
        return is_lived_in && permits_.enclosure(id, move).has_value();
    }

    [[nodiscard]] Turn turn_of(const EnclosureId& id) {
        const std::vector<AnimalId>& animals = setting_.with.survey.inside.at(id);
        const safety::Request spray{Method::spray_animal, setting_.strength, setting_.today};
        const bool all_sprayed = std::all_of(animals.begin(), animals.end(), [&](const AnimalId& animal) {
            return permits_.animal(animal, spray).has_value();
        });
        return {!sighted_.contains(id), !setting_.exposed.contains(id), all_sprayed};
    }

  private:
    const Setting& setting_;
    PermitBook& permits_;
    std::set<EnclosureId> sighted_;
};

}  // namespace

std::vector<EnclosureId> places_for_tubs(Scope widest, const Setting& setting, PermitBook& permits) {
    Asking asking(setting, permits);
    std::vector<std::pair<Turn, EnclosureId>> places;
    for (const EnclosureId& id : enclosures_of(widest, setting)) {
        if (asking.is_permitted(id)) places.emplace_back(asking.turn_of(id), id);
    }
    std::stable_sort(places.begin(), places.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<EnclosureId> in_turn;
    in_turn.reserve(places.size());
    for (auto& [turn, id] : places) in_turn.push_back(std::move(id));
    return in_turn;
}

std::size_t tubs_of(const records::CourseChoices& choices) {
    return choices.fresh_tubs.size() + choices.emptied_wood.size();
}

void give_tubs(const std::vector<EnclosureId>& enclosures, const Setting& setting,
               records::CourseChoices& choices) {
    choices.fresh_tubs.clear();
    choices.emptied_wood.clear();
    for (const EnclosureId& id : enclosures) {
        if (const records::EmptiedWood* const wood = wood_of(setting.wood, id))
            choices.emptied_wood.push_back(*wood);
        else
            choices.fresh_tubs.push_back(id);
    }
}

std::vector<EnclosureId> given_tubs(const records::CourseChoices& choices) {
    std::vector<EnclosureId> enclosures = choices.fresh_tubs;
    for (const records::EmptiedWood& wood : choices.emptied_wood) enclosures.push_back(wood.enclosure);
    return enclosures;
}

TubPlaces::TubPlaces(const std::vector<EnclosureId>& by_worth, const std::vector<Scope>& scopes,
                     const Setting& setting) {
    const auto spare = static_cast<std::size_t>(std::max(0, setting.limits.spare_tubs));
    if (spare == 0 || by_worth.empty()) return;
    for (const Scope scope : scopes) {
        const std::vector<EnclosureId> treated = enclosures_of(scope, setting);
        const std::set<EnclosureId> in_scope(treated.begin(), treated.end());
        std::vector<EnclosureId>& here = by_scope_[scope];
        for (const EnclosureId& id : by_worth) {
            if (here.size() < spare && in_scope.contains(id)) here.push_back(id);
        }
    }
}

std::vector<EnclosureId> TubPlaces::first(Scope scope, std::size_t number) const {
    const auto found = by_scope_.find(scope);
    if (found == by_scope_.end()) return {};
    std::vector<EnclosureId> tubs = found->second;
    tubs.resize(std::min(number, tubs.size()));
    std::sort(tubs.begin(), tubs.end());
    return tubs;
}

std::size_t TubPlaces::most(Scope scope) const {
    const auto found = by_scope_.find(scope);
    return found == by_scope_.end() ? 0 : found->second.size();
}

}  // namespace mitefall::plan
