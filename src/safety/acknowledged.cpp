#include "safety/acknowledged.h"

#include <algorithm>

#include "mixing/compare.h"
#include "safety/methods.h"
#include "units/within.h"

namespace mitefall::safety {

bool is_beyond_practice(units::Strength strength, const evidence::Tables& tables) {
    return !units::is_within(strength, tables.strength("highest_spray_strength").value);
}

bool is_acknowledged(const records::Animal& animal, units::Strength strength, units::Day day) {
    return std::any_of(animal.acknowledged.begin(), animal.acknowledged.end(), [&](const auto& one) {
        return one.day <= day && units::is_within(strength, one.value);
    });
}

bool is_acknowledged_for_empty(const records::Collection& collection, units::Strength strength) {
    return collection.acknowledged && units::is_within(strength, *collection.acknowledged);
}

bool is_directed(const records::Animal& animal, units::Strength strength, units::Day day) {
    return std::any_of(animal.directions.begin(), animal.directions.end(), [&](const auto& one) {
        return one.day <= day && is_ivermectin_spray(one.value.method) &&
               units::is_within(strength, one.value.strength);
    });
}

bool may_be_made(const records::Collection& collection, units::Strength strength, units::Day day,
                 const evidence::Tables& tables) {
    if (is_beyond_practice(strength, tables)) return false;
    if (mixing::compare_strength(strength, tables).standing != mixing::Standing::above) return true;
    if (is_acknowledged_for_empty(collection, strength)) return true;
    return std::any_of(collection.animals.begin(), collection.animals.end(), [&](const auto& pair) {
        return is_acknowledged(pair.second, strength, day) || is_directed(pair.second, strength, day);
    });
}

}  // namespace mitefall::safety
