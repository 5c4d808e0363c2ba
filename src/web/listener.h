#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "web/hub.h"
#include "web/message.h"

namespace boost::asio {
class io_context;
class thread_pool;
}  // namespace boost::asio

namespace mitefall::web {

/// Limits of what a connection may do (docs/decisions/0017).
struct ListenerLimits {
    std::size_t header_bytes = 16UL << 10U;
    std::size_t body_bytes = 4UL << 20U;
    std::size_t connections = 200;
    std::size_t unsent_event_bytes = 1UL << 20U;
    int seconds_to_ask = 20;   ///< from the first byte of a request to its last, however slowly they drip
    int seconds_to_read = 60;  ///< an answer may take so long to be taken
    int seconds_idle = 60;     ///< between two requests
    int seconds_between_signs = 15;  ///< of life on a connection for events
};

/// Where requests go, and on what they run. All outlive the listener.
struct ListenerParts {
    boost::asio::io_context* sockets = nullptr;
    boost::asio::thread_pool* workers = nullptr;  ///< answers are worked out here
    std::function<Response(const Request&)> handle;
    Hub* hub = nullptr;
};

/// Answers HTTP/1.1 on one address.
class Listener {
  public:
    /// Port 0: any that is free. Error system where the address is taken or is not ours.
    [[nodiscard]] static base::Result<std::unique_ptr<Listener>> open(const std::string& address,
                                                                      std::uint16_t port, Door door,
                                                                      ListenerParts parts,
                                                                      ListenerLimits limits = {});
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;
    /// Lets nobody in any more and hangs up on everybody.
    ~Listener();

    [[nodiscard]] std::uint16_t port() const;
    /// "127.0.0.1:8640"
    [[nodiscard]] std::string name() const;

    class Core;

  private:
    explicit Listener(std::shared_ptr<Core> core) : core_(std::move(core)) {}
    std::shared_ptr<Core> core_;
};

enum class Packing { quick, small };

/// `text` as a gzip file (RFC 1952).
[[nodiscard]] std::string gzipped(const std::string& text, Packing packing = Packing::quick);

}  // namespace mitefall::web
