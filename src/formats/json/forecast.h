#pragma once

#include "forecast/forecast.h"
#include "formats/json/json.h"

namespace mitefall::formats {

/// `clear_at_mode`: the chance with every parameter at its most likely value; NaN where it was not asked for.
[[nodiscard]] Json forecast_json(const forecast::Forecast& ensemble, double clear_at_mode);

}  // namespace mitefall::formats
