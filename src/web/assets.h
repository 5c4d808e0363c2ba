#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "web/message.h"

namespace mitefall::web {

/// A file of the built front end carried inside the program (cmake/front_end.cmake).
struct Asset {
    std::string_view path;  ///< "/assets/index-1a2b3c.js"
    std::string_view bytes;
};

[[nodiscard]] std::span<const Asset> assets();

/// "/" is index.html. nullopt: no such file. Files whose name carries a hash may be kept for ever by the
/// browser, the page itself may not.
[[nodiscard]] std::optional<Response> find_asset(const Request& request);

}  // namespace mitefall::web
