#pragma once

#include "formats/json/json.h"
#include "records/given.h"

namespace mitefall::formats {

/// `names`: the collection of today.
[[nodiscard]] Json given_json(const records::Given& given, const records::Collection& names);

}  // namespace mitefall::formats
