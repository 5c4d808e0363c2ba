#pragma once

#include <optional>
#include <string_view>

#include "base/error.h"
#include "units/amounts.h"

// The refusals every amount of the mixing bench passes. Empty: nothing to refuse.
namespace mitefall::mixing {

[[nodiscard]] std::optional<base::Error> refuse_volume(units::Volume volume, std::string_view name);
[[nodiscard]] std::optional<base::Error> refuse_strength(units::Strength strength, std::string_view name);
[[nodiscard]] std::optional<base::Error> refuse_body_mass(units::Mass mass);

/// Zero is a possible area, a negative or unknown one is not.
[[nodiscard]] std::optional<base::Error> refuse_area(units::Area area, std::string_view name);

}  // namespace mitefall::mixing
