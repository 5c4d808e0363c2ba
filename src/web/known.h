#pragma once

#include <cstdint>
#include <string_view>

#include "web/message.h"

// A page that has an answer already is not sent it again.
namespace mitefall::web {

/// FNV-1a of 64 bits (Fowler, Noll and Vo). It tells mistakes apart, not attacks.
[[nodiscard]] std::uint64_t fingerprint(std::string_view text);

/// The answer to a reading request with its entity tag; 304 without a body where the page tells that it has
/// this very answer (RFC 9110, 13.1.2). Others, and refusals, as they are.
[[nodiscard]] Response unless_known(const Request& request, Response response);

}  // namespace mitefall::web
