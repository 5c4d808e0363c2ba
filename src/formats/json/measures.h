#pragma once

#include <optional>

#include "formats/json/json.h"
#include "mixing/bench.h"

// How much of what, and with which tool.
namespace mitefall::formats {

[[nodiscard]] Json recipe_json(const mixing::Recipe& recipe);

[[nodiscard]] Json measurement_json(const std::optional<mixing::Measurement>& measurement);

[[nodiscard]] Json measured_strength_json(const std::optional<mixing::MeasuredStrength>& strength);

/// Appends how a batch is measured: the keys are there whether or not it can be.
void put_measured(Json& json, const std::optional<mixing::Measured>& measured);

}  // namespace mitefall::formats
