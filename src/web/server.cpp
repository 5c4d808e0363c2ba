#include "web/server.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <sys/resource.h>

#include <algorithm>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <condition_variable>
#include <csignal>
#include <mutex>

#include "web/lane.h"
#include "web/listener.h"
#include "web/site.h"

namespace mitefall::web {
namespace {

namespace asio = boost::asio;
using base::fail;
using base::Result;

constexpr auto between_looks = std::chrono::milliseconds(700);  ///< for entries other programs made

/// RFC 1918, section 3.
bool is_private(std::uint32_t address) {
    return (address >> 24U) == 10 || (address >> 20U) == ((172U << 4U) | 1U) ||
           (address >> 16U) == ((192U << 8U) | 168U);
}

std::vector<std::string> private_addresses() {
    std::vector<std::string> addresses;
    ifaddrs* all = nullptr;
    if (::getifaddrs(&all) != 0) return addresses;
    for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
        const bool is_up = (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
        if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET || !is_up) continue;
        const auto* const socket = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
        char text[INET_ADDRSTRLEN] = {};
        if (is_private(ntohl(socket->sin_addr.s_addr)) &&
            ::inet_ntop(AF_INET, &socket->sin_addr, text, sizeof text) != nullptr)
            addresses.emplace_back(text);
    }
    ::freeifaddrs(all);
    return addresses;
}

/// What the doors leave of the descriptors of this process: for the file, its copies and the listeners.
constexpr std::size_t descriptors_of_the_rest = 24;

/// Connections by the door of the home network: half of the descriptors there are, so that the other half is
/// there for this machine, whatever the network does.
std::size_t connections_from_home(std::size_t most) {
    rlimit limit{};
    if (::getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY) return most;
    const auto all = static_cast<std::size_t>(limit.rlim_cur);
    const std::size_t spare = all > descriptors_of_the_rest ? all - descriptors_of_the_rest : 0;
    return std::clamp<std::size_t>(spare / 2, 1, most);
}

CrowdLimits for_this_machine() {
    CrowdLimits limits;
    limits.of_one_address = limits.connections;
    return limits;
}

CrowdLimits for_home() {
    CrowdLimits limits;
    limits.connections = connections_from_home(limits.connections);
    limits.of_one_address = std::min(limits.of_one_address, std::max<std::size_t>(1, limits.connections / 2));
    return limits;
}

/// As a browser writes it: without the port that needs no telling (RFC 9110, 4.2.1).
void add_names(const std::string& host, std::uint16_t port, std::vector<std::string>& names) {
    constexpr std::uint16_t usual_port = 80;
    names.push_back(host + ":" + std::to_string(port));
    if (port == usual_port) names.push_back(host);
}

std::string host_of(const Listener& listener) {
    const std::string name = listener.name();
    return name.substr(0, name.rfind(':'));
}

}  // namespace

struct Server::Parts {
    Parts(service::Keeper keeper, std::string file, const service::Knowledge& knowledge, Desk::Clock clock,
          ServerOptions given)
        : options(std::move(given)),
          desk(std::move(file), std::move(keeper), knowledge, std::move(clock)),
          pairing(system_random),
          site({&desk, &hub, &pairing, [this] { return names(); }, [this] { return sharing(); },
                [this](bool on) { return share(on); }, options.version}),
          at_home(for_this_machine()),
          outside(for_home()),
          news(at_home.sockets),
          signals(at_home.sockets, SIGINT, SIGTERM) {}

    ListenerParts listener_parts(Lane& lane) {
        return {&lane.sockets,
                &lane.workers,
                [this](const Request& request) { return site.handle(request); },
                &hub,
                [this](const Request& head) { return site.admit(head); },
                lane.crowd()};
    }

    Names names() const {
        const std::scoped_lock lock(guard);
        Names all;
        if (local) {
            for (const std::string& host : {host_of(*local), std::string("localhost")})
                add_names(host, local->port(), all.local);
        }
        for (const auto& listener : home) add_names(host_of(*listener), listener->port(), all.home);
        return all;
    }

    Sharing sharing() const {
        const std::scoped_lock lock(guard);
        Sharing view{!home.empty(), {}};
        for (const auto& listener : home) view.addresses.push_back("http://" + listener->name());
        return view;
    }

    Result<void> share(bool on) {
        const std::scoped_lock lock(guard);
        if (!on) {
            home.clear();
            pairing.forget_all();
            return {};
        }
        if (!home.empty()) return {};
        const auto addresses =
            options.share_addresses.empty() ? private_addresses() : options.share_addresses;
        for (const std::string& address : addresses) {
            auto listener = Listener::open(address, local->port(), Door::home, listener_parts(outside));
            if (!listener) {
                home.clear();
                return fail(listener.error());
            }
            home.push_back(std::move(*listener));
        }
        if (!home.empty()) return {};
        return fail({base::ErrorKind::not_found,
                     "this machine is on no home network",
                     {},
                     "an IPv4 address of RFC 1918",
                     "connect it to the network the telephone is in",
                     {}});
    }

    void look_for_news() {
        news.expires_after(between_looks);
        news.async_wait([this](const boost::system::error_code& fault) {
            if (fault) return;
            if (hub.listeners() > 0) asio::post(at_home.workers, [this] { site.look_for_news(); });
            look_for_news();
        });
    }

    void end() {
        {
            const std::scoped_lock lock(guard);
            ended = true;
        }
        has_ended.notify_all();
    }

    ServerOptions options;
    Hub hub;
    Desk desk;
    Pairing pairing;
    Site site;
    Lane at_home;  ///< this machine's own door
    Lane outside;  ///< the door of the home network
    asio::steady_timer news;
    asio::signal_set signals;
    mutable std::mutex guard;  ///< of what follows
    std::unique_ptr<Listener> local;
    std::vector<std::unique_ptr<Listener>> home;
    bool ended = false;
    std::condition_variable has_ended;
};

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

Result<std::unique_ptr<Server>> Server::start(service::Keeper keeper, std::string file,
                                              const service::Knowledge& knowledge, Desk::Clock clock,
                                              const ServerOptions& options) {
    auto parts =
        std::make_unique<Parts>(std::move(keeper), std::move(file), knowledge, std::move(clock), options);
    auto local =
        Listener::open("127.0.0.1", options.port, Door::local, parts->listener_parts(parts->at_home));
    if (!local) return fail(local.error());
    parts->local = std::move(*local);
    if (options.share) {
        if (const auto shared = parts->share(true); !shared) return fail(shared.error());
    }
    parts->signals.async_wait([p = parts.get()](const boost::system::error_code& fault, int) {
        if (!fault) p->end();
    });
    parts->look_for_news();
    parts->at_home.start();
    parts->outside.start();
    return std::unique_ptr<Server>(new Server(std::move(parts)));
}

Server::~Server() {
    {
        const std::scoped_lock lock(parts_->guard);
        parts_->local.reset();
        parts_->home.clear();
    }
    asio::post(parts_->at_home.sockets, [p = parts_.get()] {
        p->news.cancel();
        p->signals.cancel();
    });
    parts_->outside.end();
    parts_->at_home.end();
}

std::string Server::address() const { return "http://" + parts_->names().local.front() + "/"; }

std::vector<std::string> Server::invitations() const {
    std::vector<std::string> links;
    for (const std::string& address : parts_->sharing().addresses)
        links.push_back(address + "/#pair=" + parts_->pairing.code());
    return links;
}

void Server::wait() {
    std::unique_lock lock(parts_->guard);
    parts_->has_ended.wait(lock, [&] { return parts_->ended; });
}

void Server::stop() { parts_->end(); }

}  // namespace mitefall::web
