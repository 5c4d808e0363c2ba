#include "service/keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "records/limits.h"
#include "safety/acknowledged.h"
#include "service/adopted.h"
#include "service/late.h"
#include "service/mixing.h"
#include "service/why_days.h"
#include "service/worklist.h"
#include "units/text.h"
#include "words/undo.h"

namespace mitefall::service {
namespace {

using records::Collection;
using records::Entry;

/// Withdrawing a correction would not bring back what it replaced, and a wrong weight can harm an animal.
Error cannot_undo_correction(const Entry& entry) {
    return {ErrorKind::conflict,
            fmt::format("entry {} corrects entry {}: taking it back would leave neither in force", entry.id,
                        *entry.corrects),
            {},
            {},
            fmt::format("record what is right as a correction of entry {}", entry.id),
            {}};
}

Error no_entry(records::FactId id) {
    return {ErrorKind::not_found,        "there is no entry of that number",
            fmt::format("{}", id),       {},
            "look it up in the journal", {}};
}

Error not_measured(const worklist::MixSheet& sheet) {
    return base::invalid("the batch cannot be measured with the tools at hand",
                         units::show(sheet.recipe.stock, {}) + " of stock", sheet.cannot_measure,
                         "give the tools you have, or mix a larger batch");
}

/// A batch above everything published is made only for an animal or place it may be used on.
std::optional<Error> refuse_unaccepted(const worklist::MixSheet& sheet, const Collection& collection,
                                       const evidence::Tables& tables) {
    const units::Strength strength = sheet.recipe.strength;
    const units::Strength strongest = sheet.resulting ? std::max(strength, sheet.resulting->high) : strength;
    if (safety::is_beyond_practice(strongest, tables)) return beyond_practice(strongest, tables);
    if (safety::may_be_made(collection, strength, collection.day, tables)) return std::nullopt;
    return Error{
        ErrorKind::refused,
        fmt::format("{} is {} times the strongest published spray, and nobody has acknowledged it for any "
                    "animal",
                    units::show(strength), units::show_number(sheet.comparison.multiple, 3)),
        {},
        fmt::format("at most {}", units::show(sheet.comparison.limit)),
        fmt::format("mix it weaker, or read what the verdicts say of {0} and put on record for which animal "
                    "you accept it (record acknowledgement \"{0}\" --animal NAME)",
                    units::show(strength)),
        {}};
}

/// What was recorded last, newest first: of one instant and one request.
Result<std::vector<Entry>> recorded_last(const std::vector<Entry>& journal, store::CollectionFile& file) {
    std::set<records::FactId> corrected;
    for (const Entry& entry : journal) {
        if (entry.corrects && !entry.set_aside) corrected.insert(*entry.corrects);
    }
    std::vector<Entry> last;
    std::string request;
    for (auto entry = journal.rbegin(); entry != journal.rend(); ++entry) {
        const bool counts = !entry->set_aside && !std::holds_alternative<records::Withdrawn>(entry->fact);
        if (!counts || corrected.contains(entry->id)) continue;
        if (!last.empty() && entry->recorded_at != last.front().recorded_at) break;
        const auto of = file.request_of(entry->id);
        if (!of) return fail(of.error());
        if (!last.empty() && *of != request) break;
        request = *of;
        last.push_back(*entry);
    }
    return last;
}

Error adopted_since(const records::DatedValue<records::PlanAdopted>& plan) {
    return {ErrorKind::conflict,
            "another plan was adopted since this one was worked out",
            fmt::format("entry {}, {}", plan.entry, units::format_day(plan.day)),
            {},
            "look at the plan that is adopted; work the plans out again if it is not the one to follow",
            "job"};
}

/// What is adopted was worked out up to entry `seen`; a plan adopted later is not known to its reader.
std::optional<Error> refuse_unseen(const Situation& today, std::optional<records::FactId> seen) {
    const auto& standing = today.collection().plan;
    if (seen && standing && standing->entry > *seen) return adopted_since(*standing);
    return std::nullopt;
}

Error recorded_since(records::FactId seen, records::FactId last) {
    return {ErrorKind::conflict,
            "something was recorded since: what was last then is not what is last now",
            fmt::format("seen up to entry {}", seen),
            fmt::format("the journal goes up to {}", last),
            "look at the journal again and withdraw the entry you mean",
            "seen"};
}

/// The last round alone has nothing after it that could move.
Error nothing_to_move() {
    return {ErrorKind::not_found,
            "no round comes after the late one",
            {},
            {},
            "do it today: there is nothing to move",
            {}};
}

Error late_otherwise(records::FactId seen) {
    return {ErrorKind::conflict,
            "what is late is no longer what it was when the list was shown",
            fmt::format("seen up to entry {}", seen),
            {},
            "look at the list again",
            "seen"};
}

}  // namespace

Result<Keeper> Keeper::create(const std::string& path, const Knowledge& knowledge) {
    auto file = store::CollectionFile::create(path);
    if (!file) return fail(file.error());
    return Keeper(std::move(*file), knowledge);
}

Result<Keeper> Keeper::open(const std::string& path, const Knowledge& knowledge) {
    auto file = store::CollectionFile::open(path);
    if (!file) return fail(file.error());
    return Keeper(std::move(*file), knowledge);
}

Result<void> Keeper::read_news() const {
    auto news = file_.rows(read_.empty() ? store::before_all : read_.back().id);
    if (!news) return fail(news.error());
    if (news->entries.empty()) return {};
    const std::size_t known = read_.size();
    std::move(news->entries.begin(), news->entries.end(), std::back_inserter(read_));
    for (auto& [entry, why] : news->unreadable) unreadable_.emplace(entry, std::move(why));
    auto found = records::set_aside(read_, unreadable_);
    if (!found) {
        forget(known);
        return fail(found.error());
    }
    set_aside_ = std::move(*found);
    return {};
}

void Keeper::forget(std::size_t count) const {
    if (read_.size() <= count) return;
    situation_.reset();  // other entries may get the same numbers
    read_.erase(read_.begin() + static_cast<std::ptrdiff_t>(count), read_.end());
    std::erase_if(unreadable_, [&](const auto& one) { return read_.empty() || one.first > read_.back().id; });
    // What is left was read once and fitted then.
    if (auto found = records::set_aside(read_, unreadable_)) set_aside_ = std::move(*found);
}

Result<std::vector<Entry>> Keeper::journal_up_to(records::FactId last) const {
    std::vector<Entry> then(read_.begin(), std::find_if(read_.begin(), read_.end(),
                                                        [&](const Entry& entry) { return entry.id > last; }));
    // What fits now may not have fitted before a later entry told of an earlier day.
    if (const auto found = records::set_aside(then, unreadable_); !found) return fail(found.error());
    return then;
}

Result<std::vector<Entry>> Keeper::journal() const {
    if (const auto ok = read_news(); !ok) return fail(ok.error());
    return read_;
}

Result<std::vector<records::SetAside>> Keeper::damage() const {
    if (const auto ok = read_news(); !ok) return fail(ok.error());
    return set_aside_;
}

Result<records::FactId> Keeper::last_entry() const {
    if (const auto ok = read_news(); !ok) return fail(ok.error());
    return last_read();
}

Result<std::shared_ptr<const Situation>> Keeper::situation(units::Day day) const {
    if (const auto ok = read_news(); !ok) return fail(ok.error());
    if (!situation_ || situation_->entry() != last_read())
        situation_ = Situation::of(read_, day, *knowledge_);
    else if (situation_->today() != day)
        situation_ = situation_->on(day);
    return situation_;
}

Result<std::shared_ptr<const Situation>> Keeper::situation(records::FactId last, units::Day day) const {
    if (const auto ok = read_news(); !ok) return fail(ok.error());
    if (last == last_read()) return situation(day);
    auto then = journal_up_to(last);
    if (!then) return fail(then.error());
    return Situation::of(std::move(*then), day, *knowledge_);
}

Result<Collection> Keeper::collection(units::Day day) const {
    const auto then = situation(day);
    if (!then) return fail(then.error());
    return (*then)->collection();
}

Result<void> check_together(const std::vector<Entry>& journal, const std::vector<DatedFact>& facts,
                            const Now& now) {
    std::vector<Entry> added;
    for (const DatedFact& fact : facts) added.push_back({0, fact.day, now.instant, fact.fact, fact.corrects});
    return records::check_facts(journal, added, now.today);
}

Result<std::vector<records::FactId>> Keeper::record(const std::vector<records::Fact>& facts, units::Day day,
                                                    const Now& now) {
    std::vector<DatedFact> dated;
    for (const records::Fact& fact : facts) dated.push_back({day, fact});
    return record_all(dated, now);
}

Result<void> Keeper::would_accept(const std::vector<DatedFact>& facts, const Now& now) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    return check_together(*entries, facts, now);
}

