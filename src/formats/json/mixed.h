#pragma once

#include <vector>

#include "formats/json/json.h"
#include "safety/verdict.h"
#include "worklist/mix_sheet.h"

namespace mitefall::formats {

/// `cautions`: what whoever mixes it reads first.
[[nodiscard]] Json mixed_json(const worklist::MixSheet& sheet, const std::vector<safety::Caution>& cautions);

}  // namespace mitefall::formats
