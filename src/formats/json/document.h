#pragma once

#include <string_view>

#include "base/result.h"
#include "formats/json/json.h"

namespace mitefall::formats {

struct DocumentLimits {
    std::size_t most_bytes = 4UL << 20U;
    std::size_t deepest = 8;              ///< objects and arrays within one another
    std::size_t most_keys = 1000;         ///< in one object
    std::size_t most_elements = 200'000;  ///< values of every kind in all
};

/// Reads JSON (RFC 8259) from text nobody vouches for: size, depth, keys and values are bounded, a key may
/// not stand twice in one object, every number is finite. The error says where, as line and column or as a
/// JSON pointer (RFC 6901).
[[nodiscard]] base::Result<Json> read_document(std::string_view text, const DocumentLimits& limits);

/// `pointer` extended by a key, with "~" and "/" escaped.
[[nodiscard]] std::string pointer_to(std::string_view pointer, std::string_view key);

}  // namespace mitefall::formats
