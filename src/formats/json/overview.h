#pragma once

#include "formats/json/json.h"
#include "worklist/overview.h"

namespace mitefall::formats {

/// The chances, which the records alone do not tell, are null. `next`: what is to be done on its next day.
[[nodiscard]] Json overview_json(const worklist::Overview& overview,
                                 const std::vector<worklist::WorkAhead>& next);

}  // namespace mitefall::formats
