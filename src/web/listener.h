#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "web/crowd.h"
#include "web/hub.h"
#include "web/message.h"

namespace boost::asio {
class io_context;
class thread_pool;
}  // namespace boost::asio

namespace mitefall::web {

/// Limits of what a connection may do (docs/decisions/0017 and 0038).
struct ListenerLimits {
    std::size_t header_bytes = 16UL << 10U;
    std::size_t body_bytes = 4UL << 20U;
    std::size_t buffer_bytes = 64UL << 10U;    ///< received and not yet understood
    std::size_t extension_bytes = 4UL << 10U;  ///< of all chunks of a body (RFC 9112, 7.1.1)
    std::size_t linger_bytes = 256UL << 10U;   ///< still taken of a body whose request was refused
    std::size_t unsent_event_bytes = 1UL << 20U;
    CrowdLimits crowd;               ///< where the listener shares no crowd with others
    int seconds_to_begin = 10;       ///< to the first byte, for whoever is not known yet
    int seconds_to_head = 10;        ///< from the first byte of a request to the end of its head
    int seconds_to_ask = 20;         ///< from there to its last byte, however slowly they drip
    int seconds_to_read = 60;        ///< an answer may take so long to be taken
    int seconds_to_linger = 2;       ///< for a refusal to be taken before the connection ends
    int seconds_idle = 60;           ///< between two requests of the household
    int seconds_between_signs = 15;  ///< of life on a connection for events
    int milliseconds_of_rest = 100;  ///< before letting in again after the system had no room
};

/// Where requests go, and on what they run. All outlive the listener.
struct ListenerParts {
    boost::asio::io_context* sockets = nullptr;   ///< run by one thread
    boost::asio::thread_pool* workers = nullptr;  ///< answers are worked out here
    std::function<Response(const Request&)> handle;
    Hub* hub = nullptr;
    /// Judges a request by its head, before its body is read; asked again before an event is sent. Without it
    /// all are let in.
    std::function<Admission(const Request&)> admit = {};
    /// Shared by all listeners of the same `sockets`; null: one of its own.
    std::shared_ptr<Crowd> crowd = nullptr;
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
    /// "127.0.0.1:8640", "[fd00::1]:8640" (RFC 3986, 3.2.2)
    [[nodiscard]] std::string name() const;

    class Core;

  private:
    explicit Listener(std::shared_ptr<Core> core) : core_(std::move(core)) {}
    std::shared_ptr<Core> core_;
};

}  // namespace mitefall::web
