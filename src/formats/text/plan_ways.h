#pragma once

#include <string>

#include "plan/search.h"

namespace mitefall::formats {

/// The ways worth choosing between, and what each round buys.
[[nodiscard]] std::string other_ways_text(const plan::PlanChoice& choice);

/// What was to be done and is permitted nowhere.
[[nodiscard]] std::string refused_text(const plan::Schedule& schedule);

}  // namespace mitefall::formats
