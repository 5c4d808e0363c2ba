#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/read.hpp>
#include <boost/asio/write.hpp>
#include <thread>

#include "formats/schemas.h"
#include "shared/eventually.h"
#include "shared/two_tubs.h"
#include "store/scratch.h"
#include "web/server.h"

// Two telephones and one server, over real sockets: both say "done" at once, and answers get lost.
namespace mitefall::web {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
using formats::Json;

const service::Knowledge& knowledge() {
    static const service::Knowledge loaded = service::Knowledge::load().value();
    return loaded;
}

const std::string pim = "2026-03-01/animal/pim";

/// One browser: a connection for each request.
class Phone {
  public:
    explicit Phone(std::uint16_t port) : port_(port) {}

    tcp::socket send(const std::string& method, const std::string& path, const std::string& body) {
        tcp::socket socket(context_);
        socket.connect({asio::ip::make_address("127.0.0.1"), port_});
        asio::write(
            socket,
            asio::buffer(method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) +
                         "\r\nContent-Type: application/json\r\nContent-Length: " +
                         std::to_string(body.size()) + "\r\nConnection: close\r\n\r\n" + body));
        return socket;
    }

    static Json read(tcp::socket socket) {
        std::string all;
        boost::system::error_code end;
        asio::read(socket, asio::dynamic_buffer(all), end);
        const auto body = all.find("\r\n\r\n");
        return body == std::string::npos ? Json() : Json::parse(all.substr(body + 4), nullptr, false);
    }

    Json post(const std::string& path, const Json& body) { return read(send("POST", path, body.dump())); }
    Json get(const std::string& path) { return read(send("GET", path, ""))["result"]; }

  private:
    asio::io_context context_;
    std::uint16_t port_;
};

class Together : public store::Scratch {
  protected:
    Together() { start(service::make_two_tubs(file(), knowledge())); }

    std::string file() { return at("c").string(); }

    void start(service::Keeper keeper) {
        ServerOptions options;
        options.port = 0;
        server = std::move(
            Server::start(
                std::move(keeper), file(), knowledge(), [] { return service::at_second(30); }, options)
                .value());
    }
    void restart() {
        server.reset();
        start(service::Keeper::open(file(), knowledge()).value());
    }

    Phone phone() {
        const std::string address = server->address();
        return Phone(static_cast<std::uint16_t>(std::stoi(address.substr(address.rfind(':') + 1))));
    }

    static std::string fresh_key() {
        static std::atomic<int> keys = 0;
        return "request-number-" + std::to_string(++keys);
    }

    /// "Done", said of the list the telephone has.
    static Json done(const Json& list, const std::string& request = fresh_key()) {
        return {{"key", pim}, {"day", list["day"]}, {"seen", list["entry"]}, {"request", request}};
    }
    static Json take_back(const Json& ticked) {
        return {{"key", pim}, {"entry", ticked["entries"].back()}, {"request", fresh_key()}};
    }
    static Json weight(double grams, const std::string& request) {
        const Json fact{{"kind", "weighed"}, {"body", {{"animal", "pim"}, {"mass_g", grams}}}};
        return {{"facts", {fact}}, {"request", request}};
    }

    records::FactId last() { return phone().get("/api/status")["entry"]; }
    std::string state() {
        const Json list = phone().get("/api/worklist");
        for (const Json& task : list["tasks"]) {
            if (task["key"] == pim) return task["state"];
        }
        return "not on the list";
    }

    std::unique_ptr<Server> server;
};

/// Both answers, the first of them to whichever of the two was sent first.
std::pair<Json, Json> at_once(Phone& one, Phone& two, const std::string& path, const Json& mine,
                              const Json& theirs) {
    Json answer;
    std::thread other([&] { answer = two.post(path, theirs); });
    Json first = one.post(path, mine);
    other.join();
    return {std::move(first), std::move(answer)};
}

TEST_F(Together, a_plain_copy_of_the_file_has_what_was_just_written) {
    for (int round = 0; round < 3; ++round) {
        ASSERT_EQ(phone().post("/api/record", weight(800 + round, fresh_key()))["result"]["ids"].size(), 1U);
        const auto copy = at("copy-" + std::to_string(round));
        std::filesystem::copy_file(file(), copy);
        const auto copied = service::Keeper::open(copy.string(), knowledge()).value().journal().value();
        EXPECT_EQ(copied, service::Keeper::open(file(), knowledge()).value().journal().value());
        EXPECT_EQ(copied.back().id, last());
    }
}

