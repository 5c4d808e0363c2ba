#pragma once

#include "formats/json/json.h"
#include "mites/parameters.h"

namespace mitefall::formats {

/// The laws of development and their figures.
[[nodiscard]] Json development_json(const mites::FixedParameters& fixed);

/// The rates of every stage at a few temperatures, each parameter at its most likely value.
[[nodiscard]] Json rates_at_mode(const mites::Ensemble& ensemble);

}  // namespace mitefall::formats
