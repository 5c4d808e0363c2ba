#pragma once

#include "formats/json/json.h"
#include "worklist/worklist.h"

namespace mitefall::formats {

[[nodiscard]] Json worklist_json(const worklist::Worklist& list);

}  // namespace mitefall::formats
