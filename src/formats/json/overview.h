#pragma once

#include "formats/json/json.h"
#include "worklist/overview.h"

namespace mitefall::formats {

/// The chances, which the records alone do not tell, are null.
[[nodiscard]] Json overview_json(const worklist::Overview& overview);

}  // namespace mitefall::formats
