#pragma once

#include "formats/json/json.h"
#include "formats/matters.h"

namespace mitefall::formats {

[[nodiscard]] Json matters_json(const MattersView& view);

}  // namespace mitefall::formats
