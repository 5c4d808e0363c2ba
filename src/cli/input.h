#pragma once

#include <string>

#include "base/result.h"

namespace mitefall::cli {

/// Of a file that is read whole: a case of ten thousand places takes less.
constexpr std::size_t most_input_bytes = 4UL << 20U;

/// The file, or standard input for "-". Reads no further than the limit, however long it goes on: error
/// invalid_input then.
[[nodiscard]] base::Result<std::string> read_input(const std::string& path);

}  // namespace mitefall::cli
