#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "web/site.h"

// The one table of what can be asked under /api/: dispatch, the gate, the contract (docs/web-api.md) and its
// tests follow from it.
namespace mitefall::web {

// What every route speaks of, by its short name.
using base::fail;
using base::Result;
using formats::Json;
using service::Keeper;

/// Who may ask: this machine and paired devices; this machine alone; whoever comes by a door.
enum class Who { household, this_machine, anyone };

struct Route;

/// What an answer may use.
struct Means {
    const Request& request;
    const Site::Parts& parts;
    Jobs& jobs;
    const Route& route;
    std::string last;  ///< what stands for the last part of the path, where that may be anything
};

/// What a request that writes will do once it is read. Run with no other writer in between.
using Deed = std::function<Result<Json>(Keeper&)>;

using Handler = Response (*)(const Means&);
/// Reads what writes; done once, with its key (web/writing.h).
using DeedReader = Result<Deed> (*)(const Means&, const Json& body, const service::Now&);

struct Route {
    std::string_view method;   ///< "GET"
    std::string_view path;     ///< "/api/jobs/{job}": a last part in braces may be anything
    std::string_view command;  ///< of the envelope
    std::string_view answer;   ///< a schema of docs/schemas, or with a slash in it a type of media
    std::variant<Handler, DeedReader> handle;
    std::string_view body = {};  ///< its schema, where there is one
    Who who = Who::household;
};

[[nodiscard]] const std::vector<Route>& routes();

/// The route of that path, and with that method; null: none.
[[nodiscard]] const Route* find_route(std::string_view method, std::string_view path);
/// What stands in the path for the part in braces; empty without one.
[[nodiscard]] std::string last_part(const Route& route, std::string_view path);
/// Methods the path takes, as an Allow header has them (RFC 9110, 10.2.1); empty for a path that is none.
[[nodiscard]] std::string methods_of(std::string_view path);

// The table by what is done; each where its handlers are.
[[nodiscard]] std::vector<Route> reading_routes();
[[nodiscard]] std::vector<Route> mixing_routes();
[[nodiscard]] std::vector<Route> writing_routes();
[[nodiscard]] std::vector<Route> import_routes();
[[nodiscard]] std::vector<Route> job_routes();
[[nodiscard]] std::vector<Route> sharing_routes();

[[nodiscard]] Response status_answer(const Means& means);

/// The body as one JSON object of the contract's size and depth.
[[nodiscard]] Result<Json> read_body(const Request& request);

}  // namespace mitefall::web
