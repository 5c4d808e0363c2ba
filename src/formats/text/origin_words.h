#pragma once

#include <string>

#include "formats/origin.h"

namespace mitefall::formats {

/// "with Ada, who came into tub-3 on 12 Mar": one way in, to go on a sentence.
[[nodiscard]] std::string tell(const OriginView& view, const belief::Introduction& one);

}  // namespace mitefall::formats
