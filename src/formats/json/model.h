#pragma once

#include "formats/json/json.h"

namespace mitefall::formats {

/// The mite model in words and formulas, part by part: what src/forecast computes. Names in formulas are
/// parameter keys of the same output.
[[nodiscard]] Json model_json();

}  // namespace mitefall::formats
