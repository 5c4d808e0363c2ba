#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "web/message.h"

// What a listener answers by itself: to what is no request, is too much, or went wrong.
namespace mitefall::web {

[[nodiscard]] Response malformed(std::string what);
/// Whatever was thrown: nothing of it leaves by a socket.
[[nodiscard]] Response defect();
[[nodiscard]] Response too_large(std::size_t most);
[[nodiscard]] Response needs_length();
[[nodiscard]] Response too_much_at_once();

/// How the length of a body is told (RFC 9112, 6.1 and 6.3): by one way only, and by one we understand.
[[nodiscard]] std::optional<Response> refuse_length(const Request& head, unsigned version);

}  // namespace mitefall::web
