#pragma once

#include "formats/json/json.h"
#include "formats/late_chances.h"
#include "worklist/late.h"

namespace mitefall::formats {

/// Null where nothing is late.
[[nodiscard]] Json late_json(const worklist::Late& late);

[[nodiscard]] Json late_chances_json(const LateChancesView& chances);

}  // namespace mitefall::formats
