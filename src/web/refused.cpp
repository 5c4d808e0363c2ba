#include "web/refused.h"

#include <fmt/format.h>

#include "web/answer.h"
#include "web/wire.h"

namespace mitefall::web {

Response malformed(std::string what) {
    return refusal(400, base::invalid(std::move(what), "", "HTTP/1.1 (RFC 9112)"));
}

Response defect() {
    return refusal(500, {base::ErrorKind::system,
                         "the program could not do this",
                         {},
                         {},
                         "try again; if it stays so, report it with what you asked",
                         {}});
}

Response too_large(std::size_t most) {
    return refusal(413, base::invalid("what was sent is too large", "", fmt::format("{} bytes", most),
                                      "send it in parts"));
}

std::optional<Response> refuse_length(const Request& head, unsigned version) {
    const auto codings = find_all(head.headers, "transfer-encoding");
    if (codings.empty()) return std::nullopt;
    constexpr unsigned first_with_codings = 11;
    const bool is_chunked = codings.size() == 1 && lower(codings.front()) == "chunked";
    const bool is_told_once = !find(head.headers, "content-length");
    if (is_chunked && is_told_once && version >= first_with_codings) return std::nullopt;
    return malformed("the length of this request is told in a way that is not understood");
}

Response needs_length() {
    return refusal(411, base::invalid("the length of what is sent must be told", "", "Content-Length"));
}

Response too_much_at_once() {
    Response response = refusal(
        503,
        {base::ErrorKind::conflict, "too much is being sent at once", {}, {}, "try again in a moment", {}});
    response.headers.emplace_back("Retry-After", "5");
    return response;
}

}  // namespace mitefall::web
