#include <fmt/format.h>

#include "formats/json_document.h"
#include "service/fact_text.h"
#include "web/routes.h"
#include "web/wishes.h"
#include "web/work.h"

// Answers that put something on record.
namespace mitefall::web {
namespace {

using base::fail;
using base::Result;
using formats::Json;
using records::FactId;
using service::Keeper;

constexpr formats::DocumentLimits body_limits{4UL << 20U, 8};
constexpr units::Days longest_queue{14};  ///< a tick may have waited so long to be sent

Result<units::Day> read_day(const std::string& text, units::Day otherwise) {
    return text.empty() ? Result<units::Day>(otherwise) : formats::for_option("day", units::parse_day(text));
}

Result<records::Fact> read_fact(Members& members) {
    const std::string kind = members.text("kind");
    const Json body = members.any("body");
    return service::read_fact(kind, body.is_object() ? body.dump() : "");
}

Result<service::DatedFact> read_dated_fact(const Json& json, units::Day today) {
    Members members(json);
    const auto day = read_day(members.text("day"), today);
    auto fact = read_fact(members);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!day) return fail(day.error());
    if (!fact) return fail(fact.error());
    return service::DatedFact{*day, std::move(*fact)};
}

Result<std::vector<service::DatedFact>> read_facts(const Json& list, units::Day today) {
    if (!list.is_array() || list.empty()) {
        base::Error error =
            base::invalid("there is nothing to put on record", list.dump(), "a list of facts");
        error.where = "facts";
        return fail(error);
    }
    std::vector<service::DatedFact> facts;
    for (std::size_t i = 0; i < list.size(); ++i) {
        auto fact = read_dated_fact(list[i], today);
        if (!fact) {
            base::Error error = fact.error();
            error.where = fmt::format("/facts/{}{}{}", i, error.where.empty() ? "" : "/", error.where);
            return fail(std::move(error));
        }
        facts.push_back(std::move(*fact));
    }
    return facts;
}

Result<Json> record(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const auto facts = read_facts(members.any("facts"), now.today);
    const bool dry_run = members.flag("dry_run", false);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!facts) return fail(facts.error());
    if (dry_run) {
        const auto checked =
            means.parts.desk->ask([&](const Keeper& keeper) { return keeper.would_accept(*facts, now); });
        if (!checked) return fail(checked.error());
        return Json{{"ids", Json::array()}};
    }
    const auto ids = means.parts.desk->ask([&](Keeper& keeper) { return keeper.record_all(*facts, now); });
    if (!ids) return fail(ids.error());
    return Json{{"ids", *ids}};
}

Result<Json> correct(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const Json entry = members.any("entry");
    const auto day = read_day(members.text("day"), now.today);
    const auto fact = read_fact(members);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!day) return fail(day.error());
    if (!fact) return fail(fact.error());
    if (!entry.is_number_integer()) {
        return fail(base::invalid("a correction needs the number of the entry", entry.dump(), "1, 2, ..."));
    }
    const auto id = means.parts.desk->ask(
        [&](Keeper& keeper) { return keeper.correct(entry.get<FactId>(), *fact, *day, now); });
    if (!id) return fail(id.error());
    return Json{{"ids", {*id}}};
}

Json ids_of(const std::vector<records::Entry>& entries) {
    Json ids = Json::array();
    for (const records::Entry& entry : entries) ids.push_back(entry.id);
    return {{"ids", std::move(ids)}};
}

Result<Json> withdraw(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const Json list = members.any("entries");
    const std::string reason = members.text("reason");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    const bool fits =
        list.is_array() && !list.empty() &&
        std::all_of(list.begin(), list.end(), [](const Json& n) { return n.is_number_integer(); });
    if (!fits)
        return fail(base::invalid("the numbers of the entries are needed", list.dump(), "[1, 2, ...]"));
    const auto taken = means.parts.desk->ask(
        [&](Keeper& keeper) { return keeper.withdraw(list.get<std::vector<FactId>>(), reason, now); });
    if (!taken) return fail(taken.error());
    return ids_of(*taken);
}

Result<Json> undo(const Means& means, const Json& body, const service::Now& now) {
    if (const auto ok = Members(body).finish(); !ok) return fail(ok.error());
    const auto taken = means.parts.desk->ask([&](Keeper& keeper) { return keeper.undo(now); });
    if (!taken) return fail(taken.error());
    return ids_of(*taken);
}