Result<std::vector<records::FactId>> Keeper::record_all(const std::vector<DatedFact>& facts, const Now& now) {
    return alone([&]() -> Result<std::vector<records::FactId>> {
        if (const auto ok = would_accept(facts, now); !ok) return fail(ok.error());
        std::vector<store::NewEntry> rows;
        for (const DatedFact& fact : facts) rows.push_back(row(fact.day, now, fact.fact, fact.corrects));
        return file_.append_all(rows);
    });
}

store::NewEntry Keeper::row(units::Day day, const Now& now, records::Fact fact,
                            std::optional<records::FactId> corrects) const {
    return {day, now.instant, std::move(fact), corrects, request_};
}

Result<records::FactId> Keeper::correct(records::FactId entry, const records::Fact& fact, units::Day day,
                                        const Now& now) {
    const auto ids = record_all({{day, fact, entry}}, now);
    return ids ? Result<records::FactId>(ids->front()) : fail(ids.error());
}

Result<std::vector<Entry>> Keeper::undo(const Now& now, std::optional<records::FactId> seen) {
    return alone([&]() -> Result<std::vector<Entry>> {
        const auto entries = journal();
        if (!entries) return fail(entries.error());
        const records::FactId last = entries->empty() ? 0 : entries->back().id;
        if (seen && *seen != last) return fail(recorded_since(*seen, last));
        auto undone = recorded_last(*entries, file_);
        if (!undone) return fail(undone.error());
        if (undone->empty()) return fail({ErrorKind::not_found, "there is nothing to undo", {}, {}, {}, {}});
        return take_back(*entries, std::move(*undone), {}, now);
    });
}

