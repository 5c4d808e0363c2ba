#include <fmt/format.h>

#include "formats/json/document.h"
#include "service/asked_first.h"
#include "service/fact_text.h"
#include "web/asks.h"
#include "web/routes.h"
#include "web/wishes.h"
#include "web/work.h"
#include "web/writing.h"

// Answers that put something on record.
namespace mitefall::web {
namespace {

using records::FactId;

constexpr formats::DocumentLimits body_limits{4UL << 20U, 8, 64, 100'000};
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

/// What somebody says with facts that may ask first.
struct Said {
    bool dry_run = false;
    std::vector<std::string> acknowledged;
    std::string reason;  ///< why all the same
};

Said read_said(Members& members) {
    return {members.flag("dry_run", false), members.texts("acknowledged"), members.text("reason")};
}

/// Puts the facts on record, or tells what they ask.
Deed put(const Means& means, std::vector<service::DatedFact> facts, const Said& said,
         const service::Now& now) {
    return [facts = std::move(facts), said, now, &jobs = means.jobs](Keeper& keeper) -> Result<Json> {
        const auto today = keeper.situation(now.today);
        if (!today) return fail(today.error());
        const service::ReleaseChance chance = [&](const records::AnimalId& animal) {
            return release_chance(jobs, animal, (*today)->entry(), now.today);
        };
        if (said.dry_run) {
            const auto checked = keeper.would_accept(facts, now);
            if (!checked) return fail(checked.error());
            const auto asks = service::asked_first(**today, facts, chance);
            if (!asks) return fail(asks.error());
            Json answer = ids_json({});
            answer["asks"] = asks_json(*asks);
            return answer;
        }
        const auto ids =
            service::record_knowingly(keeper, facts, said.acknowledged, chance, now, said.reason);
        return ids ? Result<Json>(ids_json(*ids)) : fail(ids.error());
    };
}

Result<Deed> record(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    auto facts = read_facts(members.any("facts"), now.today);
    const Said said = read_said(members);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!facts) return fail(facts.error());
    return put(means, std::move(*facts), said, now);
}

Result<FactId> read_entry(const Json& number, std::string_view key) {
    if (number.is_number_integer()) return number.get<FactId>();
    base::Error error = base::invalid("the number of an entry is needed", number.dump(), "1, 2, ...");
    error.where = std::string(key);
    return fail(std::move(error));
}

Result<Deed> correct(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const auto entry = read_entry(members.any("entry"), "entry");
    const auto day = read_day(members.text("day"), now.today);
    const auto fact = read_fact(members);
    const Said said = read_said(members);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!day) return fail(day.error());
    if (!fact) return fail(fact.error());
    if (!entry) return fail(entry.error());
    return put(means, {{*day, *fact, *entry}}, said, now);
}

Result<Json> ids_of(const Result<std::vector<records::Entry>>& entries) {
    if (!entries) return fail(entries.error());
    std::vector<FactId> ids;
    for (const records::Entry& entry : *entries) ids.push_back(entry.id);
    return ids_json(ids);
}

Result<std::vector<FactId>> read_entries(const Json& list) {
    const bool fits =
        list.is_array() && !list.empty() &&
        std::all_of(list.begin(), list.end(), [](const Json& n) { return n.is_number_integer(); });
    if (fits) return list.get<std::vector<FactId>>();
    return fail(base::invalid("the numbers of the entries are needed", list.dump(), "[1, 2, ...]"));
}

Result<Deed> withdraw(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    const Json list = members.any("entries");
    const std::string of = members.text("of");
    const std::string reason = members.text("reason");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!of.empty()) {
        return [of, reason, now](Keeper& keeper) { return ids_of(keeper.withdraw_request(of, reason, now)); };
    }
    const auto entries = read_entries(list);
    if (!entries) return fail(entries.error());
    return [entries = *entries, reason, now](Keeper& keeper) {
        return ids_of(keeper.withdraw(entries, reason, now));
    };
}

Result<Deed> undo(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    const auto seen = read_entry(members.any("seen"), "seen");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!seen) return fail(seen.error());
    return [seen = *seen, now](Keeper& keeper) { return ids_of(keeper.undo(now, seen)); };
}

/// The day a task was ticked on, which may be some days ago if the telephone had no connection.
Result<units::Day> day_of_ticking(const std::string& text, const service::Now& now) {
    const auto day = read_day(text, now.today);
    if (!day || (*day <= now.today && *day + longest_queue >= now.today)) return day;
    base::Error error = base::invalid(
        "a task is ticked on its day, or sent some days later", text,
        fmt::format("{} to {}", units::format_day(now.today - longest_queue), units::format_day(now.today)),
        "record what was done under its enclosure");
    error.where = "day";
    return fail(error);
}

Result<Json> ticked_json(const std::string& key, const Result<service::Ticked>& ticked) {
    if (!ticked) return fail(ticked.error());
    return Json{{"key", key},
                {"state", worklist::to_text(ticked->state)},
                {"already", ticked->already},
                {"entries", ticked->entries},
                {"recorded_at", ticked->recorded_at.empty() ? Json(nullptr) : Json(ticked->recorded_at)},
                {"entry", ticked->entry}};
}

/// "Done" or "skip" of a task that was open on the list the reader saw. Two people may say it at once.
Result<service::Tap> read_tap(Members& members, const service::Now& now) {
    const std::string key = members.text("key");
    const std::string by = members.text("by");
    const auto day = day_of_ticking(members.text("day"), now);
    const auto seen = read_entry(members.any("seen"), "seen");
    if (!day) return fail(day.error());
    if (!seen) return fail(seen.error());
    return service::Tap{key, *day, *seen, {}, by};
}

