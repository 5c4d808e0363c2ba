#include <charconv>
#include <filesystem>

#include "formats/json/damage.h"
#include "formats/json/json.h"
#include "formats/paper/qr_code.h"
#include "web/crowd.h"
#include "web/routes.h"
#include "web/wishes.h"

// What this program is, who may reach it from the home network, and a copy of everything.
namespace mitefall::web {
namespace {

constexpr double code_size_mm = 60;
constexpr int seconds_in_a_year = 31'536'000;
constexpr std::size_t longest_name = 60;  ///< bytes

Json sharing_json(const Means& means) {
    const Sharing sharing = means.parts.sharing();
    Json json{{"on", sharing.on}, {"addresses", sharing.addresses}, {"pairing", nullptr}, {"qr", nullptr}};
    const bool may_invite = means.request.door == Door::local && !sharing.addresses.empty();
    if (!may_invite) return json;
    const std::string link = sharing.addresses.front() + "/#pair=" + means.parts.pairing->code();
    json["pairing"] = link;
    if (const auto code = formats::qr_code(link))
        json["qr"] = formats::qr_svg(*code, code_size_mm, "Code to pair a telephone with");
    return json;
}

Response pair(const Means& means) {
    const auto body = read_body(means.request);
    if (!body) return failed("pair", body.error());
    Members members(*body);
    const std::string code = members.text("code");
    const std::string name = members.text("name");
    if (const auto ok = members.finish(); !ok) return failed("pair", ok.error());
    const Pairing::Asker asker{excerpt(name, longest_name), neighbour_of(means.request.address),
                               means.parts.desk->now().instant};
    const auto [outcome, token] = means.parts.pairing->pair(code, asker, Pairing::Clock::now());
    if (outcome == Pairing::Outcome::full) {
        return refusal(409, {base::ErrorKind::conflict,
                             "too many devices are paired",
                             {},
                             {},
                             "withdraw one under Settings on the machine Mitefall runs on",
                             {}});
    }
    if (outcome == Pairing::Outcome::too_many) {
        return refusal(429, {base::ErrorKind::refused,
                             "too many wrong codes",
                             {},
                             "5 in a minute from one device",
                             "wait a minute, then scan the code that is shown now",
                             "code"});
    }
    if (outcome == Pairing::Outcome::wrong) {
        return refusal(403, {base::ErrorKind::refused,
                             "the code is not right, or was used already",
                             code,
                             {},
                             "scan the code that is shown now",
                             "code"});
    }
    Response response = answer("pair", {{"paired", true}});
    response.headers.emplace_back("Set-Cookie", "mitefall=" + token +
                                                    "; HttpOnly; SameSite=Strict; Path=/; Max-Age=" +
                                                    std::to_string(seconds_in_a_year));
    means.parts.hub->tell("sharing", Json::object());
    return response;
}

Response list_devices(const Means& means) {
    Json list = Json::array();
    for (const Device& device : means.parts.pairing->devices()) {
        list.push_back({{"device", std::to_string(device.number)},
                        {"name", device.name},
                        {"address", device.address},
                        {"paired_at", device.paired_at}});
    }
    return answer("devices", {{"devices", std::move(list)}});
}

/// Its open connections are shut when they are told of it (web/listener.h, `admit`).
Response withdraw_device(const Means& means) {
    const std::string& written = means.last;
    std::uint64_t number = 0;
    const auto read = std::from_chars(written.data(), written.data() + written.size(), number);
    const bool is_number = read.ec == std::errc{} && read.ptr == written.data() + written.size();
    if (!is_number || !means.parts.pairing->withdraw(number)) {
        return failed("devices", {base::ErrorKind::not_found,
                                  "there is no paired device of that number",
                                  written,
                                  {},
                                  "choose one of the list",
                                  "device"});
    }
    means.parts.hub->tell("sharing", Json::object());
    return list_devices(means);
}

Response share(const Means& means) {
    const auto body = read_body(means.request);
    if (!body) return failed("sharing", body.error());
    Members members(*body);
    const bool on = members.flag("on", false);
    if (const auto ok = members.finish(); !ok) return failed("sharing", ok.error());
    if (const auto done = means.parts.share(on); !done) return failed("sharing", done.error());
    means.parts.hub->tell("sharing", Json::object());
    return status_answer(means);
}

Response backup(const Means& means) {
    auto copied = means.parts.desk->ask([](const Keeper& keeper) { return keeper.copy(); });
    if (!copied) return failed("backup", copied.error());
    Response response;
    response.type = "application/vnd.sqlite3";
    response.body = std::move(*copied);
    response.headers = {{"Content-Disposition", "attachment; filename=\"collection-" +
                                                    units::format_day(means.parts.desk->now().today) +
                                                    ".mitefall\""}};
    return response;
}

Response events(const Means&) {
    Response response;
    response.type = "text/event-stream";
    response.headers = {{"Cache-Control", "no-store"}};
    response.is_events = true;
    return response;
}

}  // namespace

Response status_answer(const Means& means) {
    Desk& desk = *means.parts.desk;
    const service::Now now = desk.now();
    const auto collection = desk.ask([&](const Keeper& keeper) { return keeper.collection(now.today); });
    if (!collection) return failed("status", collection.error());
    const auto entry = desk.last_entry();
    if (!entry) return failed("status", entry.error());
    const auto damage = desk.ask([](const Keeper& keeper) { return keeper.damage(); });
    if (!damage) return failed("status", damage.error());
    return answer("status", {{"version", means.parts.version},
                             {"file", std::filesystem::path(desk.file()).filename().string()},
                             {"today", units::format_day(now.today)},
                             {"entry", *entry},
                             {"empty", collection->enclosures.empty()},
                             {"role", means.request.door == Door::local ? "local" : "home"},
                             {"damage", formats::damage_json(*damage)},
                             {"sharing", sharing_json(means)}});
}

std::vector<Route> sharing_routes() {
    return {
        {"GET", "/api/status", "status", "web-status", status_answer},
        {"POST", "/api/sharing", "status", "web-status", share, {}, Who::this_machine},
        {"POST", "/api/pair", "pair", "web-paired", pair, {}, Who::anyone},
        {"GET", "/api/devices", "devices", "web-devices", list_devices, {}, Who::this_machine},
        {"DELETE", "/api/devices/{device}", "devices", "web-devices", withdraw_device, {}, Who::this_machine},
        {"GET", "/api/backup", "backup", "application/vnd.sqlite3", backup},
        {"GET", "/api/events", "events", "text/event-stream", events}};
}

}  // namespace mitefall::web
