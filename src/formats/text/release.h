#pragma once

#include <string>

#include "clearance/answers.h"

namespace mitefall::formats {

/// When an animal may leave quarantine.
[[nodiscard]] std::string release_text(const clearance::ReleaseAnswer& answer);

}  // namespace mitefall::formats
