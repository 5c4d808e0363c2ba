#pragma once

#include "clearance/answers.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json release_json(const clearance::ReleaseAnswer& answer);

}  // namespace mitefall::formats
