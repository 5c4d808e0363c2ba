#pragma once

#include "formats/helps.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json helps_json(const HelpsView& view);

}  // namespace mitefall::formats