Result<std::vector<Entry>> Keeper::withdraw(const std::vector<records::FactId>& ids,
                                            const std::string& reason, const Now& now) {
    return alone([&]() -> Result<std::vector<Entry>> {
        const auto entries = journal();
        if (!entries) return fail(entries.error());
        std::vector<Entry> meant;
        for (const records::FactId id : ids) {
            const auto entry =
                std::find_if(entries->begin(), entries->end(), [&](const Entry& e) { return e.id == id; });
            if (entry == entries->end()) return fail(no_entry(id));
            meant.push_back(*entry);
        }
        std::sort(meant.begin(), meant.end(), [](const Entry& a, const Entry& b) { return a.id > b.id; });
        return take_back(*entries, std::move(meant), reason, now);
    });
}

Result<std::vector<Entry>> Keeper::take_back(const std::vector<Entry>& journal, std::vector<Entry> meant,
                                             const std::string& reason, const Now& now, PutRight put_right) {
    std::string why = reason;
    if (why.empty()) {
        const auto today = situation(now.today);
        if (!today) return fail(today.error());
        why = words::undo_of(meant, (*today)->collection());
    }
    std::vector<Entry> withdrawals;
    std::vector<store::NewEntry> rows;
    for (const Entry& entry : meant) {
        if (entry.corrects && !entry.set_aside && put_right == PutRight::stays)
            return fail(cannot_undo_correction(entry));
        // The day of an entry that is set aside may be what is wrong with it.
        const units::Day day = entry.set_aside ? now.today : entry.day;
        withdrawals.push_back({0, day, now.instant, records::Withdrawn{why}, entry.id});
        rows.push_back(row(day, now, records::Withdrawn{why}, entry.id));
    }
    if (const auto ok = records::check_facts(journal, withdrawals, now.today); !ok) return fail(ok.error());
    if (const auto ids = file_.append_all(rows); !ids) return fail(ids.error());
    return meant;
}

