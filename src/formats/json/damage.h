#pragma once

#include <vector>

#include "formats/json/json.h"
#include "records/set_aside.h"

namespace mitefall::formats {

/// One row for each entry, the first of many: {entry, message, what, value, limit, remedy, where, kind}.
[[nodiscard]] Json damage_json(const std::vector<records::SetAside>& damage);

}  // namespace mitefall::formats
