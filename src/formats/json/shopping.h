#pragma once

#include "formats/json/json.h"
#include "worklist/shopping.h"

namespace mitefall::formats {

[[nodiscard]] Json shopping_json(const worklist::Shopping& shopping, const worklist::Bench& bench);

}  // namespace mitefall::formats
