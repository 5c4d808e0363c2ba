#pragma once

#include "formats/json/json.h"
#include "worklist/bottle.h"

namespace mitefall::formats {

[[nodiscard]] Json cupboard_json(const worklist::Cupboard& cupboard);

}  // namespace mitefall::formats
