#pragma once

#include <string>
#include <vector>

#include "formats/json/json.h"
#include "records/set_aside.h"

// What is told with every answer about a collection in which something is damaged (decision 37).
namespace mitefall::formats {

/// For a terminal, before the answer; empty where nothing is set aside.
[[nodiscard]] std::string damage_text(const std::vector<records::SetAside>& damage);

/// One row for each entry, the first of many: {entry, message, what, value, limit, remedy, where, kind}.
[[nodiscard]] Json damage_json(const std::vector<records::SetAside>& damage);

}  // namespace mitefall::formats
