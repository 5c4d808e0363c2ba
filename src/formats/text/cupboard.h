#pragma once

#include <string>

#include "units/text.h"
#include "worklist/bottle.h"

namespace mitefall::formats {

[[nodiscard]] std::string cupboard_text(const worklist::Cupboard& cupboard, units::Display display);

}  // namespace mitefall::formats
