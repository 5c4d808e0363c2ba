#pragma once

#include "evidence/tables.h"
#include "formats/json/json.h"

namespace mitefall::formats {

[[nodiscard]] Json evidence_json(const evidence::Tables& tables);

}  // namespace mitefall::formats
