#include "web/gate.h"

#include <gtest/gtest.h>

namespace mitefall::web {
namespace {

class Gate : public testing::Test {
  protected:
    Pairing pairing{[](std::size_t bytes) { return std::string(bytes, 'x'); }};
    Names names{{"127.0.0.1:8640", "localhost:8640"}, {"192.168.1.20:8640"}};

    static Request get(const std::string& path, Fields headers, Door door = Door::local) {
        return {"GET", path, {}, std::move(headers), "", door};
    }

    static Request post(Fields headers, Door door = Door::local) {
        headers.emplace_back("content-type", "application/json");
        return {"POST", "/api/tick", {}, std::move(headers), "{}", door};
    }

    /// 200: let in.
    int status(const Request& request) const {
        const auto refused = turn_away(request, names, pairing);
        return refused ? refused->status : 200;
    }
};

TEST_F(Gate, knows_its_own_names_only) {
    EXPECT_EQ(status(get("/api/status", {{"host", "127.0.0.1:8640"}})), 200);
    EXPECT_EQ(status(get("/", {{"host", "LOCALHOST:8640"}})), 200)
        << "host names have no case (RFC 3986, 3.2.2)";
    // DNS rebinding: the name of another site that points to this machine.
    for (const char* const host : {"evil.example", "evil.example:8640", "127.0.0.1", "127.0.0.1:80", "",
                                   "192.168.1.20:8640", "127.0.0.1:8640.evil.example"})
        EXPECT_EQ(status(get("/api/status", {{"host", host}})), 403) << host;
    EXPECT_EQ(status(get("/api/status", {})), 403) << "no Host at all";
    EXPECT_EQ(status(get("/", {{"host", "127.0.0.1:8640"}, {"host", "evil.example"}})), 403) << "two of them";
}

TEST_F(Gate, lets_no_other_site_ask) {
    const std::pair<std::string, std::string> host{"host", "127.0.0.1:8640"};
    EXPECT_EQ(status(post({host})), 200);
    EXPECT_EQ(status(post({host, {"origin", "http://127.0.0.1:8640"}})), 200);
    EXPECT_EQ(status(post({host, {"origin", "http://evil.example"}})), 403);
    EXPECT_EQ(status(post({host, {"origin", "null"}})), 403) << "a sandboxed frame";
    EXPECT_EQ(status(post({host, {"origin", "https://127.0.0.1:8640"}})), 403);
    EXPECT_EQ(status(post({host, {"origin", "http://localhost:8640"}})), 403)
        << "ours, but not the one asked";
    EXPECT_EQ(status(post({host, {"sec-fetch-site", "cross-site"}})), 403);
    EXPECT_EQ(status(post({host, {"sec-fetch-site", "same-site"}})), 403) << "another port of this machine";
    EXPECT_EQ(status(get("/api/journal", {host, {"sec-fetch-site", "cross-site"}})), 403);
    EXPECT_EQ(status(get("/", {host, {"sec-fetch-site", "cross-site"}})), 200) << "a link to the first page";
}

TEST_F(Gate, takes_nothing_a_form_of_another_site_can_send) {
    // HTML, 4.10.21.7: the three types a form can send.
    for (const char* const type : {"application/x-www-form-urlencoded", "multipart/form-data", "text/plain",
                                   "text/plain; application/json", ""})
        EXPECT_EQ(status({"POST",
                          "/api/tick",
                          {},
                          {{"host", "localhost:8640"}, {"content-type", type}},
                          "{}",
                          Door::local}),
                  415)
            << type;
    EXPECT_EQ(status({"POST",
                      "/api/tick",
                      {},
                      {{"host", "localhost:8640"}, {"content-type", "application/json; charset=utf-8"}},
                      "{}",
                      Door::local}),
              200);
    for (const char* const method : {"PUT", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get"})
        EXPECT_EQ(status({method, "/", {}, {{"host", "localhost:8640"}}, "", Door::local}), 405) << method;
}

TEST_F(Gate, lets_only_paired_devices_in_from_the_home_network) {
    const std::pair<std::string, std::string> host{"host", "192.168.1.20:8640"};
    EXPECT_EQ(status(get("/", {host}, Door::home)), 200) << "the page, which asks to pair";
    EXPECT_EQ(status(get("/api/status", {host}, Door::home)), 401);
    EXPECT_EQ(status(get("/api/events", {host}, Door::home)), 401);
    EXPECT_EQ(status(post({host}, Door::home)), 401);
    EXPECT_EQ(status(get("/api/status", {{"host", "127.0.0.1:8640"}}, Door::home)), 403)
        << "the other door's name";
    const auto [outcome, token] = pairing.pair(pairing.code(), {"phone", "10.0.0.7", ""}, {});
    ASSERT_EQ(outcome, Pairing::Outcome::paired);
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "mitefall=" + token}}, Door::home)), 200);
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "a=b; mitefall=" + token + "; c=d"}}, Door::home)),
              200);
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "mitefall=" + token + "0"}}, Door::home)), 401);
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "xmitefall=" + token}}, Door::home)), 401);
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "mitefall="}}, Door::home)), 401);
    pairing.forget_all();
    EXPECT_EQ(status(get("/api/status", {host, {"cookie", "mitefall=" + token}}, Door::home)), 401);
}

