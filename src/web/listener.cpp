#include "web/listener.h"

#include <fmt/format.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <cerrno>
#include <deque>
#include <map>
#include <optional>

#include "web/answer.h"
#include "web/gate.h"
#include "web/refused.h"
#include "web/wire.h"

namespace mitefall::web {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;

std::string authority(const tcp::endpoint& endpoint) {
    const std::string address = endpoint.address().to_string();
    return fmt::format("{}:{}", endpoint.address().is_v6() ? "[" + address + "]" : address, endpoint.port());
}

}  // namespace

/// What connections share; lives as long as the last of them.
class Listener::Core : public std::enable_shared_from_this<Core> {
  public:
    class Connection;

    Core(ListenerParts parts, ListenerLimits limits, Door door)
        : parts_(std::move(parts)),
          limits_(limits),
          door_(door),
          acceptor_(*parts_.sockets),
          rest_(*parts_.sockets),
          crowd_(parts_.crowd ? parts_.crowd : std::make_shared<Crowd>(limits.crowd)) {}

    void open(const tcp::endpoint& endpoint) {
        acceptor_.open(endpoint.protocol());
        acceptor_.set_option(asio::socket_base::reuse_address(true));
        acceptor_.bind(endpoint);
        acceptor_.listen();
        const tcp::endpoint local = acceptor_.local_endpoint();
        port_ = local.port();
        name_ = authority(local);
    }

    void accept();
    void close();

    [[nodiscard]] const ListenerParts& parts() const { return parts_; }
    [[nodiscard]] const ListenerLimits& limits() const { return limits_; }
    [[nodiscard]] Door door() const { return door_; }
    [[nodiscard]] std::uint16_t port() const { return port_; }
    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] Crowd& crowd() { return *crowd_; }

    [[nodiscard]] Admission admit(const Request& head) const {
        try {
            if (parts_.admit) return parts_.admit(head);
        } catch (...) {
            return {defect(), 0, false, false};
        }
        return {std::nullopt, limits_.body_bytes, true, true};
    }

    [[nodiscard]] Response answer(const Request& request) const {
        try {
            return parts_.handle(request);
        } catch (...) {
            return guarded(defect(), request.path);
        }
    }

    void forget(Crowd::Number number) {
        crowd_->leave(number);
        open_.erase(number);
    }

  private:
    void let_in(tcp::socket socket);
    void rest();

    ListenerParts parts_;
    ListenerLimits limits_;
    Door door_;
    tcp::acceptor acceptor_;
    asio::steady_timer rest_;  ///< from letting in
    std::uint16_t port_ = 0;
    std::string name_;
    // Touched on the thread of the sockets only.
    std::shared_ptr<Crowd> crowd_;
    std::map<Crowd::Number, std::shared_ptr<Connection>> open_;
};

/// One connection: a request at a time, or events for as long as it stays open. Everything but the working
/// out of answers happens on the thread of the sockets.
class Listener::Core::Connection : public std::enable_shared_from_this<Connection> {
  public:
    Connection(std::shared_ptr<Core> core, tcp::socket socket, std::string address)
        : core_(std::move(core)),
          stream_(std::move(socket)),
          address_(std::move(address)),
          buffer_(core_->limits().buffer_bytes),
          sign_of_life_(stream_.get_executor()) {}

    void is(Crowd::Number number) { number_ = number; }

    void read() {
        parser_.emplace();
        parser_->header_limit(static_cast<std::uint32_t>(core_->limits().header_bytes));
        parser_->body_limit(core_->limits().body_bytes);
        head_.reset();
        wait(is_known_ ? core_->limits().seconds_idle : core_->limits().seconds_to_begin);
        // The clock of a request starts with its first byte.
        stream_.async_read_some(asio::mutable_buffer(first_.data(), buffer_.size() == 0 ? first_.size() : 0),
                                [self = shared_from_this()](error_code fault, std::size_t size) {
                                    if (fault) return self->end();
                                    self->keep(size);
                                    self->read_head_of_request();
                                });
    }

    void end() {
        gone_.request_stop();
        ticket_.reset();
        sign_of_life_.cancel();
        error_code ignored;
        stream_.socket().shutdown(tcp::socket::shutdown_both, ignored);
        stream_.socket().close(ignored);
        core_->forget(number_);
    }

  private:
    void wait(int seconds) { stream_.expires_after(std::chrono::seconds(seconds)); }

    void keep(std::size_t size) {
        const auto room = buffer_.prepare(size);
        asio::buffer_copy(room, asio::buffer(first_.data(), size));
        buffer_.commit(size);
    }

    void read_head_of_request() {
        wait(core_->limits().seconds_to_head);
        http::async_read_header(
            stream_, buffer_, *parser_,
            [self = shared_from_this()](error_code fault, std::size_t) { self->judge(fault); });
    }

