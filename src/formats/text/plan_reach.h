#pragma once

#include <string>

#include "plan/search.h"

namespace mitefall::formats {

/// Which rooms a plan treats as a whole, who at risk stands outside it, and what an answer would change.
[[nodiscard]] std::string reach_text(const plan::Schedule& schedule, const plan::Setting& setting);

}  // namespace mitefall::formats
