#pragma once

#include <vector>

#include "formats/json/json.h"
#include "safety/verdict.h"
#include "units/amounts.h"

namespace mitefall::formats {

[[nodiscard]] Json verdicts_json(const std::vector<safety::Verdict>& verdicts);

/// What each animal may be given, without the reasons. `strength`: of the spray.
[[nodiscard]] Json rulings_json(const std::vector<safety::Verdict>& verdicts, units::Strength strength);

}  // namespace mitefall::formats
