#pragma once

#include <string>

#include "plan/prevention.h"

namespace mitefall::formats {

/// Whether there is anything at all, and what a look and a round are worth.
[[nodiscard]] std::string prevention_text(const plan::Prevention& prevention);

}  // namespace mitefall::formats
