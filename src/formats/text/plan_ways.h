#pragma once

#include <string>

#include "plan/each_round.h"

namespace mitefall::formats {

/// The ways worth choosing between, and what each round buys.
[[nodiscard]] std::string other_ways_text(const plan::PlanChoice& choice,
                                          const std::vector<plan::Rung>& rungs);

/// What was to be done and is permitted nowhere.
[[nodiscard]] std::string refused_text(const plan::Schedule& schedule);

}  // namespace mitefall::formats
