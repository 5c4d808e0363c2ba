#include <fmt/format.h>

#include <algorithm>

#include "records/corrections.h"
#include "records/task_key.h"
#include "service/keeper.h"
#include "service/worklist.h"
#include "words/words.h"

// Ticking, skipping and taking back: what two people ask at once is decided where it is written.
namespace mitefall::service {
namespace {

using records::Entry;
using records::FactId;
using worklist::Task;
using worklist::TaskState;

Error no_task(const std::string& key) {
    return {ErrorKind::not_found, "no such task on today's list", key, {}, "look at today's list again", {}};
}

Error not_settled(const std::string& key, const std::string& value) {
    return {ErrorKind::not_found,        "there is no tick or skip of this task to take back",
            value.empty() ? key : value, {},
            "look at the list again",    {}};
}

Error still_to_come(FactId seen, FactId last) {
    Error error = base::invalid("the list was made from entries this journal does not have",
                                fmt::format("entry {}", seen), fmt::format("up to entry {}", last),
                                "look at the list again; see whether another file is open");
    error.where = "seen";
    return error;
}

Error settled_otherwise(const Entry& mark, TaskState state, const std::string& key) {
    return {ErrorKind::conflict,
            fmt::format("the task is {} already (entry {}, recorded {})", worklist::to_text(state), mark.id,
                        mark.recorded_at),
            key,
            {},
            "take that back first, if it is not so",
            {}};
}

Error not_as_seen(const Task* seen, const Task* now, const std::string& key) {
    return {ErrorKind::conflict,
            "the task is no longer what it was when the list was shown",
            seen == nullptr ? key + ": it was not on that list" : words::say(seen->what),
            now == nullptr ? "it is not on the list any more" : "now: " + words::say(now->what),
            "look at the list again; what was done otherwise is recorded under its enclosure",
            "seen"};
}

Error unanswered(const std::string& key) {
    return {ErrorKind::invalid_input,
            "a check is answered, not ticked",
            key,
            "none seen, or how many and where",
            "say what was seen",
            "found"};
}

Error nobody_asked(const std::string& key) {
    return {ErrorKind::invalid_input,
            "only a check is answered with what was seen",
            key,
            {},
            "tick it without; report mites that were seen as a sighting",
            "found"};
}

Error found_nowhere(const std::string& key) {
    return {ErrorKind::invalid_input,
            "it is not said where the mites were",
            key,
            "a place with some, none without any",
            "say where they were: on-animal, in-water, on-hands or on-paper",
            "where"};
}

Error answered_otherwise(const Entry& mark, const std::string& key) {
    return {ErrorKind::conflict,
            fmt::format("the check was answered otherwise already (entry {}, recorded {})", mark.id,
                        mark.recorded_at),
            key,
            {},
            "take that answer back first, or report what you saw as a sighting",
            "found"};
}

Error done_otherwise(const Entry& mark, const std::string& text, const std::string& key) {
    return {ErrorKind::conflict,
            fmt::format("the task is done already, otherwise or on another day than yours (entry {}, {}): "
                        "yours was \"{}\"",
                        mark.id, units::format_day(mark.day), text),
            key,
            {},
            "look at what is on record; if you did yours as well, record it as a treatment of its enclosure, "
            "so that both count",
            "seen"};
}

/// Whether what is said of the task fits it.
std::optional<Error> misfit(const Tap& tap, const Task& task) {
    const bool is_check = task.kind == worklist::TaskKind::check;
    if (!is_check) return tap.answer ? std::optional(nobody_asked(tap.key)) : std::nullopt;
    if (!tap.answer) return unanswered(tap.key);
    const bool some = tap.answer->count != records::SeenCount::none;
    return some == tap.answer->where.has_value() ? std::nullopt : std::optional(found_nowhere(tap.key));
}

/// Of entries written together.
const records::Checked* answer_in(const std::vector<Entry>& together) {
    for (const Entry& entry : together) {
        if (const auto* const checked = std::get_if<records::Checked>(&entry.fact)) return checked;
    }
    return nullptr;
}

/// The task a mark is of; empty for any other entry.
std::string key_of(const Entry& entry) {
    if (const auto* const done = std::get_if<records::TaskDone>(&entry.fact)) return done->task;
    if (const auto* const skipped = std::get_if<records::TaskSkipped>(&entry.fact)) return skipped->task;
    return {};
}

TaskState state_of(const Entry& mark) {
    return std::holds_alternative<records::TaskDone>(mark.fact) ? TaskState::done : TaskState::skipped;
}

const Entry* find_entry(const std::vector<Entry>& journal, FactId id) {
    const auto at = std::lower_bound(journal.begin(), journal.end(), id,
                                     [](const Entry& entry, FactId number) { return entry.id < number; });
    return at == journal.end() || at->id != id ? nullptr : &*at;
}

/// Whether ticking it puts the same on record.
bool same_work(const Task& a, const Task& b) {
    const auto clean =
        a.kind == worklist::TaskKind::check ? std::optional(worklist::CheckAnswer{}) : std::nullopt;
    return a.kind == b.kind && a.strength == b.strength &&
           worklist::facts_of(a, clean) == worklist::facts_of(b, clean);
}

std::vector<FactId> ids_of(const std::vector<Entry>& newest_first) {
    std::vector<FactId> ids;
    for (auto entry = newest_first.rbegin(); entry != newest_first.rend(); ++entry) ids.push_back(entry->id);
    return ids;
}

Result<Task> find_task_on(const Situation& situation, const std::string& key) {
    const auto& list = tasks_of(situation);
    if (!list) return fail(list.error());
    const auto task =
        std::find_if(list->tasks.begin(), list->tasks.end(), [&](const Task& t) { return t.key == key; });
    if (task == list->tasks.end() || task->kind == worklist::TaskKind::hygiene) return fail(no_task(key));
    return *task;
}

}  // namespace

/// The task as whoever had seen the journal up to `last` saw it.
Result<Task> Keeper::task_seen(FactId last, const std::string& key, units::Day day) const {
    auto then = situation(last, day);
    if (!then) return fail(then.error());
    return find_task_on(**then, key);
}

/// The task as it stands, if it is still what whoever tapped it saw.
Result<Task> Keeper::find_task(const Tap& tap, const Now& now) const {
    const auto today = situation(now.today);
    if (!today) return fail(today.error());
    const auto task = find_task_on(**today, tap.key);
    if (!tap.seen || *tap.seen == (*today)->entry()) return task;
    const auto seen = task_seen(*tap.seen, tap.key, now.today);
    if (!seen && !task) return task;
    const bool was_open = seen && seen->state == TaskState::open;
    if (!task || !was_open || !same_work(*seen, *task))
        return fail(not_as_seen(seen ? &*seen : nullptr, task ? &*task : nullptr, tap.key));
    return task;
}

/// The entry that made the task what it is; nullopt while it is open.
Result<std::optional<Entry>> Keeper::mark_of(const std::string& key, const Now& now) const {
    const auto situated = situation(now.today);
    if (!situated) return fail(situated.error());
    const records::Collection& today = (*situated)->collection();
    const auto done = today.done.find(key);
    const auto skipped = today.skipped.find(key);
    const FactId id = done != today.done.end()         ? done->second.entry
                      : skipped != today.skipped.end() ? skipped->second.entry
                                                       : 0;
    const Entry* const mark = find_entry((*situated)->journal(), id);
    return mark == nullptr ? std::optional<Entry>() : *mark;
}

/// The mark and what was recorded with it, newest first, in force or not.
Result<std::vector<Entry>> Keeper::written_together(const Entry& mark) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    const auto request = file_.request_of(mark.id);
    if (!request) return fail(request.error());
    std::vector<Entry> together;
    for (auto entry = entries->rbegin(); entry != entries->rend(); ++entry) {
        if (entry->id > mark.id) continue;
        if (entry->id < mark.id && (records::is_mark(*entry) || entry->recorded_at != mark.recorded_at))
            break;
        const auto of = file_.request_of(entry->id);
        if (!of) return fail(of.error());
        if (*of != *request) break;
        if (!std::holds_alternative<records::Withdrawn>(entry->fact)) together.push_back(*entry);
    }
    return together;
}

