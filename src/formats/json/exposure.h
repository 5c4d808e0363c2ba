#pragma once

#include "exposure/tracing.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json exposure_json(const exposure::Tracing& tracing);

}  // namespace mitefall::formats
