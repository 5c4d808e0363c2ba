#pragma once

#include <string>
#include <vector>

#include "formats/text/layout.h"

namespace mitefall::formats {

/// The rows, the first of which names the columns, as a table no wider than the terminal.
[[nodiscard]] std::string set_table(const std::vector<std::vector<std::string>>& rows, Terminal terminal);

}  // namespace mitefall::formats
