#pragma once

#include "formats/json/json.h"
#include "formats/why_days.h"

namespace mitefall::formats {

[[nodiscard]] Json why_days_json(const StripView& view);

}  // namespace mitefall::formats
