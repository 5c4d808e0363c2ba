#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

// How names of kinds are compared.
namespace mitefall::evidence {

/// Letters and digits only, in lower case: what a name is found by.
[[nodiscard]] std::string key_of(std::string_view text);

/// The key of the first word.
[[nodiscard]] std::string first_word(std::string_view text);

/// How unlike a known name is, both as keys; none when too unlike to be worth showing. A slip is nearer than
/// a part.
[[nodiscard]] std::optional<std::size_t> unlikeness(std::string_view asked, std::string_view known);

}  // namespace mitefall::evidence
