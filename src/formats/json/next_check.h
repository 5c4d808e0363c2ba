#pragma once

#include "clearance/answers.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json next_check_json(const clearance::NextCheckAnswer& answer);

}  // namespace mitefall::formats
