#include "web/wire.h"

#include "web/packing.h"

namespace mitefall::web {
namespace {

namespace http = boost::beast::http;

constexpr std::size_t worth_packing = 1400;  ///< bytes: less fits into one packet anyway

bool takes_gzip(const Request& request) {
    return find(request.headers, "accept-encoding").value_or("").find("gzip") != std::string::npos;
}

bool packs_well(const Response& response) {
    return response.body.size() >= worth_packing &&
           (response.type.starts_with("text/") || response.type.starts_with("application/json") ||
            response.type == "image/svg+xml");
}

}  // namespace

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return result;
}

Request read_head(const Head& head, Target target, Door door, const std::string& address) {
    Request request;
    request.method = std::string(head.method_string());
    request.path = std::move(target.path);
    request.query = std::move(target.query);
    for (const auto& header : head)
        request.headers.emplace_back(
            lower(std::string_view(header.name_string().data(), header.name_string().size())),
            std::string(header.value()));
    request.door = door;
    request.address = address;
    return request;
}

Message as_message(Response response, const Request& request, unsigned version, bool keep_alive) {
    Message message;
    message.version(version);
    message.result(static_cast<unsigned>(response.status));
    if (!response.type.empty()) message.set(http::field::content_type, response.type);
    for (const auto& [name, value] : response.headers) message.insert(name, value);
    if (packs_well(response)) {
        message.set(http::field::vary, "Accept-Encoding");
        if (takes_gzip(request)) {
            response.body = response.packed ? *response.packed : gzipped(response.body);
            message.set(http::field::content_encoding, "gzip");
        }
    }
    message.keep_alive(keep_alive);
    constexpr int not_modified =
        304;  // has no body, and tells no length but that of what is known (RFC 9110, 15.4.5)
    if (response.status != not_modified) message.content_length(response.body.size());
    if (request.method != "HEAD") message.body() = std::move(response.body);
    return message;
}

}  // namespace mitefall::web
