#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "web/desk.h"

namespace mitefall::web {

struct ServerOptions {
    std::uint16_t port = 8640;  ///< 0: any that is free
    bool share = false;
    std::vector<std::string>
        share_addresses;  ///< empty: those of this machine on private networks (RFC 1918)
    std::string version;
};

/// The program as its browser pages see it. Listens on this machine only; on the home network too once
/// sharing is on.
class Server {
  public:
    [[nodiscard]] static base::Result<std::unique_ptr<Server>> start(service::Keeper keeper, std::string file,
                                                                     const service::Knowledge& knowledge,
                                                                     Desk::Clock clock,
                                                                     const ServerOptions& options);
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server();

    /// "http://127.0.0.1:8640/"
    [[nodiscard]] std::string address() const;
    /// Those of the home network, with a code to pair with; empty unless sharing is on.
    [[nodiscard]] std::vector<std::string> invitations() const;

    /// Returns once an interrupt or a request to end came (SIGINT, SIGTERM), or `stop` was called.
    void wait();
    void stop();

  private:
    struct Parts;
    explicit Server(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

}  // namespace mitefall::web