/// What of that is in force, or what took its place since, newest first.
Result<std::vector<Entry>> Keeper::written_with(const Entry& mark) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    const auto together = written_together(mark);
    if (!together) return fail(together.error());
    std::vector<Entry> in_force;
    for (const Entry& entry : *together) {
        const Entry* last = &entry;
        while (const Entry* const later = records::corrected_by(*entries, last->id)) last = later;
        if (!std::holds_alternative<records::Withdrawn>(last->fact)) in_force.push_back(*last);
    }
    std::sort(in_force.begin(), in_force.end(), [](const Entry& a, const Entry& b) { return a.id > b.id; });
    return in_force;
}

Result<Ticked> Keeper::ticked(const Entry& mark, bool already) const {
    const auto together = written_with(mark);
    if (!together) return fail(together.error());
    const auto last = last_entry();
    if (!last) return fail(last.error());
    return Ticked{state_of(mark), already, ids_of(*together), mark.recorded_at, *last};
}

/// A check that is done and was answered with something else: neither answer may be lost unsaid.
std::optional<Error> Keeper::answers_otherwise(const Entry& mark, const Tap& tap) const {
    if (!tap.answer || state_of(mark) != TaskState::done) return std::nullopt;
    const auto together = written_with(mark);
    if (!together) return together.error();
    const records::Checked* const known = answer_in(*together);
    const bool same = known != nullptr && known->count == tap.answer->count &&
                      (!known->where || known->where == tap.answer->where);
    return same ? std::nullopt : std::optional(answered_otherwise(mark, tap.key));
}

