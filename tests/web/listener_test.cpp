#include "web/listener.h"

#include <gtest/gtest.h>
#include <zlib.h>

#include <atomic>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/read.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <thread>

#include "shared/eventually.h"
#include "web/answer.h"
#include "web/packing.h"

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
        ListenerParts parts{&sockets, &workers, [this](const Request& r) { return answer(r); }, &hub, {}, {}};
        if (judge) parts.admit = [this](const Request& head) { return judge(head); };
        listener = std::move(Listener::open("127.0.0.1", 0, Door::local, parts, limits).value());
    }

    Response answer(const Request& request) {
        Response response;
        response.type = "text/plain";
        if (request.path == "/throws") throw 17;  // NOLINT: not even an exception
        if (request.path == "/waits") {
            ++begun;
            while (!request.gone.stop_requested()) std::this_thread::yield();
            ++given_up;
        }
        if (request.path == "/headers") {
            for (const auto& [name, value] : request.headers) response.body += name + "=" + value + ";";
            return response;
        }
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

    std::function<Admission(const Request&)> judge;  ///< set before `open`
    std::atomic<int> begun = 0;
    std::atomic<int> given_up = 0;
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
    limits.seconds_to_head = 1;
    limits.seconds_to_begin = 2;
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
    limits.crowd.connections = 3;
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

TEST_F(Sockets, drop_a_stranger_that_says_nothing_for_who_comes) {
    judge = [](const Request&) { return Admission{std::nullopt, 100, false, false}; };
    ListenerLimits limits;
    limits.crowd.connections = 3;
    open(limits);
    std::vector<tcp::socket> silent;
    for (int i = 0; i < 30; ++i) silent.push_back(connect());
    EXPECT_NE(ask("GET / HTTP/1.1\r\n" + closing + "\r\n").find("200"), std::string::npos);
}

TEST_F(Sockets, judge_a_request_before_its_body_is_read) {
    judge = [](const Request& head) {
        Admission admission{std::nullopt, 10, false, false};
        if (head.path == "/no") admission.refused = refusal(403, base::invalid("no", "", ""));
        return admission;
    };
    open({});
    const auto status = [&](const std::string& text) { return ask(text).substr(0, 12); };
    // Nothing of these bodies is ever sent.
    EXPECT_EQ(status("POST /no HTTP/1.1\r\nHost: x\r\nContent-Length: 4000000\r\n\r\n"), "HTTP/1.1 403");
    EXPECT_EQ(status("POST /yes HTTP/1.1\r\nHost: x\r\nContent-Length: 11\r\n\r\n"), "HTTP/1.1 413");
    EXPECT_EQ(status("POST /yes HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n"), "HTTP/1.1 411");
    EXPECT_NE(ask("POST /yes HTTP/1.1\r\nContent-Length: 10\r\n" + closing + "\r\n0123456789")
                  .find("POST /yes 0123456789"),
              std::string::npos);
    // A refused one without a body costs no connection.
    const std::string both =
        ask("GET /no HTTP/1.1\r\nHost: x\r\n\r\nGET /yes HTTP/1.1\r\n" + closing + "\r\n");
    EXPECT_NE(both.find("403"), std::string::npos);
    EXPECT_NE(both.find("GET /yes"), std::string::npos);
}

TEST_F(Sockets, let_an_answer_be_read_while_the_refused_body_still_comes) {
    judge = [](const Request&) {
        return Admission{refusal(401, base::invalid("no", "", "")), 10, false, false};
    };
    open({});
    EXPECT_NE(ask("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 200000\r\n\r\n" + std::string(200'000, 'b'))
                  .find("HTTP/1.1 401"),
              std::string::npos);
}

TEST_F(Sockets, understand_one_way_to_tell_a_length) {
    open({});
    const std::string chunks = closing + "\r\n3\r\nabc\r\n0\r\n\r\n";
    EXPECT_NE(ask("POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n" + chunks).find("POST / abc"),
              std::string::npos);
    // Each of these, understood otherwise by somebody in between, would smuggle a second request in.
    for (const char* const head :
         {"POST / HTTP/1.1\r\nTransfer-Encoding: gzip\r\n",
          "POST / HTTP/1.1\r\nTransfer-Encoding: chunked, gzip\r\n",
          "POST / HTTP/1.1\r\nTransfer-Encoding: gzip, chunked\r\n",
          "POST / HTTP/1.1\r\nTransfer-Encoding: xchunked\r\n",
          "POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\nTransfer-Encoding: chunked\r\n",
          "POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\nContent-Length: 3\r\n",
          "POST / HTTP/1.1\r\nContent-Length: 3\r\nTransfer-Encoding: chunked\r\n",
          "POST / HTTP/1.0\r\nTransfer-Encoding: chunked\r\n"}) {
        const std::string said =
            ask(std::string(head) + "Host: x\r\n\r\n3\r\nabc\r\n0\r\n\r\nGET /second HTTP/1.1\r\n" + closing +
                "\r\n");
        EXPECT_EQ(said.substr(8, 4), " 400") << head;
        EXPECT_EQ(said.find("second"), std::string::npos) << head;
    }
}

TEST_F(Sockets, take_no_trailer_for_a_header) {
    open({});
    const std::string said = ask("POST /headers HTTP/1.1\r\nTransfer-Encoding: chunked\r\n" + closing +
                                 "\r\n3\r\nabc\r\n0\r\nCookie: mitefall=stolen\r\nHost: y\r\n\r\n");
    EXPECT_EQ(said.substr(0, 12), "HTTP/1.1 400");
    EXPECT_EQ(said.find("stolen"), std::string::npos);
}

TEST_F(Sockets, keep_no_endless_extension_or_trailer) {
    open({});
    const std::string head = "POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n" + closing + "\r\n";
    const auto status = [&](const std::string& text) { return ask(head + text).substr(0, 12); };
    EXPECT_EQ(status("1;" + std::string(70'000, 'x')), "HTTP/1.1 400") << "one that never ends";
    std::string many;
    for (int i = 0; i < 100; ++i) many += "1;a=" + std::string(100, 'x') + "\r\nb\r\n";
    EXPECT_EQ(status(many + "0\r\n\r\n"), "HTTP/1.1 400") << "many short ones";
    EXPECT_EQ(status("0\r\nX: " + std::string(70'000, 'x')), "HTTP/1.1 400");
    EXPECT_EQ(status(std::string(70'000, '0')), "HTTP/1.1 400") << "a size that never ends";
}

TEST_F(Sockets, take_only_so_much_at_a_time) {
    ListenerLimits limits;
    limits.crowd.bytes = 300'000;
    open(limits);
    tcp::socket half = connect();
    asio::write(half, asio::buffer("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 250000\r\n\r\n" +
                                   std::string(1000, 'b')));
    const std::string large = "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 250000\r\n" + closing + "\r\n" +
                              std::string(250'000, 'b');
    EXPECT_TRUE(eventually([&] { return ask(large).substr(0, 12) == "HTTP/1.1 503"; }));
    EXPECT_EQ(ask("POST / HTTP/1.1\r\nContent-Length: 3\r\n" + closing + "\r\nabc").substr(0, 12),
              "HTTP/1.1 200")
        << "what is small always comes through";
    half.close();
    EXPECT_TRUE(eventually([&] { return ask(large).substr(0, 12) == "HTTP/1.1 200"; }))
        << "whoever hangs up leaves the room to others";
}

TEST_F(Sockets, give_up_what_nobody_waits_for) {
    open({});
    {
        std::vector<tcp::socket> waiting;
        for (int i = 0; i < 8; ++i) {
            waiting.push_back(connect());
            asio::write(waiting.back(), asio::buffer("GET /waits HTTP/1.1\r\n" + closing + "\r\n"));
        }
        EXPECT_TRUE(eventually([&] { return begun == 2; })) << "as many as there are workers";
    }
    EXPECT_TRUE(eventually([&] { return given_up == begun; }));
    EXPECT_NE(ask("GET / HTTP/1.1\r\n" + closing + "\r\n").find("200"), std::string::npos);
}

TEST_F(Sockets, end_at_once_though_an_answer_is_being_worked_out) {
    open({});
    tcp::socket waiting = connect();
    asio::write(waiting, asio::buffer("GET /waits HTTP/1.1\r\n" + closing + "\r\n"));
    EXPECT_TRUE(eventually([&] { return begun == 1; }));
    listener.reset();
    EXPECT_TRUE(eventually([&] { return given_up == 1; }));
}

TEST_F(Sockets, answer_whatever_is_thrown) {
    open({});
    for (int i = 0; i < 3; ++i) {
        const std::string said = ask("GET /throws HTTP/1.1\r\n" + closing + "\r\n");
        EXPECT_EQ(said.substr(0, 12), "HTTP/1.1 500");
        EXPECT_NE(said.find("Content-Security-Policy"), std::string::npos);
    }
    EXPECT_NE(ask("GET / HTTP/1.1\r\n" + closing + "\r\n").find("200"), std::string::npos);
}

TEST_F(Sockets, guard_early_refusals_too) {
    ListenerLimits limits;
    limits.body_bytes = 100;
    open(limits);
    for (const std::string& text :
         {std::string("nonsense\r\n\r\n"), "GET /%zz HTTP/1.1\r\n" + closing + "\r\n",
          "POST / HTTP/1.1\r\nContent-Length: 101\r\n" + closing + "\r\n"}) {
        const std::string said = ask(text);
        EXPECT_NE(said.find("Content-Security-Policy: default-src 'none'"), std::string::npos) << said;
        EXPECT_NE(said.find("X-Content-Type-Options: nosniff"), std::string::npos) << said;
        EXPECT_NE(said.find("Cache-Control: no-store"), std::string::npos) << said;
    }
}

TEST_F(Sockets, tell_nothing_more_to_whoever_was_shut_out_since) {
    std::atomic<bool> shut = false;
    judge = [&shut](const Request&) {
        Admission admission{std::nullopt, 100, false, true};
        if (shut) admission.refused = refusal(401, base::invalid("no", "", ""));
        return admission;
    };
    open({});
    tcp::socket listening = connect();
    asio::write(listening, asio::buffer(std::string("GET /events HTTP/1.1\r\nHost: x\r\n\r\n")));
    EXPECT_NE(until(listening, "retry: 2000\n\n").find("text/event-stream"), std::string::npos);
    shut = true;
    hub.tell("journal", {{"entry", 7}});
    EXPECT_EQ(until(listening, "}\n\n"), "") << "hung up on";
    EXPECT_TRUE(eventually([&] { return hub.listeners() == 0; }));
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

TEST(ListenerAddress, of_ipv6_stands_in_brackets) {
    asio::io_context sockets;
    asio::thread_pool workers{1};
    Hub hub;
    const ListenerParts parts{&sockets, &workers, [](const Request&) { return Response{}; }, &hub, {}, {}};
    const auto listener = Listener::open("::1", 0, Door::home, parts);
    if (!listener) GTEST_SKIP() << "this machine has no IPv6";
    EXPECT_EQ((*listener)->name(), "[::1]:" + std::to_string((*listener)->port()));
}

TEST(ListenerAddress, that_is_taken_or_foreign_is_an_error) {
    asio::io_context sockets;
    asio::thread_pool workers{1};
    Hub hub;
    const ListenerParts parts{&sockets, &workers, [](const Request&) { return Response{}; }, &hub, {}, {}};
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
