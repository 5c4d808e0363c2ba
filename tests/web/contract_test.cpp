#include <filesystem>
#include <regex>

#include "questions/described.h"
#include "web/web_site.h"
#include "web/work.h"

// The table of routes is the contract: what it says is answered, is documented, and nothing else is.
namespace mitefall::web {
namespace {

/// "GET /api/status", ...: all that the page of the contract names.
std::vector<std::pair<std::string, std::string>> documented() {
    const std::string page = formats::read_text("docs/web-api.md");
    const std::regex named("(GET|POST|DELETE) (/api/[a-z-]+(?:/\\d+)?)");
    std::vector<std::pair<std::string, std::string>> list;
    for (auto it = std::sregex_iterator(page.begin(), page.end(), named); it != std::sregex_iterator(); ++it)
        list.emplace_back((*it)[1], (*it)[2]);
    return list;
}

std::string name_of(const Route& route) { return std::string(route.method) + " " + std::string(route.path); }

TEST(Contract, every_route_is_documented_and_nothing_else_is) {
    std::set<const Route*> told;
    for (const auto& [method, path] : documented()) {
        const Route* const route = find_route(method, path);
        EXPECT_NE(route, nullptr) << method << " " << path << " is documented and not there";
        told.insert(route);
    }
    for (const Route& route : routes()) EXPECT_TRUE(told.contains(&route)) << name_of(route);
}

TEST(Contract, every_schema_of_the_web_belongs_to_a_route) {
    std::set<std::string> used;
    for (const Route& route : routes()) {
        used.emplace(route.answer);
        if (!route.body.empty()) used.emplace(route.body);
        for (const std::string_view name : {route.answer, route.body}) {
            if (name.empty() || name.find('/') != std::string_view::npos) continue;
            const std::string file =
                std::string(MITEFALL_ROOT) + "/docs/schemas/" + std::string(name) + ".schema.json";
            EXPECT_TRUE(std::filesystem::exists(file)) << name_of(route);
        }
    }
    for (const auto& file :
         std::filesystem::directory_iterator(std::string(MITEFALL_ROOT) + "/docs/schemas")) {
        const std::string name = file.path().filename().string();
        const std::string stem = name.substr(0, name.find('.'));
        // What a job answers stands in its result, held against it where each kind is asked (site_test.cpp).
        const bool is_of_job = stem == "web-course" || stem == "web-each-round" || stem == "web-consequence";
        EXPECT_TRUE(!stem.starts_with("web-") || is_of_job || used.contains(stem)) << stem;
    }
}

TEST(Contract, no_two_routes_answer_the_same_request) {
    for (const Route& route : routes()) {
        const std::string example = std::string(route.path.substr(0, route.path.find('{'))) +
                                    (route.path.find('{') == std::string_view::npos ? "" : "7");
        EXPECT_EQ(find_route(route.method, example), &route) << name_of(route);
    }
}

TEST(Contract, the_kinds_of_job_are_the_questions_described) {
    std::string described;
    for (const auto& question : questions::jobs())
        described += (described.empty() ? "" : ", ") + question.name;
    EXPECT_EQ(list_questions(), described);
}

class Routes : public WebSite {
  protected:
    /// A treatment, which is ticked without an answer.
    std::string open_task() {
        const Json list = get("/api/worklist", "worklist");
        std::string key;
        for (const Json& task : list["tasks"]) {
            if (task["kind"] == "treat" && task["state"] == "open") key = task["key"];
        }
        EXPECT_FALSE(key.empty());
        return key;
    }

    void read_all() {
        for (const Route& route : routes()) {
            const bool has_part = route.path.find('{') != std::string_view::npos;
            if (route.method != "GET" || has_part || route.path == "/api/verdicts" ||
                route.path == "/api/mix" || route.path == "/api/label" || route.path == "/api/cupboard" ||
                route.path == "/api/given")
                continue;
            EXPECT_EQ(send("GET", std::string(route.path)).status, 200) << route.path;
        }
        send("GET", "/api/verdicts?animal=ada");
        send("GET", "/api/mix?batch=1+L&target=10+mg/L&stock_is=plain");
        send("GET", "/api/cupboard?ingredient=ivermectin+10+mg/mL&is=plain&or_ingredient=permethrin");
        send("GET", "/api/label?batch=b-1");
        send("GET", "/api/given?animal=ada");
    }

