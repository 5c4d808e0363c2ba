#pragma once

#include "formats/json/json.h"
#include "plan/prevention.h"

namespace mitefall::formats {

[[nodiscard]] Json prevention_json(const plan::Prevention& prevention);

}  // namespace mitefall::formats
