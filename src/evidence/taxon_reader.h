#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "evidence/taxon.h"
#include "evidence/toml_text.h"

namespace mitefall::evidence {

/// Adds the texts of a list to `texts`; a key that is not there is an empty list.
[[nodiscard]] std::optional<base::Error> read_texts(const TomlRow& row, std::string_view name,
                                                    std::vector<std::string>& texts);

/// One [[taxon]] table.
[[nodiscard]] base::Result<Taxon> read_taxon(const std::string& file, const toml::table& table);

}  // namespace mitefall::evidence
