#include "web/known.h"

#include <fmt/format.h>

namespace mitefall::web {
namespace {

/// Weak: the same answer may be packed or not.
std::string entity_tag(const std::string& body) {
    return fmt::format("W/\"{}-{:016x}\"", body.size(), fingerprint(body));
}

}  // namespace

std::uint64_t fingerprint(std::string_view text) {
    std::uint64_t hash = 14695981039346656037U;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
    return hash;
}

Response unless_known(const Request& request, Response response) {
    if (request.method != "GET" || response.status != 200 || response.is_events) return response;
    const std::string tag = entity_tag(response.body);
    response.headers.emplace_back("ETag", tag);
    if (find(request.headers, "if-none-match") != tag) return response;
    return {304, {}, {}, std::move(response.headers)};
}

}  // namespace mitefall::web
