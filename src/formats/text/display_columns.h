#pragma once

#include <string_view>

namespace mitefall::formats {

/// One character of a text: its bytes, its code point and the columns a terminal gives it.
struct Character {
    std::string_view bytes;
    char32_t code = 0;
    int columns = 0;  ///< -1: a control character, or bytes that are no UTF-8
};

/// The character at the beginning of a text that is not empty.
[[nodiscard]] Character first_character(std::string_view text);

}  // namespace mitefall::formats
