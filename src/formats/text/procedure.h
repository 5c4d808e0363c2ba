#pragma once

#include <string>

#include "plan/procedure.h"

namespace mitefall::formats {

[[nodiscard]] std::string procedure_text(const plan::Procedure& told);

}  // namespace mitefall::formats
