#pragma once

#include <string>
#include <vector>

#include "safety/verdict.h"

namespace mitefall::formats {

/// Cautions as a list, each with its tag and source.
[[nodiscard]] std::string cautions_text(const std::vector<safety::Caution>& cautions);

/// "[tag: source]"; without a source what the tag means.
[[nodiscard]] std::string source_note(const std::string& source, evidence::Tag tag);

}  // namespace mitefall::formats