    /// Who may not ask this is told so before anything else is read.
    void judge(error_code fault) {
        if (fault) return fail(fault);
        const auto& message = parser_->get();
        const auto written = message.target();
        auto target = read_target(std::string_view(written.data(), written.size()));
        if (!target) return refuse(malformed("this is not a path"));
        version_ = message.version();
        keep_alive_ = message.keep_alive();
        head_ = read_head(message, std::move(*target), core_->door(), address_);
        if (auto refused = refuse_length(*head_, version_)) return refuse(std::move(*refused));
        const Admission admission = core_->admit(*head_);
        is_known_ = admission.is_known;
        core_->crowd().knows(number_, is_known_);
        const std::size_t length = parser_->content_length().value_or(0);
        const bool has_body = parser_->chunked() || length > 0;
        if (admission.refused) return reply(*admission.refused, keep_alive_ && !has_body);
        if (parser_->chunked() && !admission.takes_chunks) return refuse(needs_length());
        if (length > admission.most_body) return refuse(too_large(admission.most_body));
        const std::size_t expected = parser_->chunked() ? admission.most_body : length;
        if (!core_->crowd().reserve(number_, expected)) return refuse(too_much_at_once());
        parser_->body_limit(admission.most_body);
        read_body_of_request();
    }

    void read_body_of_request() {
        if (parser_->is_done()) return heard({});
        wait(core_->limits().seconds_to_ask);
        extensions_ = 0;
        parser_->on_chunk_header(count_extensions_);
        http::async_read(stream_, buffer_, *parser_,
                         [self = shared_from_this()](error_code fault, std::size_t) { self->heard(fault); });
    }

    void heard(error_code fault) {
        if (fault) return fail(fault);
        const auto& fields = parser_->get();
        const auto count = static_cast<std::size_t>(std::distance(fields.begin(), fields.end()));
        if (count > head_->headers.size()) return refuse(malformed("nothing may follow the body"));
        Request request = std::move(*head_);
        request.body = std::move(parser_->get().body());
        work_out(std::move(request));
    }

    void fail(error_code fault) {
        if (fault == http::error::body_limit) return refuse(too_large(core_->limits().body_bytes));
        if (fault == http::error::header_limit ||
            (fault == http::error::buffer_overflow && !parser_->is_header_done())) {
            return refuse(refusal(431, base::invalid("the head of the request is too large", "",
                                                     fmt::format("{} bytes", core_->limits().header_bytes))));
        }
        const bool gone = fault == http::error::end_of_stream || fault == beast::error::timeout ||
                          fault.category() == asio::error::get_system_category();
        if (gone) return end();
        refuse(malformed("this is not a request"));
    }

    void work_out(Request request) {
        stream_.expires_never();
        gone_ = std::stop_source();
        request.gone = gone_.get_token();
        watch_while_waiting();
        asio::post(*core_->parts().workers, [self = shared_from_this(), request = std::move(request)] {
            if (request.gone.stop_requested())
                return asio::post(self->stream_.get_executor(), [self] { self->end(); });
            self->answer(request);
        });
    }

    /// On a worker.
    void answer(const Request& request) {
        Response response = core_->answer(request);
        if (response.is_events) {
            Request head = request;
            head.body.clear();
            asio::post(stream_.get_executor(), [self = shared_from_this(), head = std::move(head),
                                                response = std::move(response)]() mutable {
                self->begin_events(std::move(head), std::move(response));
            });
            return;
        }
        std::shared_ptr<Message> message;
        try {
            message =
                std::make_shared<Message>(as_message(std::move(response), request, version_, keep_alive_));
        } catch (...) {
            message = std::make_shared<Message>(
                as_message(guarded(defect(), request.path), request, version_, keep_alive_));
        }
        asio::post(stream_.get_executor(), [self = shared_from_this(), message] { self->send(message); });
    }

    /// Whoever hangs up while an answer is worked out no longer wants it. The connection counts until the
    /// worker is done with it.
    void watch_while_waiting() {
        stream_.socket().async_wait(tcp::socket::wait_read,
                                    [self = shared_from_this(), asked = gone_](error_code fault) mutable {
                                        if (!fault && self->has_hung_up()) asked.request_stop();
                                    });
    }

    [[nodiscard]] bool has_hung_up() {
        if (!stream_.socket().is_open()) return true;
        char next = 0;
        const auto size = ::recv(stream_.socket().native_handle(), &next, 1, MSG_PEEK | MSG_DONTWAIT);
        return size == 0 || (size < 0 && errno != EAGAIN && errno != EWOULDBLOCK && errno != EINTR);
    }

    /// Ends the connection: what else was sent is not understood, or not wanted.
    void refuse(Response response) { reply(std::move(response), false); }

