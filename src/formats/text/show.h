#pragma once

#include <string>

#include "base/band.h"

namespace mitefall::formats {

/// "98.2 % (80 % of the cases between 91 and 99.8 %)".
[[nodiscard]] std::string show_band(const base::Band& band);

}  // namespace mitefall::formats