TEST_F(Together, two_say_done_at_once_and_it_is_done_once) {
    Phone one = phone();
    Phone two = phone();
    for (int round = 0; round < 200; ++round) {
        SCOPED_TRACE(round);
        const Json list = one.get("/api/worklist");
        auto [a, b] = round % 2 == 0 ? at_once(one, two, "/api/tick", done(list), done(list))
                                     : at_once(two, one, "/api/tick", done(list), done(list));
        ASSERT_EQ(formats::faults_of(a.dump(), "web-ticked"), "");
        ASSERT_EQ(formats::faults_of(b.dump(), "web-ticked"), "");
        EXPECT_NE(a["result"]["already"], b["result"]["already"]) << "one of them wrote it";
        EXPECT_EQ(a["result"]["state"], "done");
        EXPECT_EQ(b["result"]["state"], "done");
        EXPECT_EQ(a["result"]["entries"], b["result"]["entries"]);
        EXPECT_EQ(state(), "done") << "it never ends undone";
        EXPECT_EQ(one.post("/api/take-back", take_back(a["result"]))["result"]["state"], "open");
    }
}

// One takes their tick back while the other, who still sees it open, says done: either order has one meaning
// each.
TEST_F(Together, taking_back_and_done_at_once_mean_what_each_saw) {
    Phone one = phone();
    Phone two = phone();
    int already = 0;
    for (int round = 0; round < 200; ++round) {
        SCOPED_TRACE(round);
        const Json list = two.get("/api/worklist");
        const Json mine = one.post("/api/tick", done(list))["result"];
        Json said;
        std::thread other([&] { said = two.post("/api/tick", done(list))["result"]; });
        const Json back = one.post("/api/take-back", take_back(mine))["result"];
        other.join();
        EXPECT_FALSE(back["already"]);
        EXPECT_EQ(said["state"], "done");
        if (said["already"]) {
            ++already;
            EXPECT_EQ(said["entries"], mine["entries"]);
            EXPECT_EQ(state(), "open") << "only what was taken back is gone";
        } else {
            EXPECT_EQ(state(), "done") << "the later tick is no part of what was taken back";
            EXPECT_EQ(one.post("/api/take-back", take_back(said))["result"]["state"], "open");
        }
    }
    RecordProperty("answered_already", already);
}

TEST_F(Together, one_done_and_one_skipped_at_once_is_one_of_them_and_the_other_is_told) {
    Phone one = phone();
    Phone two = phone();
    for (int round = 0; round < 200; ++round) {
        SCOPED_TRACE(round);
        const Json list = one.get("/api/worklist");
        Json skip = done(list);
        skip["reason"] = "in shed";
        Json skipped;
        std::thread other([&] { skipped = two.post("/api/skip", skip); });
        const Json ticked = one.post("/api/tick", done(list));
        other.join();
        ASSERT_NE(ticked.contains("result"), skipped.contains("result"));
        const Json& kept = ticked.contains("result") ? ticked : skipped;
        const Json& refused = ticked.contains("result") ? skipped : ticked;
        EXPECT_EQ(refused["error"]["kind"], "conflict");
        EXPECT_EQ(state(), kept["result"]["state"]);
        EXPECT_EQ(one.post("/api/take-back", take_back(kept["result"]))["result"]["state"], "open");
    }
}

TEST_F(Together, the_same_request_twice_at_once_is_written_once) {
    Phone one = phone();
    Phone two = phone();
    for (int round = 0; round < 200; ++round) {
        SCOPED_TRACE(round);
        const auto before = last();
        const Json body = weight(900 + round, fresh_key());
        auto [a, b] = round % 2 == 0 ? at_once(one, two, "/api/record", body, body)
                                     : at_once(two, one, "/api/record", body, body);
        EXPECT_EQ(a["result"]["ids"], Json::array({before + 1}));
        EXPECT_EQ(a, b);
        EXPECT_EQ(last(), before + 1);
    }
}

TEST_F(Together, a_request_whose_answer_was_lost_is_answered_when_it_comes_again) {
    const auto before = last();
    const Json body = weight(910, "request-whose-answer-is-lost");
    Phone lost = phone();
    tcp::socket socket = lost.send("POST", "/api/record", body.dump());
    EXPECT_TRUE(eventually([&] { return last() > before; })) << "it came, whether or not the answer is read";
    socket.close();
    const Json again = phone().post("/api/record", body);
    EXPECT_EQ(again["result"]["ids"], Json::array({before + 1}));
    EXPECT_EQ(phone().post("/api/record", body), again);
    EXPECT_EQ(last(), before + 1);
    restart();
    EXPECT_EQ(phone().post("/api/record", body), again) << "after a restart";
    EXPECT_EQ(last(), before + 1);
}

