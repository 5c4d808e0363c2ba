#pragma once

#include <string>

#include "clearance/answers.h"

namespace mitefall::formats {

/// The checks that would tell most, and how many places a spot check takes.
[[nodiscard]] std::string next_check_text(const clearance::NextCheckAnswer& answer);

}  // namespace mitefall::formats
