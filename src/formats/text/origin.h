#pragma once

#include <string>

#include "formats/origin.h"

namespace mitefall::formats {

/// The ways in, likeliest first, where mites are, and how far the records can be trusted.
[[nodiscard]] std::string origin_text(const OriginView& view);

/// One or two sentences for the top of a plan.
[[nodiscard]] std::string origin_line(const OriginView& view);

}  // namespace mitefall::formats
