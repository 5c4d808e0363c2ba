#pragma once

#include <string>

#include "plan/search.h"
#include "units/text.h"

namespace mitefall::formats {

/// The recommended plan beside the alternatives; `details`: all other ways, and what each round buys.
[[nodiscard]] std::string plan_text(const plan::PlanChoice& choice, const plan::Setting& setting,
                                    const plan::Goal& goal, units::Display display, bool details = true);

}  // namespace mitefall::formats
