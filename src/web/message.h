#pragma once

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// A request and its answer, free of sockets, so that every rule about them can be tested without any.
namespace mitefall::web {

/// Which door a request came in by: this machine's own, or the one open to the home network.
enum class Door { local, home };

/// Names and values of a query or a form, in order; a name may stand more than once.
using Fields = std::vector<std::pair<std::string, std::string>>;

[[nodiscard]] std::optional<std::string> find(const Fields& fields, std::string_view name);
[[nodiscard]] std::vector<std::string> find_all(const Fields& fields, std::string_view name);

struct Request {
    std::string method;  ///< "GET"
    std::string path;    ///< decoded, without the query
    Fields query;
    Fields headers;  ///< names in lower case
    std::string body;
    Door door = Door::local;
    std::string address = {};   ///< of whoever asks, without the port
    std::stop_token gone = {};  ///< stopped once nobody waits for the answer any more
};

struct Response {
    int status = 200;  ///< RFC 9110
    std::string type = "application/json";
    std::string body;
    Fields headers;
    std::shared_ptr<const std::string> packed = {};  ///< the body as gzip, where it is at hand already
    bool is_events = false;  ///< the connection stays open for events (WHATWG HTML, server-sent events)
};

/// What is known of a request once its head is here and its body is not.
struct Admission {
    std::optional<Response> refused;  ///< the answer, without reading any more
    std::size_t most_body = 0;        ///< bytes
    bool takes_chunks = false;        ///< a body of unknown length is read
    bool is_known = false;            ///< one of the household: keeps its place when others crowd in
};

/// Path and query of a request target (RFC 9112, 3.2.1), percent-decoded; "+" in a query is a space (WHATWG
/// URL, application/x-www-form-urlencoded). nullopt: not a path, or a broken escape, or a NUL byte.
struct Target {
    std::string path;
    Fields query;
};
[[nodiscard]] std::optional<Target> read_target(std::string_view target);

}  // namespace mitefall::web
