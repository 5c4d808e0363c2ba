#pragma once

#include "clearance/answers.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json clearance_json(const clearance::CollectionAnswer& answer);

}  // namespace mitefall::formats
