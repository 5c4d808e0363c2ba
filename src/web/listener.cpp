#include "web/listener.h"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/strand.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <deque>
#include <optional>
#include <set>

#include "base/contract.h"
#include "web/answer.h"

namespace mitefall::web {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;

constexpr std::size_t worth_packing = 1400;  ///< bytes: less fits into one packet anyway

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return result;
}

Request read_request(const http::request<http::string_body>& message, Target target, Door door) {
    Request request;
    request.method = std::string(message.method_string());
    request.path = std::move(target.path);
    request.query = std::move(target.query);
    for (const auto& header : message)
        request.headers.emplace_back(
            lower(std::string_view(header.name_string().data(), header.name_string().size())),
            std::string(header.value()));
    request.body = message.body();
    request.door = door;
    return request;
}

bool takes_gzip(const Request& request) {
    return find(request.headers, "accept-encoding").value_or("").find("gzip") != std::string::npos;
}

bool packs_well(const Response& response) {
    return response.body.size() >= worth_packing &&
           (response.type.starts_with("text/") || response.type.starts_with("application/json") ||
            response.type == "image/svg+xml");
}

using Message = http::response<http::string_body>;

Message as_message(Response response, const Request& request, unsigned version, bool keep_alive) {
    Message message;
    message.version(version);
    message.result(static_cast<unsigned>(response.status));
    message.set(http::field::content_type, response.type);
    for (const auto& [name, value] : response.headers) message.insert(name, value);
    if (packs_well(response)) {
        message.set(http::field::vary, "Accept-Encoding");
        if (takes_gzip(request)) {
            response.body = gzipped(response.body, response.is_lasting ? Packing::small : Packing::quick);
            message.set(http::field::content_encoding, "gzip");
        }
    }
    message.keep_alive(keep_alive);
    message.content_length(response.body.size());
    if (request.method != "HEAD") message.body() = std::move(response.body);
    return message;
}

Response malformed(std::string what) {
    return refusal(400, base::invalid(std::move(what), "", "HTTP/1.1 (RFC 9112)"));
}

}  // namespace

/// What connections share; lives as long as the last of them.
class Listener::Core : public std::enable_shared_from_this<Core> {
  public:
    class Connection;

    Core(ListenerParts parts, ListenerLimits limits, Door door)
        : parts_(std::move(parts)), limits_(limits), door_(door), acceptor_(*parts_.sockets) {}

    void open(const tcp::endpoint& endpoint) {
        acceptor_.open(endpoint.protocol());
        acceptor_.set_option(asio::socket_base::reuse_address(true));
        acceptor_.bind(endpoint);
        acceptor_.listen();
        const tcp::endpoint local = acceptor_.local_endpoint();
        port_ = local.port();
        name_ = fmt::format("{}:{}", local.address().to_string(), port_);
    }

    void accept();
    void close();

    [[nodiscard]] const ListenerParts& parts() const { return parts_; }
    [[nodiscard]] const ListenerLimits& limits() const { return limits_; }
    [[nodiscard]] Door door() const { return door_; }
    [[nodiscard]] std::uint16_t port() const { return port_; }
    [[nodiscard]] const std::string& name() const { return name_; }
    void forget(const std::shared_ptr<Connection>& connection) { open_.erase(connection); }

  private:
    ListenerParts parts_;
    ListenerLimits limits_;
    Door door_;
    tcp::acceptor acceptor_;
    std::uint16_t port_ = 0;
    std::string name_;
    std::set<std::shared_ptr<Connection>> open_;  ///< touched on the thread of the sockets only
};

/// One connection: a request at a time, or events for as long as it stays open. Everything but the working
/// out of answers happens on the thread of the sockets.
class Listener::Core::Connection : public std::enable_shared_from_this<Connection> {
  public:
    Connection(std::shared_ptr<Core> core, tcp::socket socket)
        : core_(std::move(core)), stream_(std::move(socket)), sign_of_life_(stream_.get_executor()) {}

