#pragma once

#include <string>

#include "formats/why_days.h"
#include "records/collection.h"
#include "units/text.h"

namespace mitefall::formats {

[[nodiscard]] std::string why_days_text(const StripView& view, const records::Collection& names,
                                        units::Display display);

}  // namespace mitefall::formats
