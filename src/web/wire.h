#pragma once

#include <boost/beast/http.hpp>

#include <string>
#include <string_view>

#include "web/message.h"

// A request and a response as they go over the wire (RFC 9112).
namespace mitefall::web {

using Head = boost::beast::http::request_header<>;
using Message = boost::beast::http::response<boost::beast::http::string_body>;

/// Of ASCII.
[[nodiscard]] std::string lower(std::string_view text);

/// Nothing of the body.
[[nodiscard]] Request read_head(const Head& head, Target target, Door door, const std::string& address);

/// Packed where that is worth it and understood; without its body for HEAD.
[[nodiscard]] Message as_message(Response response, const Request& request, unsigned version,
                                 bool keep_alive);

}  // namespace mitefall::web
