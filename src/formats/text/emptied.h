#pragma once

#include <string>

#include "formats/emptied.h"

namespace mitefall::formats {

/// The day from which it may be lived in again, by every way, and the chance on the days before.
[[nodiscard]] std::string emptied_text(const EmptiedView& view, const std::string& name);

}  // namespace mitefall::formats
