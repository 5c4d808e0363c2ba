#pragma once

#include <string>

#include "formats/origin_rows.h"

namespace mitefall::formats {

/// "with Ada, who came into tub-3 on 12 Mar": one way in, to go on a sentence.
[[nodiscard]] std::string tell(const OriginView& view, const OriginRow& row);

}  // namespace mitefall::formats
