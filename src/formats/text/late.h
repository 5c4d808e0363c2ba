#pragma once

#include <string>

#include "formats/late_chances.h"
#include "records/collection.h"
#include "worklist/late.h"

namespace mitefall::formats {

/// The gravest first, with what to type. Empty where nothing is late.
[[nodiscard]] std::string late_text(const worklist::Late& late, const records::Collection& collection);

[[nodiscard]] std::string late_chances_text(const LateChancesView& chances);

}  // namespace mitefall::formats
