#pragma once

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <toml++/toml.h>

#include "base/embedded.h"
#include "base/result.h"
#include "evidence/tables.h"

// What the readers of the data files share: parsing, errors that name file, line and key, and unknown keys.
// For the .cpp files of this folder.
namespace mitefall::evidence {

/// The error of a data file that is not as it must be, with its place.
[[nodiscard]] inline base::Error damaged(const std::string& file, const toml::source_region& at,
                                         std::string_view key, std::string what) {
    return {base::ErrorKind::damaged,
            std::move(what),
            {},
            {},
            "correct the file",
            fmt::format("{}:{}: {}", file, at.begin.line, key)};
}

/// The files of a folder that are carried inside the program.
[[nodiscard]] inline std::vector<TableText> embedded_texts(std::string_view folder) {
    std::vector<TableText> files;
    for (const base::EmbeddedFile& file : base::embedded_files()) {
        if (file.name.starts_with(folder)) files.push_back({std::string(file.name), std::string(file.text)});
    }
    return files;
}

/// TOML 1.0, or an error with the line.
[[nodiscard]] inline base::Result<toml::table> parse_toml(const TableText& file) {
    try {
        return toml::parse(file.text, file.name);
    } catch (const toml::parse_error& fault) {
        return base::fail(
            damaged(file.name, fault.source(), "", "not valid TOML: " + std::string(fault.description())));
    }
}

/// One table of a file, and errors about its keys.
class TomlRow {
  public:
    /// Keeps references to both. `prefix` stands before the key in errors.
    TomlRow(const std::string& file, const toml::table& table, std::string prefix = {})
        : file_(file), table_(table), prefix_(std::move(prefix)) {}

    [[nodiscard]] const toml::table& table() const { return table_; }

    /// Where the key stands or, if it is missing, where the table begins.
    [[nodiscard]] base::Error wrong(std::string_view key, std::string what) const {
        const toml::node* const node = table_.get(key);
        return damaged(file_, node != nullptr ? node->source() : table_.source(), prefix_ + std::string(key),
                       std::move(what));
    }

    template <std::size_t Size>
    [[nodiscard]] std::optional<base::Error> refuse_unknown_keys(
        const std::array<const char*, Size>& known) const {
        for (const auto& [name, node] : table_) {
            if (std::find(known.begin(), known.end(), name.str()) == known.end()) {
                return wrong(name.str(), "unknown key");
            }
        }
        return std::nullopt;
    }

  private:
    const std::string& file_;
    const toml::table& table_;
    std::string prefix_;
};

}  // namespace mitefall::evidence
