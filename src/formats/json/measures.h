#pragma once

#include <optional>

#include "formats/json/json.h"
#include "mixing/bench.h"
#include "mixing/course.h"

// How much of what, and with which tool.
namespace mitefall::formats {

[[nodiscard]] Json recipe_json(const mixing::Recipe& recipe);

[[nodiscard]] Json measurement_json(const std::optional<mixing::Measurement>& measurement);

[[nodiscard]] Json measured_strength_json(const std::optional<mixing::MeasuredStrength>& strength);

/// Appends how a batch is measured: the keys are there whether or not it can be.
void put_measured(Json& json, const std::optional<mixing::Measured>& measured);

[[nodiscard]] Json money_json(const std::optional<mixing::Money>& money);
[[nodiscard]] Json package_json(const mixing::Package& package);
[[nodiscard]] Json purchase_json(const std::optional<mixing::Purchase>& purchase);

}  // namespace mitefall::formats
