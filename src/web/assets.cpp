#include "web/assets.h"

#include <algorithm>
#include <array>
#include <map>
#include <mutex>

#include "web/packing.h"

namespace mitefall::web {
namespace {

struct Kind {
    std::string_view ending;
    std::string_view type;
};

constexpr std::array<Kind, 7> content_types{{{".html", "text/html; charset=utf-8"},
                                             {".js", "text/javascript; charset=utf-8"},
                                             {".css", "text/css; charset=utf-8"},
                                             {".svg", "image/svg+xml"},
                                             {".json", "application/json"},
                                             {".webmanifest", "application/manifest+json"},
                                             {".woff2", "font/woff2"}}};

std::string_view type_of(std::string_view path) {
    const auto kind = std::find_if(content_types.begin(), content_types.end(),
                                   [&](const Kind& k) { return path.ends_with(k.ending); });
    return kind == content_types.end() ? "application/octet-stream" : kind->type;
}

/// Packed once, however often it is asked for.
std::shared_ptr<const std::string> packed(const Asset& asset) {
    static std::mutex guard;
    static std::map<std::string_view, std::shared_ptr<const std::string>> known;
    const std::scoped_lock lock(guard);
    auto& here = known[asset.path];
    if (!here) here = std::make_shared<const std::string>(gzipped(std::string(asset.bytes), Packing::small));
    return here;
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
    response.packed = packed(*asset);
    const bool is_lasting = wanted.starts_with("/assets/");
    response.headers = {{"Cache-Control", is_lasting ? "public, max-age=31536000, immutable" : "no-cache"}};
    return response;
}

}  // namespace mitefall::web