TEST_F(Gate, says_what_a_page_may_load) {
    const auto policy = find(guard_headers(), "Content-Security-Policy");
    ASSERT_TRUE(policy);
    EXPECT_NE(policy->find("default-src 'none'"), std::string::npos);
    EXPECT_NE(policy->find("script-src 'self'"), std::string::npos);
    EXPECT_EQ(policy->find("unsafe"), std::string::npos);
}

Pairing::Asker from(const std::string& neighbour) { return {"phone", neighbour, "2026-03-10T20:00:00Z"}; }

TEST(Pairing, hears_five_wrong_codes_a_minute_from_one_neighbour) {
    Pairing pairing(system_random);
    const Pairing::Clock::time_point start{};
    for (int i = 0; i < 5; ++i)
        EXPECT_EQ(pairing.pair("wrong", from("10.0.0.66"), start).outcome, Pairing::Outcome::wrong);
    EXPECT_EQ(pairing.pair(pairing.code(), from("10.0.0.66"), start + std::chrono::seconds(59)).outcome,
              Pairing::Outcome::too_many)
        << "not even the right one";
    EXPECT_EQ(pairing.pair(pairing.code(), from("10.0.0.7"), start + std::chrono::seconds(59)).outcome,
              Pairing::Outcome::paired)
        << "nobody else is shut out by it";
    EXPECT_EQ(pairing.pair(pairing.code(), from("10.0.0.66"), start + std::chrono::seconds(60)).outcome,
              Pairing::Outcome::paired);
}