Result<void> Keeper::copy_to(const std::string& path) const { return file_.copy_to(path); }
Result<std::string> Keeper::copy() const { return file_.copy(); }

Result<records::FactId> Keeper::record_batch(const records::BatchId& batch, const worklist::Bench& bench,
                                             const worklist::MixSheet& sheet, const std::string& steps,
                                             const Now& now) {
    if (!sheet.measured || !sheet.resulting) return fail(not_measured(sheet));
    const mixing::MeasuredStrength& strength = *sheet.resulting;
    const units::Volume stock =
        sheet.measured->first ? sheet.recipe.stock : sheet.measured->measurement.total;
    const records::BatchMade made{
        batch,        "ivermectin",  bench.stock.strength, stock, sheet.recipe.total, strength.nominal,
        strength.low, strength.high, sheet.discard_by,     steps, bench.from};
    return alone([&]() -> Result<records::FactId> {
        const auto today = situation(now.today);
        if (!today) return fail(today.error());
        if (const auto fault = refuse_unaccepted(sheet, (*today)->collection(), knowledge_->tables))
            return fail(*fault);
        const auto ids = record({made}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

Result<records::FactId> Keeper::put_to_days(const std::vector<units::Day>& days, const Now& now,
                                            std::optional<records::FactId> seen) {
    return alone([&]() -> Result<records::FactId> {
        const auto today = situation(now.today);
        if (!today) return fail(today.error());
        if (const auto fault = refuse_unseen(**today, seen)) return fail(*fault);
        const auto course = adopted_on(**today, days);
        if (!course) return fail(course.error());
        const auto ids = record({put_to_other_days(**today, *course)}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

Result<records::FactId> Keeper::adopt(const plan::ScoredPlan& plan, units::Strength strength, const Now& now,
                                      std::optional<records::FactId> seen) {
    return alone([&]() -> Result<records::FactId> {
        const auto today = situation(now.today);
        if (!today) return fail(today.error());
        if (const auto fault = refuse_unseen(**today, seen)) return fail(*fault);
        std::vector<records::Fact> facts;
        for (auto& tub : tubs_to_add(plan.schedule.assignment.choices, (*today)->collection()))
            facts.emplace_back(std::move(tub));
        facts.emplace_back(adoption_of(plan, strength));
        const auto ids = record(facts, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->back();
    });
}

Result<records::FactId> Keeper::catch_up(worklist::CatchUp how, const Now& now,
                                         std::optional<records::FactId> seen) {
    return alone([&]() -> Result<records::FactId> {
        const auto today = situation(now.today);
        if (!today) return fail(today.error());
        const auto list = worklist_of(**today);
        if (!list) return fail(list.error());
        if (seen && *seen != list->entry) {
            const auto then = journal_up_to(*seen);
            if (!then) return fail(late_otherwise(*seen));
            const auto shown = worklist_of(*Situation::of(*then, now.today, *knowledge_));
            if (!shown || !(shown->late.by(how) == list->late.by(how))) return fail(late_otherwise(*seen));
        }
        if (!list->late.today) return fail(nothing_late());
        const std::optional<worklist::Redated>& course = list->late.by(how);
        if (!course) return fail(nothing_to_move());
        const auto ids = record({put_to_other_days(**today, *course)}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

}  // namespace mitefall::service
