#include "web/listener.h"

#include <gtest/gtest.h>
#include <zlib.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/read.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <thread>

#include "shared/eventually.h"

// What comes over a real socket, well-behaved or not.
namespace mitefall::web {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;

class Sockets : public testing::Test {
  protected:
    ~Sockets() override {
        listener.reset();
        guard.reset();
        runner.join();
        workers.join();
    }

    void open(ListenerLimits limits) {
        listener = std::move(
            Listener::open("127.0.0.1", 0, Door::local,
                           {&sockets, &workers, [this](const Request& r) { return answer(r); }, &hub}, limits)
                .value());
    }

    Response answer(const Request& request) {
        Response response;
        response.type = "text/plain";
        if (request.path == "/events") {
            response.type = "text/event-stream";
            response.is_events = true;
        } else if (request.path == "/long") {
            response.body = std::string(100'000, 'a');
        } else {
            response.body = request.method + " " + request.path + " " + request.body;
        }
        return response;
    }

    tcp::socket connect() {
        tcp::socket socket(mine);
        socket.connect({asio::ip::make_address("127.0.0.1"), listener->port()});
        return socket;
    }

    /// Sends, and reads until the other side hangs up.
    std::string ask(const std::string& text) {
        tcp::socket socket = connect();
        boost::system::error_code fault;
        asio::write(socket, asio::buffer(text), fault);
        std::string all;
        asio::read(socket, asio::dynamic_buffer(all), fault);
        return all;
    }

    static std::string until(tcp::socket& socket, const std::string& end) {
        std::string all;
        std::array<char, 1024> part{};
        boost::system::error_code fault;
        while (all.find(end) == std::string::npos && !fault)
            all.append(part.data(), socket.read_some(asio::buffer(part), fault));
        return all;
    }

    asio::io_context sockets;
    asio::executor_work_guard<asio::io_context::executor_type> guard{sockets.get_executor()};
    asio::thread_pool workers{2};
    Hub hub;
    std::unique_ptr<Listener> listener;
    std::thread runner{[this] { sockets.run(); }};
    asio::io_context mine;
};

const std::string closing = "Host: x\r\nConnection: close\r\n";

TEST_F(Sockets, answer_requests_one_after_another_on_one_connection) {
    open({});
    const std::string all =
        ask("GET /one HTTP/1.1\r\nHost: x\r\n\r\nPOST /two HTTP/1.1\r\nContent-Length: 3\r\n" + closing +
            "\r\nabc");
    const auto first = all.find("GET /one ");
    EXPECT_NE(first, std::string::npos) << all;
    EXPECT_NE(all.find("POST /two abc", first), std::string::npos) << all;
}

TEST_F(Sockets, refuse_what_is_too_large_or_malformed) {
    ListenerLimits limits;
    limits.body_bytes = 100;
    limits.header_bytes = 500;
    open(limits);
    const auto status = [&](const std::string& text) { return ask(text).substr(0, 12); };
    EXPECT_EQ(status("POST / HTTP/1.1\r\nContent-Length: 101\r\n" + closing + "\r\n"), "HTTP/1.1 413");
    EXPECT_EQ(status("POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n" + closing + "\r\n65\r\n" +
                     std::string(101, 'b') + "\r\n0\r\n\r\n"),
              "HTTP/1.1 413");
    EXPECT_EQ(status("GET / HTTP/1.1\r\nX: " + std::string(600, 'c') + "\r\n" + closing + "\r\n"),
              "HTTP/1.1 431");
    for (const char* const text :
         {"nonsense\r\n\r\n", "GET relative HTTP/1.1\r\nHost: x\r\n\r\n",
          "GET /%zz HTTP/1.1\r\nHost: x\r\n\r\n", "GET http://other/ HTTP/1.1\r\nHost: x\r\n\r\n",
          "GET / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n"})
        EXPECT_EQ(status(text), "HTTP/1.1 400") << text;
}

TEST_F(Sockets, hang_up_on_whoever_drips) {
    ListenerLimits limits;
    limits.seconds_to_ask = 1;
    limits.seconds_idle = 2;
    open(limits);
    tcp::socket slow = connect();
    boost::system::error_code fault;
    const auto drip = [&] {
        asio::write(slow, asio::buffer(std::string("G")), fault);
        std::this_thread::sleep_for(std::chrono::milliseconds(50));  // that is what makes it drip
        return fault.failed();
    };
    EXPECT_TRUE(eventually(drip)) << "a byte at a time does not keep the door open";
    EXPECT_EQ(ask("").size(), 0U) << "nor does saying nothing";
    EXPECT_NE(ask("GET / HTTP/1.1\r\n" + closing + "\r\n").find("200"), std::string::npos)
        << "others are served";
}

TEST_F(Sockets, let_only_so_many_in) {
    ListenerLimits limits;
    limits.connections = 3;
    open(limits);
    std::vector<tcp::socket> held;
    for (int i = 0; i < 3; ++i) {
        held.push_back(connect());
        asio::write(held.back(), asio::buffer(std::string("GET / HTTP/1.1\r\nHost: x\r\n\r\n")));
        EXPECT_NE(until(held.back(), "GET /").find("200"), std::string::npos);
    }
    EXPECT_EQ(ask("GET / HTTP/1.1\r\n" + closing + "\r\n"), "");
    held.pop_back();
    std::string later;
    EXPECT_TRUE(eventually([&] {
        later = ask("GET / HTTP/1.1\r\n" + closing + "\r\n");
        return !later.empty();
    }));
    EXPECT_NE(later.find("200"), std::string::npos);
}

TEST_F(Sockets, carry_events_to_all_who_listen) {
    open({});
    std::vector<tcp::socket> listeners;
    for (int i = 0; i < 2; ++i) {
        listeners.push_back(connect());
        asio::write(listeners.back(), asio::buffer(std::string("GET /events HTTP/1.1\r\nHost: x\r\n\r\n")));
        EXPECT_NE(until(listeners.back(), "retry: 2000\n\n").find("text/event-stream"), std::string::npos);
    }
    hub.tell("journal", {{"entry", 7}});
    for (tcp::socket& socket : listeners)
        EXPECT_NE(until(socket, "}\n\n").find("event: journal\ndata: {\"entry\":7}\n\n"), std::string::npos);
    listeners.clear();
    EXPECT_TRUE(eventually([&] { return hub.listeners() == 0; })) << "who hung up is no longer told";
}

TEST_F(Sockets, hang_up_on_a_listener_that_does_not_read) {
    ListenerLimits limits;
    limits.unsent_event_bytes = 10'000;
    open(limits);
    tcp::socket deaf = connect();
    asio::write(deaf, asio::buffer(std::string("GET /events HTTP/1.1\r\nHost: x\r\n\r\n")));
    until(deaf, "retry: 2000\n\n");
    EXPECT_TRUE(eventually([&] {
        hub.tell("job", {{"text", std::string(2000, 'x')}});
        return hub.listeners() == 0;
    }));
}

TEST_F(Sockets, pack_long_answers_for_whoever_can_unpack) {
    open({});
    const std::string plain = ask("GET /long HTTP/1.1\r\n" + closing + "\r\n");
    EXPECT_GT(plain.size(), 100'000U);
    const std::string packed = ask("GET /long HTTP/1.1\r\nAccept-Encoding: gzip, br\r\n" + closing + "\r\n");
    EXPECT_LT(packed.size(), 2'000U);
    EXPECT_NE(packed.find("Content-Encoding: gzip"), std::string::npos);
    const std::string head = ask("HEAD /long HTTP/1.1\r\n" + closing + "\r\n");
    EXPECT_EQ(head.substr(head.find("\r\n\r\n")), "\r\n\r\n") << "a head without a body";
}

// zlib's own reader of gzip files.
TEST(Gzip, is_read_back_by_zlib) {
    const std::string text(5000, 'q');
    std::string packed = gzipped(text);
    z_stream stream{};
    ASSERT_EQ(inflateInit2(&stream, 15 + 16), Z_OK);
    std::string plain(text.size() + 1, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_in = static_cast<uInt>(packed.size());
    stream.next_out = reinterpret_cast<Bytef*>(plain.data());
    stream.avail_out = static_cast<uInt>(plain.size());
    EXPECT_EQ(inflate(&stream, Z_FINISH), Z_STREAM_END);
    plain.resize(stream.total_out);
    inflateEnd(&stream);
    EXPECT_EQ(plain, text);
}

TEST(ListenerAddress, that_is_taken_or_foreign_is_an_error) {
    asio::io_context sockets;
    asio::thread_pool workers{1};
    Hub hub;
    const ListenerParts parts{&sockets, &workers, [](const Request&) { return Response{}; }, &hub};
    const auto first = Listener::open("127.0.0.1", 0, Door::local, parts);
    ASSERT_TRUE(first);
    const auto taken = Listener::open("127.0.0.1", (*first)->port(), Door::local, parts);
    ASSERT_FALSE(taken);
    EXPECT_EQ(taken.error().kind, base::ErrorKind::system);
    EXPECT_FALSE(Listener::open("192.0.2.1", 0, Door::home, parts)) << "TEST-NET-1 (RFC 5737) is nobody's";
    EXPECT_FALSE(Listener::open("somewhere", 0, Door::home, parts));
}

}  // namespace
}  // namespace mitefall::web