    void read() {
        parser_.emplace();
        parser_->header_limit(static_cast<std::uint32_t>(core_->limits().header_bytes));
        parser_->body_limit(core_->limits().body_bytes);
        wait(core_->limits().seconds_idle);
        // The clock of a request starts with its first byte.
        stream_.async_read_some(asio::mutable_buffer(first_.data(), buffer_.size() == 0 ? first_.size() : 0),
                                [self = shared_from_this()](error_code fault, std::size_t size) {
                                    if (fault) return self->end();
                                    self->keep(size);
                                    self->read_rest();
                                });
    }

    void end() {
        ticket_.reset();
        sign_of_life_.cancel();
        error_code ignored;
        stream_.socket().shutdown(tcp::socket::shutdown_both, ignored);
        stream_.socket().close(ignored);
        core_->forget(shared_from_this());
    }

  private:
    void wait(int seconds) { stream_.expires_after(std::chrono::seconds(seconds)); }

    void keep(std::size_t size) {
        const auto room = buffer_.prepare(size);
        asio::buffer_copy(room, asio::buffer(first_.data(), size));
        buffer_.commit(size);
    }

    void read_rest() {
        wait(core_->limits().seconds_to_ask);
        http::async_read(stream_, buffer_, *parser_,
                         [self = shared_from_this()](error_code fault, std::size_t) { self->heard(fault); });
    }

    void heard(error_code fault) {
        if (fault == http::error::body_limit) {
            return reply(refusal(413, base::invalid("what was sent is too large", "",
                                                    fmt::format("{} bytes", core_->limits().body_bytes),
                                                    "send it in parts")),
                         Request{}, false);
        }
        if (fault == http::error::header_limit)
            return reply(refusal(431, base::invalid("the head of the request is too large", "",
                                                    fmt::format("{} bytes", core_->limits().header_bytes))),
                         Request{}, false);
        const bool gone = fault == http::error::end_of_stream || fault == beast::error::timeout ||
                          fault.category() == asio::error::get_system_category();
        if (fault && gone) return end();
        if (fault) return reply(malformed("this is not a request"), Request{}, false);
        auto message = parser_->release();
        const auto written = message.target();
        auto target = read_target(std::string_view(written.data(), written.size()));
        if (!target) return reply(malformed("this is not a path"), Request{}, false);
        keep_alive_ = message.keep_alive();
        version_ = message.version();
        work_out(read_request(message, std::move(*target), core_->door()));
    }

    void work_out(Request request) {
        stream_.expires_never();
        asio::post(*core_->parts().workers, [self = shared_from_this(), request = std::move(request)] {
            Response response = self->core_->parts().handle(request);
            if (response.is_events) {
                asio::post(self->stream_.get_executor(), [self, response = std::move(response)]() mutable {
                    self->begin_events(std::move(response));
                });
                return;
            }
            auto message = std::make_shared<Message>(
                as_message(std::move(response), request, self->version_, self->keep_alive_));
            asio::post(self->stream_.get_executor(), [self, message] { self->send(message); });
        });
    }

    void reply(Response response, const Request& request, bool keep_alive) {
        keep_alive_ = keep_alive;
        send(std::make_shared<Message>(as_message(std::move(response), request, version_, keep_alive)));
    }

    void send(const std::shared_ptr<Message>& message) {
        if (!stream_.socket().is_open()) return end();
        wait(core_->limits().seconds_to_read);
        http::async_write(stream_, *message,
                          [self = shared_from_this(), message](error_code fault, std::size_t) {
                              if (fault || !message->keep_alive()) return self->end();
                              self->read();
                          });
    }

    void begin_events(Response response) {
        if (!stream_.socket().is_open()) return end();
        // Whoever sees the head is told everything from then on: what is told meanwhile is posted, so it
        // comes after the head.
        const std::weak_ptr<Connection> weak = shared_from_this();
        ticket_ = core_->parts().hub->listen([weak](const std::string& event) {
            const auto self = weak.lock();
            if (!self) return;
            asio::post(self->stream_.get_executor(), [self, event] { self->push(event); });
        });
        std::string head = "HTTP/1.1 200 OK\r\nContent-Type: " + response.type + "\r\nConnection: close\r\n";
        for (const auto& [name, value] : response.headers) head += name + ": " + value + "\r\n";
        push(head + "\r\nretry: 2000\n\n");
        watch_for_end();
        give_signs_of_life();
    }