/// The day a task was ticked on, which may be some days ago if the telephone had no connection.
Result<service::Now> at_ticking(const std::string& text, service::Now now) {
    const auto day = read_day(text, now.today);
    if (!day) return fail(day.error());
    if (*day > now.today || *day + longest_queue < now.today) {
        base::Error error =
            base::invalid("a task is ticked on its day, or sent some days later", text,
                          fmt::format("{} to {}", units::format_day(now.today - longest_queue),
                                      units::format_day(now.today)),
                          "record what was done under its enclosure");
        error.where = "day";
        return fail(error);
    }
    now.today = *day;
    return now;
}

Json ticked(const std::string& key, bool already, const std::vector<FactId>& entries) {
    return {{"key", key}, {"already", already}, {"entries", entries}};
}

/// Two people may tick the same task, and one may send it twice: what is done is done.
Result<Json> tick_or_skip(const Means& means, const Json& body, const service::Now& now, bool done) {
    Members members(body);
    const std::string key = members.text("key");
    const std::string day = members.text("day");
    const std::string reason = done ? "" : members.text("reason");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    const auto then = at_ticking(day, now);
    if (!then) return fail(then.error());
    return means.parts.desk->ask([&](Keeper& keeper) -> Result<Json> {
        const auto collection = keeper.collection(now.today);
        if (!collection) return fail(collection.error());
        const bool already = done ? collection->done.contains(key) : collection->skipped.contains(key);
        if (already) return ticked(key, true, {});
        const auto ids = done ? keeper.tick(key, *then) : keeper.skip(key, reason, *then);
        if (!ids) return fail(ids.error());
        return ticked(key, false, *ids);
    });
}

Result<Json> tick(const Means& means, const Json& body, const service::Now& now) {
    return tick_or_skip(means, body, now, true);
}

Result<Json> skip(const Means& means, const Json& body, const service::Now& now) {
    return tick_or_skip(means, body, now, false);
}

Result<Json> adopt(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const std::string job_id = members.text("job");
    const Json which = members.any("plan");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    const auto job = means.jobs.find(job_id);
    const auto* const kept = job && job->outcome ? std::any_cast<KeptPlan>(&job->outcome->kept) : nullptr;
    const std::string name = which.is_string() ? which.get<std::string>() : which.dump();
    const plan::ScoredPlan* const plan = kept == nullptr ? nullptr : pick(kept->planned->choice, name);
    if (plan == nullptr) {
        return fail({base::ErrorKind::not_found,
                     "this plan is no longer at hand",
                     job_id + " " + name,
                     {},
                     "ask for plans again",
                     "plan"});
    }
    if (job->question.today != now.today) {
        return fail({base::ErrorKind::conflict, "this plan was made for another day",
                     units::format_day(job->question.today), units::format_day(now.today),
                     "ask for plans again", "job"});
    }
    const auto id = means.parts.desk->ask(
        [&](Keeper& keeper) { return keeper.adopt(*plan, kept->planned->setting->strength, now); });
    if (!id) return fail(id.error());
    return Json{{"ids", {*id}}};
}

struct Writing {
    std::string_view path;
    std::string_view command;
    Result<Json> (*write)(const Means&, const Json&, const service::Now&);
};

constexpr Writing writings[] = {{"/api/record", "record", record},   {"/api/correct", "record", correct},
                                {"/api/withdraw", "undo", withdraw}, {"/api/undo", "undo", undo},
                                {"/api/tick", "tick", tick},         {"/api/skip", "skip", skip},
                                {"/api/adopt", "adopt", adopt}};

}  // namespace

Result<Json> read_body(const Request& request) { return formats::read_document(request.body, body_limits); }

std::optional<Response> answer_writing(const Means& means) {
    for (const Writing& writing : writings) {
        if (!means.is("POST", writing.path)) continue;
        const auto body = read_body(means.request);
        if (!body) return failed(writing.command, body.error());
        auto written = writing.write(means, *body, means.parts.desk->now());
        return written ? answer(writing.command, std::move(*written))
                       : failed(writing.command, written.error());
    }
    return std::nullopt;
}

}  // namespace mitefall::web
