#pragma once

#include <span>
#include <string_view>

namespace mitefall::base {

/// A file of data/ or docs/schemas/ carried inside the program.
struct EmbeddedFile {
    std::string_view name;  ///< path from the project's root, e.g. "data/evidence/life_table.toml"
    std::string_view text;
};

/// Every embedded file, in the order of the build.
[[nodiscard]] std::span<const EmbeddedFile> embedded_files();

}  // namespace mitefall::base
