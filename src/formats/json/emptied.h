#pragma once

#include "formats/emptied.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json emptied_json(const EmptiedView& view);

}  // namespace mitefall::formats