/// A task that is done, by somebody who may have done other work, or the same on another day: what two people
/// gave an animal may never count as given once.
std::optional<Error> Keeper::did_other_work(const Entry& mark, const Tap& tap, const Now& now) const {
    if (!tap.seen || state_of(mark) != TaskState::done) return std::nullopt;
    const units::Day day = tap.day.value_or(now.today);
    const auto seen = task_seen(*tap.seen, tap.key, day);
    if (!seen || seen->state != TaskState::open || seen->kind != worklist::TaskKind::treat)
        return std::nullopt;
    const auto together = written_together(mark);
    if (!together) return together.error();
    const std::vector<records::Fact> meant = worklist::facts_of(*seen, {});
    const bool same =
        mark.day == day && std::all_of(meant.begin(), meant.end(), [&](const records::Fact& fact) {
            return std::any_of(together->begin(), together->end(),
                               [&](const Entry& entry) { return entry.fact == fact; });
        });
    return same ? std::nullopt : std::optional(done_otherwise(mark, words::say(seen->what), tap.key));
}

Result<Ticked> Keeper::settle(const Tap& tap, TaskState wanted, const std::string& reason, const Now& now) {
    return alone([&]() -> Result<Ticked> {
        const auto last = last_entry();
        if (!last) return fail(last.error());
        if (tap.seen.value_or(0) > *last) return fail(still_to_come(*tap.seen, *last));
        const auto mark = mark_of(tap.key, now);
        if (!mark) return fail(mark.error());
        if (*mark && state_of(**mark) == wanted) {
            if (const auto fault = answers_otherwise(**mark, tap)) return fail(*fault);
            if (const auto fault = did_other_work(**mark, tap, now)) return fail(*fault);
            return ticked(**mark, true);
        }
        if (*mark) return fail(settled_otherwise(**mark, state_of(**mark), tap.key));
        const Now then{tap.day.value_or(now.today), now.instant};
        const auto task = find_task(tap, then);
        if (!task) return fail(task.error());
        std::vector<records::Fact> facts;
        if (wanted == TaskState::done) {
            if (const auto fault = misfit(tap, *task)) return fail(*fault);
            facts = worklist::facts_of(*task, tap.answer);
        }
        if (wanted == TaskState::done)
            facts.emplace_back(records::TaskDone{tap.key, tap.by});
        else
            facts.emplace_back(records::TaskSkipped{tap.key, reason, tap.by});
        const auto ids = record(facts, then.today, then);
        if (!ids) return fail(ids.error());
        return Ticked{wanted, false, *ids, now.instant, ids->back()};
    });
}

