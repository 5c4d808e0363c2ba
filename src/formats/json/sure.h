#pragma once

#include <optional>
#include <vector>

#include "clearance/answers.h"
#include "formats/json/json.h"

// How sure we are: what the answers about clearance share.
namespace mitefall::formats {

[[nodiscard]] Json sureness_json(const clearance::Sureness& sure);

/// Null where there is none.
[[nodiscard]] Json day_json(units::Day origin, const std::optional<double>& time);

[[nodiscard]] Json reached_list(const std::vector<clearance::Reached>& levels, units::Day origin);

}  // namespace mitefall::formats
