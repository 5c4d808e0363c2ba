#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <string_view>

#include "base/error.h"

// What other programs read. Every output is described by a schema in docs/schemas/, and a key once published
// keeps its meaning. Units stand in the keys; chances are plain numbers from 0 to 1; what is unknown or does
// not apply is null.
namespace mitefall::formats {

using Json = nlohmann::ordered_json;

/// {"mitefall": 1, "command": ..., "result": ...}
[[nodiscard]] Json envelope(std::string_view command, Json result);

/// {"mitefall": 1, "command": ..., "error": ...}
[[nodiscard]] Json error_envelope(std::string_view command, const base::Error& error);

[[nodiscard]] Json error_json(const base::Error& error);

/// Two spaces of indent and a line end. Never throws: bytes that are not UTF-8 become U+FFFD. What a terminal
/// would obey is written as \u.
[[nodiscard]] std::string write_json(const Json& json);

}  // namespace mitefall::formats
