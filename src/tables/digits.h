#pragma once

#include <algorithm>
#include <string_view>

// Digits of ASCII, whatever the locale.
namespace mitefall::tables {

[[nodiscard]] inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

[[nodiscard]] inline bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_digit);
}

}  // namespace mitefall::tables
