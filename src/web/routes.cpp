#include "web/routes.h"

#include <algorithm>

namespace mitefall::web {
namespace {

/// Up to the part in braces; the whole path where there is none.
std::string_view fixed_part(const Route& route) { return route.path.substr(0, route.path.find('{')); }

bool is_of(const Route& route, std::string_view path) {
    const std::string_view fixed = fixed_part(route);
    return fixed.size() < route.path.size() ? path.starts_with(fixed) : path == fixed;
}

}  // namespace

const std::vector<Route>& routes() {
    static const std::vector<Route> all = [] {
        std::vector<Route> list;
        for (const auto part :
             {reading_routes, mixing_routes, writing_routes, import_routes, job_routes, sharing_routes}) {
            const std::vector<Route> more = part();
            list.insert(list.end(), more.begin(), more.end());
        }
        return list;
    }();
    return all;
}

const Route* find_route(std::string_view method, std::string_view path) {
    const auto found = std::find_if(routes().begin(), routes().end(), [&](const Route& route) {
        return route.method == method && is_of(route, path);
    });
    return found == routes().end() ? nullptr : &*found;
}

std::string last_part(const Route& route, std::string_view path) {
    const std::size_t fixed = fixed_part(route).size();
    return fixed < route.path.size() ? std::string(path.substr(fixed)) : std::string();
}

std::string methods_of(std::string_view path) {
    if (!path.starts_with("/api/")) return "GET, HEAD";
    std::string methods;
    for (const Route& route : routes()) {
        if (is_of(route, path)) methods += (methods.empty() ? "" : ", ") + std::string(route.method);
    }
    return methods;
}

}  // namespace mitefall::web
