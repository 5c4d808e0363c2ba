#include "safety/acknowledged.h"

#include <algorithm>

#include "mixing/compare.h"
#include "safety/methods.h"

namespace mitefall::safety {
namespace {

constexpr double rounding = 1 + 1e-9;  // a mix made to a limit may miss it in the last bits

}  // namespace

bool is_beyond_practice(units::Strength strength, const evidence::Tables& tables) {
    return strength > tables.strength("highest_spray_strength").value * rounding;
}

bool is_acknowledged(const records::Animal& animal, units::Strength strength, units::Day day) {
    return std::any_of(animal.acknowledged.begin(), animal.acknowledged.end(),
                       [&](const auto& one) { return one.day <= day && strength <= one.value * rounding; });
}

bool is_acknowledged_for_empty(const records::Collection& collection, units::Strength strength) {
    return collection.acknowledged && strength <= *collection.acknowledged * rounding;
}

bool is_directed(const records::Animal& animal, units::Strength strength, units::Day day) {
    return std::any_of(animal.directions.begin(), animal.directions.end(), [&](const auto& one) {
        return one.day <= day && is_ivermectin_spray(one.value.method) &&
               strength <= one.value.strength * rounding;
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
