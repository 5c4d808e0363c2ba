#pragma once

#include "service/situation.h"
#include "worklist/shopping.h"

namespace mitefall::service {

/// What is left to mix and buy for the adopted plan. Error not_found without one.
[[nodiscard]] base::Result<worklist::Shopping> shopping_of(const Situation& situation,
                                                           const worklist::Bench& bench);

}  // namespace mitefall::service