TEST_F(Together, a_request_that_was_undone_is_not_done_again) {
    const Json body = weight(910, "request-that-is-undone");
    const Json first = phone().post("/api/record", body);
    ASSERT_TRUE(first.contains("result")) << first.dump();
    ASSERT_TRUE(phone().post("/api/undo", {{"seen", last()}, {"request", fresh_key()}}).contains("result"));
    const auto after = last();
    EXPECT_EQ(phone().post("/api/record", body), first);
    EXPECT_EQ(last(), after);
    const Json tick = done(phone().get("/api/worklist"), "request-to-tick-once");
    const Json ticked = phone().post("/api/tick", tick);
    ASSERT_FALSE(ticked["result"]["already"]);
    phone().post("/api/take-back", take_back(ticked["result"]));
    EXPECT_EQ(phone().post("/api/tick", tick), ticked) << "as it was answered then";
    EXPECT_EQ(state(), "open") << "what was taken back stays so";
}

TEST_F(Together, a_record_is_taken_back_by_its_request_whether_or_not_it_came) {
    const auto withdraw = [&](const char* of) {
        return phone().post("/api/withdraw", {{"of", of}, {"reason", "mistake"}, {"request", fresh_key()}});
    };
    const Json ids = phone().post("/api/record", weight(910, "request-that-came"))["result"]["ids"];
    EXPECT_EQ(withdraw("request-that-came")["result"]["ids"], ids);
    EXPECT_TRUE(withdraw("request-that-came")["result"]["ids"].empty()) << "once";
    EXPECT_TRUE(withdraw("request-on-its-way")["result"]["ids"].empty());
    const auto before = last();
    EXPECT_EQ(phone().post("/api/record", weight(910, "request-on-its-way"))["error"]["kind"], "conflict");
    EXPECT_EQ(last(), before);
}

// A queued tick that comes after everybody else has ticked, taken back and ticked.
TEST_F(Together, a_tick_that_waited_long_is_answered_by_what_is_on_record) {
    const Json list = phone().get("/api/worklist");
    const Json first = phone().post("/api/tick", done(list))["result"];
    phone().post("/api/take-back", take_back(first));
    const Json second = phone().post("/api/tick", done(phone().get("/api/worklist")))["result"];
    const auto before = last();
    const Json late = phone().post("/api/tick", done(list))["result"];
    EXPECT_TRUE(late["already"]);
    EXPECT_EQ(late["entries"], second["entries"]);
    EXPECT_EQ(last(), before);
}

TEST_F(Together, a_key_used_for_something_else_is_refused_in_words) {
    const Json body = weight(910, "request-with-one-meaning");
    phone().post("/api/record", body);
    const auto before = last();
    const Json other = phone().post("/api/record", weight(911, "request-with-one-meaning"))["error"];
    EXPECT_EQ(other["kind"], "conflict");
    EXPECT_EQ(other["where"], "request");
    EXPECT_NE(other["remedy"], "");
    Json tick = done(phone().get("/api/worklist"), "request-with-one-meaning");
    EXPECT_EQ(phone().post("/api/tick", tick)["error"]["kind"], "conflict");
    EXPECT_EQ(last(), before);
}

TEST_F(Together, what_writes_needs_a_key_and_what_was_seen) {
    const auto before = last();
    const Json list = phone().get("/api/worklist");
    for (const char* const key : {"", "short", "has a space in it",
                                  "longer-than-sixty-four-letters-longer-than-"
                                  "sixty-four-letters-and-so-on"}) {
        Json body = weight(910, key);
        EXPECT_EQ(phone().post("/api/record", body)["error"]["where"], "request") << key;
    }
    for (const char* const path :
         {"record", "correct", "withdraw", "undo", "tick", "skip", "take-back", "adopt", "batch", "discard"})
        EXPECT_EQ(phone().post(std::string("/api/") + path, Json::object())["error"]["where"], "request")
            << path;
    Json blind = done(list);
    blind.erase("seen");
    EXPECT_EQ(phone().post("/api/tick", blind)["error"]["where"], "seen");
    EXPECT_EQ(phone().post("/api/skip", blind)["error"]["kind"], "invalid-input");
    EXPECT_EQ(phone().post("/api/take-back", {{"key", pim}, {"request", fresh_key()}})["error"]["where"],
              "entry");
    EXPECT_EQ(last(), before);
}

}  // namespace
}  // namespace mitefall::web