TEST(Pairing, a_neighbour_of_many_addresses_neither_fills_the_memory_nor_shuts_anybody_out) {
    Pairing pairing(system_random);
    const Pairing::Clock::time_point start{};
    for (int i = 0; i < 10'000; ++i)
        static_cast<void>(
            pairing.pair("wrong", from(std::to_string(i)), start + std::chrono::milliseconds(i)));
    EXPECT_LE(pairing.watched(), 256U);
    EXPECT_EQ(pairing.pair(pairing.code(), from("10.0.0.7"), start + std::chrono::seconds(11)).outcome,
              Pairing::Outcome::paired);
    static_cast<void>(pairing.pair("wrong", from("10.0.0.7"), start + std::chrono::hours(1)));
    EXPECT_EQ(pairing.watched(), 1U) << "after a minute nothing is held against anybody";
}

// 20 signs of 32: 100 bits (docs/decisions/0038).
TEST(Pairing, a_code_is_read_in_groups_and_typed_as_one_likes) {
    Pairing pairing(system_random);
    const std::string code = pairing.code();
    ASSERT_EQ(code.size(), 24U);
    for (std::size_t i = 0; i < code.size(); ++i) EXPECT_EQ(code[i] == '-', i % 5 == 4) << code;
    std::string typed;
    for (const char c : code) typed += c == '-' ? ' ' : static_cast<char>(std::toupper(c));
    EXPECT_EQ(pairing.pair(typed, from("10.0.0.7"), {}).outcome, Pairing::Outcome::paired);
}

TEST(Pairing, a_code_is_good_for_one_device) {
    Pairing pairing(system_random);
    const std::string code = pairing.code();
    const auto first = pairing.pair(code, from("10.0.0.7"), {});
    ASSERT_EQ(first.outcome, Pairing::Outcome::paired);
    EXPECT_EQ(first.token.size(), 64U);
    EXPECT_TRUE(pairing.knows(first.token));
    EXPECT_NE(pairing.code(), code);
    EXPECT_EQ(pairing.pair(code, from("10.0.0.7"), {}).outcome, Pairing::Outcome::wrong);
    const auto second = pairing.pair(pairing.code(), from("10.0.0.7"), {});
    EXPECT_NE(first.token, second.token);
    EXPECT_EQ(pairing.devices().size(), 2U);
    EXPECT_FALSE(pairing.knows(""));
}

TEST(Pairing, a_device_is_withdrawn_alone) {
    Pairing pairing(system_random);
    const auto first = pairing.pair(pairing.code(), from("10.0.0.7"), {});
    const auto second = pairing.pair(pairing.code(), from("10.0.0.8"), {});
    const auto devices = pairing.devices();
    ASSERT_EQ(devices.size(), 2U);
    EXPECT_EQ(devices[0].address, "10.0.0.7");
    EXPECT_EQ(devices[0].name, "phone");
    EXPECT_EQ(devices[0].paired_at, "2026-03-10T20:00:00Z");
    EXPECT_TRUE(pairing.withdraw(devices[0].number));
    EXPECT_FALSE(pairing.withdraw(devices[0].number));
    EXPECT_FALSE(pairing.knows(first.token));
    EXPECT_TRUE(pairing.knows(second.token));
    const auto third = pairing.pair(pairing.code(), from("10.0.0.9"), {});
    EXPECT_EQ(third.outcome, Pairing::Outcome::paired);
    EXPECT_NE(pairing.devices().back().number, devices[0].number) << "a number is never given again";
}

TEST_F(Gate, judges_strangers_by_the_head_and_takes_no_more_than_a_kilobyte) {
    const std::pair<std::string, std::string> host{"host", "192.168.1.20:8640"};
    const std::pair<std::string, std::string> json{"content-type", "application/json"};
    const auto head = [&](const std::string& method, const std::string& path, Fields headers, Door door) {
        return admit({method, path, {}, std::move(headers), "", door}, names, pairing);
    };
    const auto page = head("GET", "/", {host}, Door::home);
    EXPECT_FALSE(page.refused);
    EXPECT_EQ(page.most_body, 1024U);
    EXPECT_FALSE(page.takes_chunks);
    EXPECT_FALSE(page.is_known);
    const auto pair = head("POST", "/api/pair", {host, json}, Door::home);
    EXPECT_FALSE(pair.refused);
    EXPECT_EQ(pair.most_body, 1024U);
    EXPECT_EQ(head("POST", "/api/record", {host, json}, Door::home).refused->status, 401);
    EXPECT_EQ(head("POST", "/", {host, json}, Door::home).refused->status, 404);
    EXPECT_EQ(head("POST", "/api/pair", {host}, Door::home).refused->status, 415);
    EXPECT_EQ(head("POST", "/api/pair", {{"host", "evil.example"}, json}, Door::home).refused->status, 403);
    EXPECT_EQ(head("PUT", "/api/pair", {host, json}, Door::home).refused->status, 405);
    const auto token = pairing.pair(pairing.code(), from("10.0.0.7"), {}).token;
    const auto paired =
        head("POST", "/api/record", {host, json, {"cookie", "mitefall=" + token}}, Door::home);
    EXPECT_FALSE(paired.refused);
    EXPECT_EQ(paired.most_body, 4UL << 20U);
    EXPECT_TRUE(paired.is_known);
    const auto local = head("POST", "/api/record", {{"host", "localhost:8640"}, json}, Door::local);
    EXPECT_TRUE(local.is_known);
    EXPECT_FALSE(head("POST", "/api/record", {{"host", "evil.example"}, json}, Door::local).is_known);
}

TEST_F(Gate, knows_a_name_without_the_port_that_needs_no_telling_and_in_brackets) {
    names = {{"127.0.0.1:80", "127.0.0.1"}, {"[fd00::1]:8640"}};
    EXPECT_EQ(status(get("/", {{"host", "127.0.0.1"}})), 200);
    EXPECT_EQ(status(post({{"host", "127.0.0.1"}, {"origin", "http://127.0.0.1"}})), 200);
    EXPECT_EQ(status(get("/", {{"host", "[FD00::1]:8640"}}, Door::home)), 200);
    EXPECT_EQ(status(get("/", {{"host", "fd00::1:8640"}}, Door::home)), 403);
}

}  // namespace
}  // namespace mitefall::web
