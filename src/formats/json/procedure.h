#pragma once

#include "formats/json/json.h"
#include "plan/procedure.h"

namespace mitefall::formats {

[[nodiscard]] Json procedure_json(const plan::Procedure& told);

}  // namespace mitefall::formats
