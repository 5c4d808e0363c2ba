#pragma once

#include <string>

#include "plan/each_round.h"
#include "units/text.h"

namespace mitefall::formats {

/// The recommended plan beside the alternatives; with `rungs` all other ways, and what each round buys.
[[nodiscard]] std::string plan_text(const plan::PlanChoice& choice, const plan::Setting& setting,
                                    const plan::Goal& goal, units::Display display,
                                    const std::vector<plan::Rung>& rungs = {});

}  // namespace mitefall::formats
