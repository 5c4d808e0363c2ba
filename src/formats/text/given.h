#pragma once

#include <string>

#include "records/given.h"

namespace mitefall::formats {

/// On one page, for whoever looks into an illness or a death. `names`: the collection of today.
[[nodiscard]] std::string given_text(const records::Given& given, const records::Collection& names);

}  // namespace mitefall::formats
