#pragma once

#include "formats/json/json.h"
#include "plan/search.h"

namespace mitefall::formats {

[[nodiscard]] Json plan_json(const plan::PlanChoice& choice, const plan::Setting& setting,
                             const plan::Goal& goal);

}  // namespace mitefall::formats
