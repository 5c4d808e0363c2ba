#pragma once

#include <gtest/gtest.h>

#include <condition_variable>
#include <cstdlib>
#include <set>

#include "base/contract.h"
#include "formats/schemas.h"
#include "service/demo.h"
#include "store/scratch.h"
#include "web/routes.h"
#include "web/site.h"

// The demo collection behind the site, without a socket. Every answer is held against the schema of its
// route.
namespace mitefall::web {
using formats::Json;
using units::Day;

inline const service::Knowledge& knowledge() {
    static const service::Knowledge loaded = service::Knowledge::load().value();
    return loaded;
}

inline const Day today = std::chrono::year(2026) / 3 / 10;

/// Hears of everything that happens, one thing after another.
class News {
  public:
    explicit News(Hub& hub)
        : ticket_(hub.listen([this](const std::string&) {
              const std::scoped_lock lock(guard_);
              ++heard_;
              changed_.notify_all();
          })) {}
    /// Returns once something happened that no wait has returned for.
    void wait() {
        std::unique_lock lock(guard_);
        changed_.wait(lock, [&] { return heard_ > told_; });
        told_ = heard_;
    }

  private:
    std::mutex guard_;
    std::condition_variable changed_;
    int heard_ = 0;
    int told_ = 0;
    std::unique_ptr<Hub::Ticket> ticket_;
};

/// The demo collection behind the site, without a socket.
class WebSite : public store::Scratch {
  protected:
    WebSite() : desk(file(), opened(), knowledge(), [this] { return now(); }) {}

    std::string file() { return at("c").string(); }

    service::Keeper opened() {
        auto keeper = service::Keeper::create(file(), knowledge()).value();
        const auto ids = keeper.record_all(service::demo_facts(today), {today, "2026-03-10T08:00:00Z"});
        if (!ids) throw std::runtime_error(ids.error().message());
        return keeper;
    }

    service::Now now() {
        return {day, units::format_day(day) + "T20:00:" + std::to_string(100 + ++moment).substr(1) + "Z"};
    }

    Response send(const std::string& method, const std::string& target, const std::string& body = "",
                  Door door = Door::local, const std::string& cookie = "") {
        const auto read = read_target(target).value();
        Request request{method, read.path, read.query, {{"host", "127.0.0.1:1"}}, body, door};
        if (!body.empty()) request.headers.emplace_back("content-type", "application/json");
        if (!cookie.empty()) request.headers.emplace_back("cookie", cookie);
        Response response = site.handle(request);
        hold_to_contract(request, response);
        return response;
    }

    /// What is answered well fits the schema of its route, whoever asked for what reason.
    void hold_to_contract(const Request& request, const Response& response) {
        const Route* const route = find_route(request.method, request.path);
        if (route == nullptr || response.status != 200) return;
        held_routes.insert(route);
        if (route->answer.find('/') != std::string_view::npos) {
            EXPECT_EQ(response.type.substr(0, response.type.find(';')), route->answer) << request.path;
            return;
        }
        EXPECT_EQ(formats::faults_of(response.body, std::string(route->answer)), "") << request.path;
        EXPECT_EQ(Json::parse(response.body)["command"], route->command) << request.path;
    }

    Json get(const std::string& target, const std::string& schema, int status = 200) {
        return checked(send("GET", target), schema, status);
    }
    /// A request that writes gets a key of its own, unless it has one.
    Json post(const std::string& target, Json body, const std::string& schema, int status = 200) {
        const bool keyless = target == "/api/jobs" || target == "/api/pair" || target == "/api/sharing" ||
                             body.contains("dry_run");
        if (!keyless && !body.contains("request")) body["request"] = fresh_key();
        return checked(send("POST", target, body.dump()), schema, status);
    }

    std::string fresh_key() { return "key-of-a-request-" + std::to_string(++keys); }

    /// The same tap as a page sends it that has seen all there is.
    Json tap(const std::string& key, const std::string& on = "2026-03-10") {
        return {{"key", key}, {"day", on}, {"seen", last()}};
    }

    static Json checked(const Response& response, const std::string& schema, int status) {
        EXPECT_EQ(response.status, status) << response.body;
        EXPECT_EQ(response.type, "application/json");
        EXPECT_EQ(formats::faults_of(response.body, schema), "");
        const Json envelope = Json::parse(response.body);
        return envelope.contains("result") ? envelope["result"] : envelope["error"];
    }

    Json job_done(const std::string& kind, const Json& options = Json::object()) {
        Json job = post("/api/jobs", {{"kind", kind}, {"options", options}}, "web-job");
        while (job["state"] == "waiting" || job["state"] == "running") {
            news.wait();
            job = get("/api/jobs/" + job["job"].get<std::string>(), "web-job");
        }
        // The schema of a question takes just what the program understands.
        const bool is_understood = job["error"].is_null() || job["error"]["kind"] != "invalid-input";
        const std::string asked = Json{{"kind", kind}, {"options", options}}.dump();
        EXPECT_EQ(formats::faults_of(asked, "ask").empty(), is_understood) << asked;
        return job;
    }

    records::FactId last() { return desk.last_entry().value(); }

    std::set<const Route*> held_routes;  ///< with 200
    Day day = today;
    int moment = 0;
    int keys = 0;
    Hub hub;
    News news{hub};
    Desk desk;
    Pairing pairing{system_random};
    bool shared = false;
    bool angry = false;  ///< breaks a promise where it is asked
    Site site{{&desk, &hub, &pairing,
               [] {
                   return Names{{"127.0.0.1:1"}, {"127.0.0.1:1"}};
               },
               [this] {
                   base::expects(!angry, "nobody is angry");
                   return Sharing{shared, shared ? std::vector<std::string>{"http://192.168.1.20:8640"}
                                                 : std::vector<std::string>{}};
               },
               [this](bool on) -> base::Result<void> {
                   shared = on;
                   return {};
               },
               "1.2.3"}};
};

}  // namespace mitefall::web