Result<Ticked> Keeper::tick(const Tap& tap, const Now& now) { return settle(tap, TaskState::done, {}, now); }

Result<Ticked> Keeper::skip(const Tap& tap, const std::string& reason, const Now& now) {
    return settle(tap, TaskState::skipped, reason, now);
}

/// nullopt: the request that is named made no mark.
Result<std::optional<Entry>> Keeper::mark_to_take_back(const TakeBack& asked) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    if (!asked.of.empty()) {
        const auto written = file_.entries_of(asked.of);
        if (!written) return fail(written.error());
        for (const FactId id : *written) {
            const Entry* const entry = find_entry(*entries, id);
            if (entry != nullptr && records::is_mark(*entry) && key_of(*entry) == asked.key) return *entry;
        }
        return std::optional<Entry>();
    }
    const Entry* const mark = find_entry(*entries, asked.entry.value_or(0));
    if (mark == nullptr || !records::is_mark(*mark) || key_of(*mark) != asked.key)
        return fail(not_settled(asked.key, fmt::format("entry {}", asked.entry.value_or(0))));
    return *mark;
}

Result<Ticked> Keeper::reopened_before(const Entry& mark, const Now& now) const {
    const auto standing = mark_of(key_of(mark), now);
    if (!standing) return fail(standing.error());
    if (*standing) return ticked(**standing, true);
    const Entry* const by = records::corrected_by(read_, mark.id);
    return Ticked{
        TaskState::open, true, {}, by == nullptr ? std::string() : by->recorded_at, read_.back().id};
}

/// The request that is named never came, or found the task as it wished it.
Result<Ticked> Keeper::made_no_mark(const TakeBack& asked, const Now& now) {
    if (const auto kept = forestall(asked.of); !kept) return fail(kept.error());
    const auto standing = mark_of(asked.key, now);
    if (!standing) return fail(standing.error());
    if (*standing) return ticked(**standing, true);
    return Ticked{TaskState::open, true, {}, {}, read_.empty() ? 0 : read_.back().id};
}

Result<Ticked> Keeper::reopen(const TakeBack& asked, const Now& now) {
    return alone([&]() -> Result<Ticked> {
        const auto in_force = mark_of(asked.key, now);
        if (!in_force) return fail(in_force.error());
        const bool is_named = asked.entry || !asked.of.empty();
        if (!is_named && !*in_force) return fail(not_settled(asked.key, {}));
        const auto mark = is_named ? mark_to_take_back(asked) : in_force;
        if (!mark) return fail(mark.error());
        if (!*mark) return made_no_mark(asked, now);
        if (records::corrected_by(read_, (*mark)->id) != nullptr) return reopened_before(**mark, now);
        auto together = written_with(**mark);
        if (!together) return fail(together.error());
        const auto taken = take_back(read_, *together, {}, now, PutRight::goes_too);
        if (!taken) return fail(taken.error());
        const auto left = mark_of(asked.key, now);
        if (!left) return fail(left.error());
        return Ticked{*left ? state_of(**left) : TaskState::open, false, ids_of(*taken), now.instant,
                      read_.back().id};
    });
}

}  // namespace mitefall::service
