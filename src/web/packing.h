#pragma once

#include <string>

namespace mitefall::web {

enum class Packing { quick, small };

/// `text` as a gzip file (RFC 1952).
[[nodiscard]] std::string gzipped(const std::string& text, Packing packing = Packing::quick);

}  // namespace mitefall::web
