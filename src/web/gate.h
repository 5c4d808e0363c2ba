#pragma once

#include <optional>
#include <string>
#include <vector>

#include "web/message.h"
#include "web/pairing.h"

// Who may ask what. Everything a browser page from elsewhere could try ends here.
namespace mitefall::web {

/// Names under which this program is reached, with their port: "127.0.0.1:8640".
struct Names {
    std::vector<std::string> local;
    std::vector<std::string> home;
};

/// The answer for a request that is turned away; nullopt: let it in.
///  - The Host must be one of ours: a name of somebody else that points here (DNS rebinding) is refused.
///  - An Origin, and Sec-Fetch-Site where a browser sends it, must be our own.
///  - Writing needs `Content-Type: application/json`, which no form of another site can send.
///  - From the home network nothing but the page itself and pairing works without a paired device's token.
[[nodiscard]] std::optional<Response> turn_away(const Request& request, const Names& names,
                                                const Pairing& pairing);

/// What a request may send, judged by its head. The household (this machine, and paired devices) may send
/// 4 MiB. Anybody else is heard for the page and for pairing, which need no more than 1 KiB, and tells its
/// length first.
[[nodiscard]] Admission admit(const Request& head, const Names& names, const Pairing& pairing);

/// The token a request carries, empty without one.
[[nodiscard]] std::string token_of(const Request& request);

/// The answer as it may leave: with the headers of every answer, unless it has a policy of its own, and kept
/// by no browser if it tells of the records.
[[nodiscard]] Response guarded(Response response, const std::string& path);

/// Headers of every answer: a strict content security policy (W3C CSP 3) and no guessing of types.
[[nodiscard]] Fields guard_headers();

}  // namespace mitefall::web
