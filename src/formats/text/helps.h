#pragma once

#include <string>

#include "formats/helps.h"

namespace mitefall::formats {

/// What would raise the chance, best first, each with what it brings; what brings nothing is named in a line.
[[nodiscard]] std::string helps_text(const HelpsView& view);

}  // namespace mitefall::formats