    /// Whoever listens says nothing more; a read that ends means they are gone.
    void watch_for_end() {
        stream_.expires_never();
        stream_.socket().async_read_some(asio::buffer(first_),
                                         [self = shared_from_this()](error_code fault, std::size_t) {
                                             if (fault) return self->end();
                                             self->watch_for_end();
                                         });
    }

    void give_signs_of_life() {
        sign_of_life_.expires_after(std::chrono::seconds(core_->limits().seconds_between_signs));
        sign_of_life_.async_wait([self = shared_from_this()](error_code fault) {
            if (fault || !self->stream_.socket().is_open()) return;
            self->push(":\n\n");
            self->give_signs_of_life();
        });
    }

    void push(const std::string& text) {
        if (!stream_.socket().is_open()) return;
        std::size_t unsent = text.size();
        for (const std::string& waiting : outbox_) unsent += waiting.size();
        if (unsent > core_->limits().unsent_event_bytes) return end();
        outbox_.push_back(text);
        if (outbox_.size() == 1) send_next();
    }

    void send_next() {
        asio::async_write(stream_.socket(), asio::buffer(outbox_.front()),
                          [self = shared_from_this()](error_code fault, std::size_t) {
                              if (fault) return self->end();
                              self->outbox_.pop_front();
                              if (!self->outbox_.empty()) self->send_next();
                          });
    }

    std::shared_ptr<Core> core_;
    beast::tcp_stream stream_;
    beast::flat_buffer buffer_;
    std::array<char, 4096> first_{};
    std::optional<http::request_parser<http::string_body>> parser_;
    bool keep_alive_ = false;
    unsigned version_ = 11;
    asio::steady_timer sign_of_life_;
    std::deque<std::string> outbox_;
    std::unique_ptr<Hub::Ticket> ticket_;
};

void Listener::Core::accept() {
    acceptor_.async_accept([self = shared_from_this()](error_code fault, tcp::socket socket) {
        if (!self->acceptor_.is_open()) return;
        if (!fault && self->open_.size() < self->limits_.connections) {
            const auto connection = std::make_shared<Connection>(self, std::move(socket));
            self->open_.insert(connection);
            connection->read();
        }
        self->accept();
    });
}

void Listener::Core::close() {
    error_code ignored;
    acceptor_.close(ignored);
    const auto all = open_;
    for (const auto& connection : all) connection->end();
}

base::Result<std::unique_ptr<Listener>> Listener::open(const std::string& address, std::uint16_t port,
                                                       Door door, ListenerParts parts,
                                                       ListenerLimits limits) {
    auto core = std::make_shared<Core>(std::move(parts), limits, door);
    try {
        core->open(tcp::endpoint(asio::ip::make_address(address), port));
    } catch (const boost::system::system_error& fault) {
        return base::fail({base::ErrorKind::system,
                           "nobody can be let in at this address",
                           fmt::format("{}:{}", address, port),
                           fault.code().message(),
                           "choose another port with --port, or stop the program that uses it",
                           {}});
    }
    asio::post(*core->parts().sockets, [core] { core->accept(); });
    return std::unique_ptr<Listener>(new Listener(std::move(core)));
}

Listener::~Listener() {
    asio::post(*core_->parts().sockets, [core = core_] { core->close(); });
}

std::uint16_t Listener::port() const { return core_->port(); }
std::string Listener::name() const { return core_->name(); }

std::string gzipped(const std::string& text, Packing packing) {
    constexpr int gzip_window = 15 + 16;  // zlib.h, deflateInit2
    constexpr int usual_memory = 8;
    z_stream stream{};
    const int level = packing == Packing::small ? Z_BEST_COMPRESSION : Z_BEST_SPEED;
    base::expects(
        deflateInit2(&stream, level, Z_DEFLATED, gzip_window, usual_memory, Z_DEFAULT_STRATEGY) == Z_OK,
        "zlib has memory");
    std::string packed(deflateBound(&stream, static_cast<uLong>(text.size())), '\0');
    std::string input = text;
    stream.next_in = reinterpret_cast<Bytef*>(input.data());
    stream.avail_in = static_cast<uInt>(input.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    const int done = deflate(&stream, Z_FINISH);
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    base::expects(done == Z_STREAM_END, "zlib finished");
    return packed;
}

}  // namespace mitefall::web