template <class E>
Result<E> read_choice(std::string_view key, const std::string& text) {
    if (const auto known = records::from_text<E>(text)) return *known;
    base::Error error = base::invalid("that is no possible answer", text, records::list_texts<E>());
    error.where = std::string(key);
    return fail(std::move(error));
}

/// What somebody says who looked for mites: {"found", "where"}; nothing of any other task.
Result<std::optional<worklist::CheckAnswer>> read_check_answer(Members& members) {
    const std::string found = members.text("found");
    const std::string where = members.text("where");
    if (found.empty() && where.empty()) return std::optional<worklist::CheckAnswer>();
    const auto count = read_choice<records::SeenCount>("found", found);
    if (!count) return fail(count.error());
    worklist::CheckAnswer answer{*count, {}};
    if (where.empty()) return std::optional(answer);
    const auto place = read_choice<records::SeenWhere>("where", where);
    if (!place) return fail(place.error());
    answer.where = *place;
    return std::optional(answer);
}

Result<Deed> tick(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    auto tap = read_tap(members, now);
    const auto answer = read_check_answer(members);
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!tap) return fail(tap.error());
    if (!answer) return fail(answer.error());
    tap->answer = *answer;
    return [tap = *tap, now](Keeper& keeper) { return ticked_json(tap.key, keeper.tick(tap, now)); };
}

Result<Deed> skip(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    const auto tap = read_tap(members, now);
    const std::string reason = members.text("reason");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!tap) return fail(tap.error());
    return [tap = *tap, reason, now](Keeper& keeper) {
        return ticked_json(tap.key, keeper.skip(tap, reason, now));
    };
}

Result<Deed> take_back(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    service::TakeBack asked{members.text("key"), {}, members.text("of")};
    const Json entry = members.any("entry");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (asked.of.empty()) {
        const auto number = read_entry(entry, "entry");
        if (!number) return fail(number.error());
        asked.entry = *number;
    }
    return [asked, now](Keeper& keeper) { return ticked_json(asked.key, keeper.reopen(asked, now)); };
}

/// What was looked at was worked out for the day it was asked on.
Result<void> check_of_today(const Question& question, const service::Now& now) {
    if (question.today == now.today) return {};
    return fail({base::ErrorKind::conflict, "this plan was made for another day",
                 units::format_day(question.today), units::format_day(now.today), "ask for plans again",
                 "job"});
}

Deed put_to_days(DaysAtHand at_hand, const service::Now& now) {
    return [at_hand = std::move(at_hand), now](Keeper& keeper) -> Result<Json> {
        const auto id = keeper.put_to_days(at_hand.days, now, at_hand.question.entry);
        return id ? Result<Json>(ids_json({*id})) : fail(id.error());
    };
}

/// A plan of a finished job, or the adopted one on the days that a job has tried.
Result<Deed> adopt(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const std::string job_id = members.text("job");
    const Json which = members.any("plan");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (auto days = days_at_hand(means.jobs, job_id)) {
        if (const auto ok = check_of_today(days->question, now); !ok) return fail(ok.error());
        return put_to_days(std::move(*days), now);
    }
    const std::string name = which.is_string() ? which.get<std::string>() : which.dump();
    auto found = plan_at_hand(means.jobs, job_id, name);
    if (!found) {
        found.error().what = "this plan is no longer at hand";
        found.error().where = "plan";
        return fail(found.error());
    }
    if (const auto ok = check_of_today(found->question, now); !ok) return fail(ok.error());
    return [at_hand = *found, now](Keeper& keeper) -> Result<Json> {
        const auto id =
            keeper.adopt(*at_hand.plan, at_hand.planned->setting.strength, now, at_hand.question.entry);
        return id ? Result<Json>(ids_json({*id})) : fail(id.error());
    };
}

/// The late round is done today; "how" says what becomes of the rounds after it.
Result<Deed> catch_up(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    const std::string how = members.text("how");
    const auto seen = read_entry(members.any("seen"), "seen");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!seen) return fail(seen.error());
    const bool moves = how == worklist::to_text(worklist::CatchUp::move);
    if (!moves && how != worklist::to_text(worklist::CatchUp::today)) {
        base::Error error = base::invalid("there is no such way to catch up", how, "today, move");
        error.where = "how";
        return fail(std::move(error));
    }
    return [seen = *seen, moves, now](Keeper& keeper) -> Result<Json> {
        const auto id =
            keeper.catch_up(moves ? worklist::CatchUp::move : worklist::CatchUp::today, now, seen);
        return id ? Result<Json>(ids_json({*id})) : fail(id.error());
    };
}

}  // namespace

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

Result<Json> read_body(const Request& request) { return formats::read_document(request.body, body_limits); }

std::vector<Route> writing_routes() {
    return {{"POST", "/api/record", "record", "recorded", record},
            {"POST", "/api/correct", "record", "recorded", correct},
            {"POST", "/api/withdraw", "undo", "recorded", withdraw},
            {"POST", "/api/undo", "undo", "recorded", undo},
            {"POST", "/api/tick", "tick", "web-ticked", tick},
            {"POST", "/api/skip", "skip", "web-ticked", skip},
            {"POST", "/api/take-back", "take-back", "web-ticked", take_back},
            {"POST", "/api/adopt", "adopt", "recorded", adopt},
            {"POST", "/api/catch-up", "catch-up", "recorded", catch_up}};
}

}  // namespace mitefall::web