    void write_all() {
        const Json weight{{"kind", "weighed"}, {"body", {{"animal", "ada"}, {"mass_g", 1600}}}};
        const Json ids = post("/api/record", {{"facts", {weight}}}, "recorded")["ids"];
        Json correction = weight;
        correction["entry"] = ids[0];
        post("/api/correct", correction, "recorded");
        const Json other = post("/api/record", {{"facts", {weight}}}, "recorded")["ids"];
        post("/api/withdraw", {{"entries", other}}, "recorded");
        post("/api/record", {{"facts", {weight}}}, "recorded");
        post("/api/undo", {{"seen", last()}}, "recorded");
        post("/api/batch",
             {{"batch", "b-1"}, {"batch_volume", "1 L"}, {"target", "10 mg/L"}, {"stock_is", "plain"}},
             "recorded");
    }

    void work_all() {
        const Json plan = job_done("plan", {{"only", {"a-05"}}});
        send("DELETE", "/api/jobs/" + plan["job"].get<std::string>());
        post("/api/adopt", {{"job", plan["job"]}, {"plan", "recommended"}}, "recorded");
        const std::string key = open_task();
        const Json done = post("/api/tick", tap(key), "web-ticked");
        post("/api/take-back", {{"key", key}, {"entry", done["entries"].back()}}, "web-ticked");
    }
};

TEST_F(Routes, each_answers_as_its_schema_says) {
    write_all();
    work_all();
    read_all();
    Json pass = tap(open_task());
    pass["reason"] = "asleep";
    post("/api/skip", pass, "web-ticked");
    post("/api/import", {{"text", "Name,Tub\nQuill,N1\n"}}, "import");
    post("/api/discard", {{"batch", "b-1"}, {"how", "pharmacy"}}, "recorded");
    day = today + units::Days(7);
    post("/api/catch-up", {{"how", "today"}, {"seen", last()}}, "recorded");
    post("/api/sharing", {{"on", true}}, "web-status");
    send("POST", "/api/pair", Json{{"code", pairing.code()}}.dump(), Door::home);
    send("DELETE", "/api/devices/1");
    for (const Route& route : routes()) EXPECT_TRUE(held_routes.contains(&route)) << name_of(route);
}

TEST_F(Routes, a_path_that_is_none_and_a_way_that_is_none_are_told_apart) {
    for (const Route& route : routes()) {
        const std::string path(route.path.substr(0, route.path.find('{')));
        for (const char* const method : {"GET", "POST", "DELETE", "PUT"}) {
            if (find_route(method, path) != nullptr) continue;
            const Response response = send(method, path, std::string(method) == "POST" ? "{}" : "");
            EXPECT_EQ(response.status, 405) << method << " " << path;
            EXPECT_EQ(find(response.headers, "Allow"), methods_of(path)) << method << " " << path;
            EXPECT_NE(methods_of(path).find(route.method), std::string::npos);
        }
        if (path == route.path) checked(send("GET", path + "x"), "error", 404);
    }
    EXPECT_EQ(methods_of("/api/jobs/7"), "GET, DELETE");
    EXPECT_EQ(methods_of("/api/nothing"), "");
}

TEST_F(Routes, what_is_for_this_machine_alone_is_refused_to_a_paired_telephone) {
    shared = true;
    const Response paired = send("POST", "/api/pair", Json{{"code", pairing.code()}}.dump(), Door::home);
    const std::string cookie = find(paired.headers, "Set-Cookie").value();
    const std::string token = cookie.substr(0, cookie.find(';'));
    int own = 0;
    for (const Route& route : routes()) {
        const std::string path = std::string(route.path.substr(0, route.path.find('{')));
        if (route.who != Who::anyone) {
            EXPECT_EQ(send(std::string(route.method), path, "{}", Door::home).status, 401) << name_of(route);
        }
        if (route.who != Who::this_machine) continue;
        ++own;
        EXPECT_EQ(send(std::string(route.method), path, "{}", Door::home, token).status, 403)
            << name_of(route);
    }
    EXPECT_EQ(own, 3) << "sharing, and the list of devices";
}

}  // namespace
}  // namespace mitefall::web
