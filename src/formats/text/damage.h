#pragma once

#include <string>
#include <vector>

#include "records/set_aside.h"

namespace mitefall::formats {

/// For a terminal, before the answer; empty where nothing is set aside.
[[nodiscard]] std::string damage_text(const std::vector<records::SetAside>& damage);

}  // namespace mitefall::formats
