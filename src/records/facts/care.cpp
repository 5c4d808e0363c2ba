#include <fmt/format.h>

#include "records/apply.h"
#include "records/limits.h"

namespace mitefall::records {
namespace {

/// Catches slips of the keyboard.
constexpr int most_prey = 1000;

Applied check_number_of_prey(int number) {
    if (number >= 0 && number <= most_prey) return {};
    return refuse("the number of prey is not possible", std::to_string(number),
                  fmt::format("0 (not known) to {}", most_prey), "check the number");
}

base::Error no_eggs(const EnclosureId& enclosure) {
    return {base::ErrorKind::conflict,
            "no eggs are on record there",
            enclosure.text(),
            "eggs are gone only after they were there",
            "check the name and the day",
            {}};
}

}  // namespace

Applied MealNoted::check(const MealNoted& fact) {
    return first_failure({check_label("prey", fact.prey), check_amounts(fact)});
}

Applied MealNoted::check_amounts(const MealNoted& fact) {
    const bool has_mass = fact.mass != units::Mass{};
    return first_failure({check_number_of_prey(fact.number), has_mass ? check_mass(fact.mass) : Applied{}});
}

Applied MealNoted::apply(const MealNoted& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    (*animal)->meals.push_back(effect.dated(fact));
    return {};
}

Applied EggsNoted::apply(const EggsNoted& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    auto& eggs = (*enclosure)->eggs;
    if (!fact.present && !eggs) return base::fail(no_eggs(fact.enclosure));
    if (!fact.present)
        eggs.reset();
    else if (!eggs)
        eggs = Dated{effect.day, effect.entry};
    return {};
}

}  // namespace mitefall::records
