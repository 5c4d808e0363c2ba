#pragma once

#include <string>

#include "units/amounts.h"

namespace mitefall::formats {

/// In mL, to two figures; `exact`: to twelve.
[[nodiscard]] std::string show_share(units::Volume volume, bool exact);

}  // namespace mitefall::formats
