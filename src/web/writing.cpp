#include "web/writing.h"

#include <fmt/format.h>

#include <algorithm>

#include "web/known.h"
#include "web/wishes.h"

namespace mitefall::web {
namespace {

using service::Asked;

constexpr std::size_t shortest_key = 16;  ///< so that pages that draw them never meet (assumption)
constexpr std::size_t longest_key = 64;

bool is_key(const std::string& text) {
    const auto fits = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
               c == '.';
    };
    return text.size() >= shortest_key && text.size() <= longest_key &&
           std::all_of(text.begin(), text.end(), fits);
}

/// The same whatever the order of keys and the white space. Who may write may write: no attack is kept off.
std::string what_is_asked(std::string_view path, const Json& body) {
    const std::string sorted = nlohmann::json(body).dump();
    return fmt::format("{} {} {:016x}", path, sorted.size(), fingerprint(sorted));
}

/// Takes the key out of the body and tells what is asked from the rest.
Result<Asked> read_asked(std::string_view path, Json& body) {
    Members members(body);
    std::string key = members.text("request");
    if (!is_key(key)) {
        base::Error error = base::invalid(
            "a request that writes needs a key of its own", key,
            fmt::format("{} to {} letters, digits, hyphens and full stops", shortest_key, longest_key),
            "load the page again");
        error.where = "request";
        return fail(std::move(error));
    }
    body.erase("request");
    return Asked{std::move(key), what_is_asked(path, body)};
}

/// Checked only; nothing is written, so nothing can be written twice.
bool is_rehearsal(const Json& body) {
    return body.is_object() && body.contains("dry_run") && body["dry_run"] == Json(true);
}

Result<Json> rehearse(const Means& means, DeedReader read, const Json& body) {
    const auto deed = read(means, body, means.parts.desk->now());
    if (!deed) return fail(deed.error());
    return means.parts.desk->ask(*deed);
}

/// The answer known already comes first: what the request was read against may be gone by now.
Result<Json> do_once(const Means& means, DeedReader read, Json body) {
    Desk& desk = *means.parts.desk;
    const auto asked = read_asked(means.route.path, body);
    if (!asked) return fail(asked.error());
    const auto before = desk.ask([&](const Keeper& keeper) { return keeper.answered_before(*asked); });
    if (!before) return fail(before.error());
    if (*before) return Json::parse(**before);
    const auto deed = read(means, body, desk.now());
    if (!deed) return fail(deed.error());
    const auto text = desk.ask([&](Keeper& keeper) {
        return keeper.once(*asked, [&]() -> Result<std::string> {
            const auto result = (*deed)(keeper);
            if (!result) return fail(result.error());
            return result->dump();
        });
    });
    if (!text) return fail(text.error());
    return Json::parse(*text);
}

}  // namespace

Json ids_json(const std::vector<records::FactId>& ids) { return {{"ids", ids}}; }

Response answer_once(const Means& means, DeedReader read) {
    const std::string_view command = means.route.command;
    const auto body = read_body(means.request);
    if (!body) return failed(command, body.error());
    auto written = is_rehearsal(*body) ? rehearse(means, read, *body) : do_once(means, read, *body);
    return written ? answer(command, std::move(*written)) : failed(command, written.error());
}

}  // namespace mitefall::web
