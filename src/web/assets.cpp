#include "web/assets.h"

#include <algorithm>
#include <array>

namespace mitefall::web {
namespace {

struct Kind {
    std::string_view ending;
    std::string_view type;
};

constexpr std::array<Kind, 7> kinds{{{".html", "text/html; charset=utf-8"},
                                     {".js", "text/javascript; charset=utf-8"},
                                     {".css", "text/css; charset=utf-8"},
                                     {".svg", "image/svg+xml"},
                                     {".json", "application/json"},
                                     {".webmanifest", "application/manifest+json"},
                                     {".woff2", "font/woff2"}}};

std::string_view type_of(std::string_view path) {
    const auto kind =
        std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return path.ends_with(k.ending); });
    return kind == kinds.end() ? "application/octet-stream" : kind->type;
}

}  // namespace

std::optional<Response> find_asset(const Request& request) {
    const std::string_view wanted = request.path == "/" ? "/index.html" : std::string_view(request.path);
    const auto all = assets();
    const auto asset = std::find_if(all.begin(), all.end(), [&](const Asset& a) { return a.path == wanted; });
    if (asset == all.end()) return std::nullopt;
    Response response;
    response.type = type_of(wanted);
    response.body = asset->bytes;
    response.is_lasting = wanted.starts_with("/assets/");
    response.headers = {
        {"Cache-Control", response.is_lasting ? "public, max-age=31536000, immutable" : "no-cache"}};
    return response;
}

}  // namespace mitefall::web
