#pragma once

#include <optional>

#include "evidence/tables.h"
#include "records/collection.h"
#include "units/day.h"

// Meals and treatments keep apart: what of a meal bars a treatment is a gate (gate_meal.cpp); when the next
// meal may be is asked here.
namespace mitefall::safety {

/// The first day on which it may be fed after it was wet, or moved, on that day.
[[nodiscard]] units::Day fed_again_after(units::Day wet, const evidence::Tables& tables);

/// The same after all that is on record: what was put on it, what it lay on, another tub. None: nothing is.
[[nodiscard]] std::optional<units::Day> fed_again_from(const records::Collection& collection,
                                                       const records::Animal& animal,
                                                       const evidence::Tables& tables);

/// Whether a meal of that day, be it a small one, would bar a treatment of the other.
[[nodiscard]] bool meal_bars(units::Day meal, units::Day treatment, const evidence::Tables& tables);

}  // namespace mitefall::safety
