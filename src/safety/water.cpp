#include "safety/water.h"

#include <algorithm>

#include "units/whole_days.h"

namespace mitefall::safety {
namespace {

using records::Animal;
using records::Collection;
using records::DrySpell;
using records::Enclosure;
using records::Residence;
using units::Day;
using units::Days;

using units::one_day;

/// Both the day it came and the day it went belong to a stay.
bool covers(const Residence& stay, Day day) {
    return stay.from <= day && (!stay.until || day <= *stay.until);
}

/// One who drinks: an animal, or an enclosure in which nobody lives.
class Drinker {
  public:
    Drinker(const Collection& collection, const Enclosure& here, const Animal* animal,
            const WetLimits& limits)
        : collection_(collection), here_(here), animal_(animal), limits_(limits) {}

    /// On which it had no dish wherever it lived that day.
    [[nodiscard]] bool went_without(Day day) const {
        if (lives_here_always()) return was_out(here_, day);
        bool lived = false;
        for (const Residence& stay : animal_->stays) {
            if (!covers(stay, day)) continue;
            const auto place = collection_.enclosures.find(stay.enclosure);
            if (place == collection_.enclosures.end() || !was_out(place->second, day)) return false;
            lived = true;
        }
        return lived;
    }

    /// Whether anything is on record of a dish that was out where it lived.
    [[nodiscard]] bool ever_went_without() const {
        if (lives_here_always()) return has_been_out(here_);
        return std::any_of(animal_->stays.begin(), animal_->stays.end(), [&](const Residence& stay) {
            const auto place = collection_.enclosures.find(stay.enclosure);
            return place != collection_.enclosures.end() && has_been_out(place->second);
        });
    }

    /// The first of the days on end up to `last`, itself one of them.
    [[nodiscard]] Day since(Day last) const {
        while (last > earliest() && went_without(last - one_day)) last -= one_day;
        return last;
    }

    [[nodiscard]] std::optional<DrySpell> last_spell() const {
        for (Day back = collection_.day; back > earliest(); back -= one_day) {
            if (!went_without(back) && went_without(back - one_day))
                return DrySpell{since(back - one_day), back};
        }
        return std::nullopt;
    }

    [[nodiscard]] std::vector<Day> days() const {
        std::vector<Day> days;
        for (Day day = earliest(); day < collection_.day; day += one_day) {
            if (went_without(day)) days.push_back(day);
        }
        return days;
    }

  private:
    [[nodiscard]] Day earliest() const { return collection_.day - limits_.course; }
    [[nodiscard]] bool lives_here_always() const { return animal_ == nullptr || animal_->stays.empty(); }

    static bool has_been_out(const Enclosure& place) {
        return place.water_is_out || !place.dry_spells.empty();
    }

    /// Out since nobody knows when: for as long as it may be.
    [[nodiscard]] bool was_out(const Enclosure& place, Day day) const {
        const Day out = place.water_out_since.value_or(collection_.day - limits_.dish_out);
        if (place.water_is_out && day >= out) return true;
        return std::any_of(place.dry_spells.begin(), place.dry_spells.end(),
                           [&](const DrySpell& spell) { return spell.out <= day && day < spell.back; });
    }

    const Collection& collection_;
    const Enclosure& here_;
    const Animal* animal_;
    const WetLimits& limits_;
};

/// Those of whom a dish that was out is on record.
std::vector<Drinker> thirsty(const Collection& collection, const Enclosure& enclosure, const Inside& inside,
                             const WetLimits& limits) {
    std::vector<Drinker> all;
    const auto add = [&](const Animal* animal) {
        const Drinker drinker(collection, enclosure, animal, limits);
        if (drinker.ever_went_without()) all.push_back(drinker);
    };
    if (inside.empty()) add(nullptr);
    for (const Animal* animal : inside) add(animal);
    return all;
}

bool is_later(const DrySpell& a, const DrySpell& b) {
    return a.back != b.back ? a.back > b.back : a.out < b.out;
}

}  // namespace

WetLimits wet_limits(const evidence::Tables& tables) {
    const auto at_most = [&](evidence::TimeKey key) { return units::at_most_days(tables.time(key).value); };
    return {at_most("water_out_max"), at_most("damp_days"), at_most("dry_days"), at_most("course_window")};
}

Inside inside_of(const Collection& collection, const Survey& survey, const records::EnclosureId& enclosure) {
    Inside inside;
    const auto found = survey.inside.find(enclosure);
    if (found == survey.inside.end()) return inside;
    for (const records::AnimalId& id : found->second) inside.push_back(&collection.animals.at(id));
    return inside;
}

Dish dish_of(const Collection& collection, const Enclosure& enclosure, const Inside& inside,
             const WetLimits& limits) {
    Dish dish;
    dish.is_out = enclosure.water_is_out;
    dish.is_for_somebody = !inside.empty();
    const Day today = collection.day;
    for (const Drinker& drinker : thirsty(collection, enclosure, inside, limits)) {
        if (dish.is_out) {
            const Day since = drinker.went_without(today) ? drinker.since(today) : today;
            dish.since = std::min(dish.since.value_or(since), since);
        }
        const auto spell = drinker.last_spell();
        if (spell && (!dish.last || is_later(*spell, *dish.last))) dish.last = spell;
    }
    if (dish.is_out && !enclosure.water_out_since) dish.since.reset();
    return dish;
}

std::optional<Day> back_by(const Dish& dish, const WetLimits& limits) {
    if (!dish.is_out || !dish.since) return std::nullopt;
    return *dish.since + limits.dish_out;
}

bool is_due(const Dish& dish, Day today, const WetLimits& limits) {
    return dish.is_out && today >= back_by(dish, limits).value_or(today);
}

bool is_overdue(const Dish& dish, Day today, const WetLimits& limits) {
    const bool is_late = !dish.since || today > *back_by(dish, limits);
    return dish.is_out && dish.is_for_somebody && is_late;
}

bool was_overdue(const Dish& dish, Day back, const WetLimits& limits) {
    return !dish.is_out && dish.is_for_somebody && dish.last && dish.last->back == back &&
           dish.last->back - dish.last->out > limits.dish_out;
}

std::vector<Day> days_without_dish(const Collection& collection, const Enclosure& enclosure,
                                   const Inside& inside, const WetLimits& limits) {
    std::vector<Day> most;
    for (const Drinker& drinker : thirsty(collection, enclosure, inside, limits)) {
        std::vector<Day> days = drinker.days();
        if (days.size() > most.size()) most = std::move(days);
    }
    return most;
}

bool lived_in(const Animal& animal, const records::EnclosureId& enclosure, Day day) {
    if (animal.stays.empty()) return animal.enclosure == enclosure;
    return std::any_of(animal.stays.begin(), animal.stays.end(), [&](const Residence& stay) {
        return stay.enclosure == enclosure && covers(stay, day);
    });
}

}  // namespace mitefall::safety