    void reply(Response response, bool keep_alive) {
        keep_alive_ = keep_alive;
        has_unread_ = !keep_alive;
        const Request request = head_.value_or(Request{});
        response = guarded(std::move(response), request.path);
        send(std::make_shared<Message>(as_message(std::move(response), request, version_, keep_alive)));
    }

    void send(const std::shared_ptr<Message>& message) {
        if (!stream_.socket().is_open()) return end();
        error_code ignored;
        stream_.socket().cancel(ignored);  // the watch
        core_->crowd().release(number_);
        wait(core_->limits().seconds_to_read);
        http::async_write(stream_, *message,
                          [self = shared_from_this(), message](error_code fault, std::size_t) {
                              if (fault) return self->end();
                              if (message->keep_alive()) return self->read();
                              self->has_unread_ ? self->linger() : self->end();
                          });
    }

    /// Hanging up on a body that is still coming would take the answer from whoever sends it (RFC 9112, 9.6).
    void linger() {
        error_code ignored;
        stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
        wait(core_->limits().seconds_to_linger);
        take_the_rest(0);
    }

    void take_the_rest(std::size_t taken) {
        if (taken > core_->limits().linger_bytes) return end();
        stream_.async_read_some(asio::buffer(first_),
                                [self = shared_from_this(), taken](error_code fault, std::size_t size) {
                                    if (fault) return self->end();
                                    self->take_the_rest(taken + size);
                                });
    }

    void begin_events(Request head, Response response) {
        if (!stream_.socket().is_open()) return end();
        error_code ignored;
        stream_.socket().cancel(ignored);  // the watch
        head_ = std::move(head);
        // Whoever sees the head is told everything from then on: what is told meanwhile is posted, so it
        // comes after the head.
        const std::weak_ptr<Connection> weak = shared_from_this();
        ticket_ = core_->parts().hub->listen([weak](const std::string& event) {
            const auto self = weak.lock();
            if (!self) return;
            asio::post(self->stream_.get_executor(), [self, event] { self->tell(event); });
        });
        std::string first = "HTTP/1.1 200 OK\r\nContent-Type: " + response.type + "\r\nConnection: close\r\n";
        for (const auto& [name, value] : response.headers) first += name + ": " + value + "\r\n";
        push(first + "\r\nretry: 2000\n\n");
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

    /// Whoever was let in may have been shut out since.
    void tell(const std::string& event) {
        if (core_->admit(*head_).refused) return end();
        push(event);
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
    Crowd::Number number_ = 0;
    std::string address_;
    beast::flat_buffer buffer_;
    std::array<char, 4096> first_{};
    std::optional<http::request_parser<http::string_body>> parser_;
    std::optional<Request> head_;
    std::stop_source gone_;
    std::size_t extensions_ = 0;
    std::function<void(std::uint64_t, beast::string_view, error_code&)> count_extensions_ =
        [this](std::uint64_t, beast::string_view written, error_code& fault) {
            extensions_ += written.size();
            if (extensions_ > core_->limits().extension_bytes) fault = http::error::bad_chunk_extension;
        };
    bool is_known_ = false;
    bool has_unread_ = false;
    bool keep_alive_ = false;
    unsigned version_ = 11;
    asio::steady_timer sign_of_life_;
    std::deque<std::string> outbox_;
    std::unique_ptr<Hub::Ticket> ticket_;
};

void Listener::Core::accept() {
    acceptor_.async_accept([self = shared_from_this()](error_code fault, tcp::socket socket) {
        if (!self->acceptor_.is_open()) return;
        // Without a descriptor to spare the next try fails as well, and at once.
        if (fault && fault != asio::error::connection_aborted) return self->rest();
        if (!fault) self->let_in(std::move(socket));
        self->accept();
    });
}

void Listener::Core::rest() {
    rest_.expires_after(std::chrono::milliseconds(limits_.milliseconds_of_rest));
    rest_.async_wait([self = shared_from_this()](error_code) {
        if (self->acceptor_.is_open()) self->accept();
    });
}

void Listener::Core::let_in(tcp::socket socket) {
    error_code fault;
    const auto there = socket.remote_endpoint(fault);
    if (fault) return;
    const std::string address = neighbour_of(there.address().to_string());
    const Crowd::Place place = crowd_->place_for(address);
    if (!place.is_free) return;
    if (place.goes) crowd_->send_off(*place.goes);
    const auto connection = std::make_shared<Connection>(shared_from_this(), std::move(socket), address);
    const auto number = crowd_->enter(address, [weak = std::weak_ptr<Connection>(connection)] {
        if (const auto held = weak.lock()) held->end();
    });
    connection->is(number);
    open_.emplace(number, connection);
    connection->read();
}

void Listener::Core::close() {
    error_code ignored;
    acceptor_.close(ignored);
    rest_.cancel();
    const auto all = open_;
    for (const auto& [number, connection] : all) connection->end();
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

}  // namespace mitefall::web
