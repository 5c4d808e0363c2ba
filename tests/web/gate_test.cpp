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
    const auto [outcome, token] = pairing.pair(pairing.code(), {});
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

// An attacker who may try five codes a minute needs 32^16 / 5 minutes: 2e23 years.
TEST(Pairing, hears_five_wrong_codes_a_minute) {
    Pairing pairing(system_random);
    const Pairing::Clock::time_point start{};
    for (int i = 0; i < 5; ++i) EXPECT_EQ(pairing.pair("wrong", start).outcome, Pairing::Outcome::wrong);
    EXPECT_EQ(pairing.pair(pairing.code(), start + std::chrono::seconds(59)).outcome,
              Pairing::Outcome::too_many)
        << "not even the right one";
    EXPECT_EQ(pairing.pair(pairing.code(), start + std::chrono::seconds(60)).outcome,
              Pairing::Outcome::paired);
}

TEST(Pairing, a_code_is_good_for_one_device) {
    Pairing pairing(system_random);
    const std::string code = pairing.code();
    EXPECT_EQ(code.size(), 16U);
    const auto first = pairing.pair(code, {});
    ASSERT_EQ(first.outcome, Pairing::Outcome::paired);
    EXPECT_EQ(first.token.size(), 64U);
    EXPECT_TRUE(pairing.knows(first.token));
    EXPECT_NE(pairing.code(), code);
    EXPECT_EQ(pairing.pair(code, {}).outcome, Pairing::Outcome::wrong);
    const auto second = pairing.pair(pairing.code(), {});
    EXPECT_NE(first.token, second.token);
    EXPECT_EQ(pairing.devices(), 2U);
    EXPECT_FALSE(pairing.knows(""));
}

}  // namespace
}  // namespace mitefall::web
