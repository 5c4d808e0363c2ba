#pragma once

#include <string>

#include "formats/matters.h"

namespace mitefall::formats {

/// The few that explain most, what to do about each, and the others in one line.
[[nodiscard]] std::string matters_text(const MattersView& view);

}  // namespace mitefall::formats
