#include "web/gate.h"

#include <algorithm>

#include "web/answer.h"
#include "web/routes.h"

namespace mitefall::web {
namespace {

using base::ErrorKind;

constexpr std::string_view cookie_name = "mitefall=";

const std::vector<std::string>& names_at(const Names& names, Door door) {
    return door == Door::local ? names.local : names.home;
}

bool is_ours(const std::vector<std::string>& names, std::string host) {
    std::transform(host.begin(), host.end(), host.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return std::find(names.begin(), names.end(), host) != names.end();
}

bool is_json(const Request& request) {
    const std::string type = find(request.headers, "content-type").value_or("");
    const std::string essence = type.substr(0, type.find(';'));
    return essence.substr(0, essence.find_last_not_of(' ') + 1) == "application/json";
}

std::optional<base::Error> foreign(const Request& request, const std::vector<std::string>& ours) {
    const std::string host = find(request.headers, "host").value_or("");
    if (find_all(request.headers, "host").size() != 1 || !is_ours(ours, host)) {
        return base::Error{ErrorKind::refused,
                           "this is not an address of Mitefall",
                           host,
                           {},
                           "use the address shown where the program was started",
                           "Host"};
    }
    const auto origin = find(request.headers, "origin");
    const auto site = find(request.headers, "sec-fetch-site");
    const bool of_others = (origin && *origin != "http://" + host) ||
                           (site && *site != "same-origin" && *site != "none" && request.path != "/");
    if (!of_others) return std::nullopt;
    return base::Error{ErrorKind::refused,
                       "another site asked for this",
                       origin.value_or(site.value_or("")),
                       "only Mitefall's own pages may",
                       "open Mitefall itself and ask there",
                       "Origin"};
}

bool is_for_anyone(const Request& request) {
    if (!request.path.starts_with("/api/")) return true;
    const Route* const route = find_route(request.method, request.path);
    return route != nullptr && route->who == Who::anyone;
}

bool needs_token(const Request& request) { return request.door == Door::home && !is_for_anyone(request); }

}  // namespace

std::string token_of(const Request& request) {
    for (const std::string& cookies : find_all(request.headers, "cookie")) {
        std::size_t begin = 0;
        while (begin < cookies.size()) {
            const std::size_t end = std::min(cookies.find(';', begin), cookies.size());
            const std::size_t first = cookies.find_first_not_of(' ', begin);
            if (first < end && cookies.compare(first, cookie_name.size(), cookie_name) == 0)
                return cookies.substr(first + cookie_name.size(), end - first - cookie_name.size());
            begin = end + 1;
        }
    }
    return {};
}

std::optional<Response> turn_away(const Request& request, const Names& names, const Pairing& pairing) {
    if (request.method != "GET" && request.method != "HEAD" && request.method != "POST" &&
        request.method != "DELETE") {
        const std::string methods = methods_of(request.path);
        auto refused = refusal(405, base::invalid("there is no such way to ask", request.method, methods));
        refused.headers.emplace_back("Allow", methods);
        return refused;
    }
    if (const auto error = foreign(request, names_at(names, request.door))) return refusal(403, *error);
    if (request.method == "POST" && !is_json(request)) {
        return refusal(415, base::invalid("what is sent must be JSON",
                                          find(request.headers, "content-type").value_or(""),
                                          "application/json (RFC 8259)"));
    }
    if (needs_token(request) && !pairing.knows(token_of(request))) {
        return refusal(401, {ErrorKind::refused,
                             "this device is not paired",
                             {},
                             "over the home network only paired devices are let in",
                             "scan the code under Settings on the machine Mitefall runs on",
                             {}});
    }
    return std::nullopt;
}

Admission admit(const Request& head, const Names& names, const Pairing& pairing) {
    constexpr std::size_t household_body = 4UL << 20U;
    constexpr std::size_t stranger_body = 1UL << 10U;
    auto refused = turn_away(head, names, pairing);
    const bool is_household = head.door == Door::local || pairing.knows(token_of(head));
    const bool is_let_in = !refused;
    if (is_household) return {std::move(refused), household_body, true, is_let_in};
    const bool reads = head.method == "GET" || head.method == "HEAD";
    if (!refused && !reads && find_route(head.method, head.path) == nullptr)
        refused = refusal(404, {ErrorKind::not_found,
                                "there is nothing of that name",
                                head.path,
                                {},
                                "begin at the first page",
                                {}});
    return {std::move(refused), stranger_body, false, false};
}

Response guarded(Response response, const std::string& path) {
    const bool has_own_policy = find(response.headers, "Content-Security-Policy").has_value();
    for (auto& header : guard_headers()) {
        if (!has_own_policy || header.first != "Content-Security-Policy")
            response.headers.push_back(std::move(header));
    }
    const bool keeps = find(response.headers, "Cache-Control").has_value();
    if (!keeps && (path.empty() || path.starts_with("/api/")))
        response.headers.emplace_back("Cache-Control", "no-store");
    return response;
}

Fields guard_headers() {
    return {{"Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src "
             "'self'; font-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; "
             "frame-ancestors 'none'"},
            {"X-Content-Type-Options", "nosniff"},
            {"Referrer-Policy", "no-referrer"},
            {"Cross-Origin-Opener-Policy", "same-origin"},
            {"Cross-Origin-Resource-Policy", "same-origin"}};
}

}  // namespace mitefall::web
