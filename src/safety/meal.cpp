#include "safety/meal.h"

#include <algorithm>

#include "safety/methods.h"
#include "safety/wet_book.h"
#include "units/whole_days.h"

namespace mitefall::safety {

using units::Day;

Day fed_again_after(Day wet, const evidence::Tables& tables) {
    return units::surely_after(wet, tables.time("meal_after_treatment").value);
}

std::optional<Day> fed_again_from(const records::Collection& collection, const records::Animal& animal,
                                  const evidence::Tables& tables) {
    std::optional<Day> last;
    for (const auto* const given : {&animal.treatments, &animal.exposures}) {
        for (const auto& one : *given) {
            if (disturbs_meal(one.value.method)) last = std::max(last.value_or(one.day), one.day);
        }
    }
    for (const LainOn& paper : paper_under(collection, animal, wet_limits(tables)))
        last = std::max(last.value_or(paper.from), paper.end - units::one_day);
    return last ? std::optional(fed_again_after(*last, tables)) : std::nullopt;
}

bool meal_bars(Day meal, Day treatment, const evidence::Tables& tables) {
    return meal <= treatment && treatment < units::surely_after(meal, tables.time("meal_rest").value);
}

}  // namespace mitefall::safety
