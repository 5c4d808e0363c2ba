#pragma once

#include "formats/json/json.h"
#include "formats/origin.h"

namespace mitefall::formats {

/// docs/schemas/origin.schema.json
[[nodiscard]] Json origin_json(const OriginView& view);

}  // namespace mitefall::formats
