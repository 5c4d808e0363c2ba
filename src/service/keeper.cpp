#include "service/keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "records/limits.h"
#include "safety/acknowledged.h"
#include "safety/cautions.h"
#include "service/adoption.h"
#include "service/clearance.h"
#include "service/mixing.h"
#include "service/of_journal.h"
#include "service/undo_text.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::service {
namespace {

using base::Error;
using base::ErrorKind;
using base::fail;
using base::Result;
using records::Collection;
using records::EnclosureId;
using records::Entry;

/// Enclosures with at least this chance on their best path count as exposed (assumption E1, docs/model.md).
constexpr double exposed_from = 0.02;

std::set<EnclosureId> exposed_enclosures(const exposure::Tracing& tracing) {
    std::set<EnclosureId> exposed;
    for (const exposure::Exposed& row : tracing.exposed) {
        if (!row.sighted && row.chance >= exposed_from) exposed.insert(row.enclosure);
    }
    return exposed;
}

Error no_plan() {
    return {ErrorKind::not_found, "no plan has been adopted", {}, {}, "look at the plans and adopt one", {}};
}

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

Error recorded_since(records::FactId seen, records::FactId last) {
    return {ErrorKind::conflict,
            "something was recorded since: what was last then is not what is last now",
            fmt::format("seen up to entry {}", seen),
            fmt::format("the journal goes up to {}", last),
            "look at the journal again and withdraw the entry you mean",
            "seen"};
}

records::PlanAdopted adoption_of(const plan::ScoredPlan& plan, units::Strength strength) {
    const plan::Assignment& assignment = plan.schedule.assignment;
    return {assignment.rounds,       assignment.enclosures,
            assignment.rooms,        assignment.change_substrate,
            assignment.keep_damp,    strength,
            assignment.soak_animals, terms_of(std::string(plan::to_text(plan.course.scope)), plan.schedule)};
}

Result<void> check_limits(const plan::Limits& limits, const Collection& today) {
    for (const EnclosureId& id : limits.only) {
        if (today.enclosures.contains(id)) continue;
        return fail({ErrorKind::not_found,
                     "there is no enclosure of that name",
                     id.text(),
                     {},
                     "look it up among the enclosures",
                     {}});
    }
    if (limits.free_days.none())
        return fail(
            base::invalid("no day of the week is free", {}, "at least one", "name the days you have"));
    return {};
}

/// Where the mites of the outbreak at hand were seen may be longer ago than contacts are traced; what was
/// reached is then told as it stood on the last day that still looked back to the sighting.
Result<exposure::Tracing> trace_sightings(const std::vector<Entry>& journal, const Collection& today,
                                          const evidence::Tables& tables) {
    const auto seen = scenario::last_seen(today, tables.time("look_back").value);
    if (seen) return exposure::trace(journal, tables, seen->enclosures, seen->reaches);
    const auto& all = today.sightings;
    return fail(
        {ErrorKind::not_found,
         all.empty() ? "no mite has been reported"
                     : "the last mites were reported on " + units::show_day(all.back().day) +
                           ", too long ago to plan from",
         {},
         {},
         "record what you saw as a sighting; where the mites came from tells whether some may be there all "
         "the same",
         {}});
}

/// What is on record of mites and what was done about them.
Result<scenario::RecordedCase> recorded_case(const std::vector<Entry>& journal, const Knowledge& knowledge,
                                             const Now& now) {
    return scenario::case_from_records(journal, now.today, knowledge.tables.time("look_back").value,
                                       mites::fixed_parameters(knowledge.tables));
}

/// Everything a plan is made for, owned together. `strength`: of the spray.
Planned prepare_setting(Collection today, const Knowledge& knowledge, exposure::Tracing tracing,
                        scenario::RecordedCase known, units::Strength strength) {
    Planned planned;
    planned.collection = std::make_unique<Collection>(std::move(today));
    planned.with = std::make_unique<safety::Case>(
        safety::prepare(*planned.collection, knowledge.tables, knowledge.taxa));
    planned.known = std::make_unique<scenario::RecordedCase>(std::move(known));
    planned.tracing = std::move(tracing);
    planned.setting.reset(new plan::Setting{*planned.with, *planned.known,
                                            exposed_enclosures(planned.tracing), planned.collection->day,
                                            strength});
    return planned;
}

/// The same from records with a sighting.
Result<Planned> gather(const std::vector<Entry>& journal, Collection today, const Knowledge& knowledge,
                       units::Strength strength, const Now& now) {
    auto tracing = trace_sightings(journal, today, knowledge.tables);
    if (!tracing) return fail(tracing.error());
    auto known = recorded_case(journal, knowledge, now);
    if (!known) return fail(known.error());
    return prepare_setting(std::move(today), knowledge, std::move(*tracing), std::move(*known), strength);
}

}  // namespace

Error cancelled() { return {ErrorKind::conflict, "it was cancelled", {}, {}, "ask again", {}}; }

/// A refusal as it is put on record: in the words of the day, under the id of the rule.
records::CourseRefusal refusal_of(const plan::LeftOut& row) {
    const words::Shared shared = words::say_shared(row.why.what);
    return {row.day,
            row.enclosure,
            row.animal,
            row.method,
            records::cut_to_fit(words::say_with_remedy(row.why)),
            std::string(row.why.what.id),
            records::cut_to_fit(shared.common),
            records::cut_to_fit(shared.own),
            records::cut_to_fit(words::say(row.why.remedy))};
}

records::CourseTerms terms_of(std::string scope, const plan::Schedule& schedule) {
    records::CourseTerms terms;
    terms.scope = std::move(scope);
    for (const plan::Round& round : schedule.rounds) {
        for (const auto& [key, treatment] : round.treatments) {
            terms.treatments.push_back({key, round.planned, round.day, treatment.room(),
                                        treatment.enclosure(), treatment.animals(), treatment.method()});
        }
    }
    for (const plan::LeftOut& row : schedule.left_out) terms.left_out.push_back(refusal_of(row));
    return terms;
}

belief::Belief belief_of(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                         const Knowledge& knowledge, std::uint64_t seed) {
    return belief::believe_records(known, ensemble, belief::introduction_prior(knowledge.tables), seed);
}

Result<Knowledge> Knowledge::load() {
    auto tables = evidence::Tables::load_embedded();
    if (!tables) return fail(tables.error());
    auto taxa = evidence::Taxa::load_embedded();
    if (!taxa) return fail(taxa.error());
    return Knowledge{std::move(*tables), std::move(*taxa)};
}

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
    const auto end = std::find_if(news->entries.begin(), news->entries.end(),
                                  [&](const Entry& entry) { return last_read_ && entry.id > *last_read_; });
    std::move(news->entries.begin(), end, std::back_inserter(read_));
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
    read_.erase(read_.begin() + static_cast<std::ptrdiff_t>(count), read_.end());
    std::erase_if(unreadable_, [&](const auto& one) { return read_.empty() || one.first > read_.back().id; });
    // What is left was read once and fitted then.
    if (auto found = records::set_aside(read_, unreadable_)) set_aside_ = std::move(*found);
}

std::vector<Entry> Keeper::seen_up_to(records::FactId seen) const {
    std::vector<Entry> then(read_.begin(), std::find_if(read_.begin(), read_.end(),
                                                        [&](const Entry& entry) { return entry.id > seen; }));
    // What fits now may not have fitted before a later entry told of an earlier day.
    if (!records::set_aside(then, unreadable_)) then.clear();
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

Result<Collection> Keeper::collection(units::Day day) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    return records::collection_on(*entries, day);
}

Result<std::vector<records::FactId>> Keeper::record(const std::vector<records::Fact>& facts, units::Day day,
                                                    const Now& now) {
    std::vector<DatedFact> dated;
    for (const records::Fact& fact : facts) dated.push_back({day, fact});
    return record_all(dated, now);
}

Result<void> Keeper::would_accept(const std::vector<DatedFact>& facts, const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    std::vector<Entry> added;
    for (const DatedFact& fact : facts) added.push_back({0, fact.day, now.instant, fact.fact, fact.corrects});
    return records::check_facts(*entries, added, now.today);
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
    const std::string why =
        reason.empty() ? undo_of(meant, records::collection_on(journal, now.today)) : reason;
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

Result<exposure::Tracing> Keeper::exposure(const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    return trace_sightings(*entries, records::collection_on(*entries, now.today), knowledge_->tables);
}

Result<Origin> Keeper::origin(std::size_t draws, std::uint64_t seed, const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    Collection today = records::collection_on(*entries, now.today);
    if (today.enclosures.empty()) {
        return fail({ErrorKind::not_found,
                     "no enclosure is on record yet",
                     {},
                     {},
                     "begin with a room and an enclosure",
                     {}});
    }
    auto known = recorded_case(*entries, *knowledge_, now);
    if (!known) return fail(known.error());
    const auto ensemble = mites::draw_parameters(knowledge_->tables, draws, seed);
    auto belief = belief_of(*known, ensemble, *knowledge_, seed);
    return Origin{std::move(*known), std::move(belief), std::move(today)};
}

Result<std::vector<safety::Verdict>> Keeper::verdicts(units::Strength strength, const Now& now) const {
    auto today = collection(now.today);
    if (!today) return fail(today.error());
    return safety::judge_all(*today, strength, now.today, knowledge_->tables, knowledge_->taxa, {});
}

Result<std::vector<worklist::MistOnAnimal>> Keeper::mists(units::Strength strength, const Now& now) const {
    const auto today = collection(now.today);
    if (!today) return fail(today.error());
    return worklist::mist_on_animals(safety::prepare(*today, knowledge_->tables, knowledge_->taxa), strength,
                                     now.today);
}

Result<worklist::Shopping> Keeper::shopping(const worklist::Bench& bench, const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    Collection today = records::collection_on(*entries, now.today);
    if (!today.plan) return fail(no_plan());
    const units::Strength strength = today.plan->value.strength;
    const Planned planned = prepare_setting(std::move(today), *knowledge_, {}, {}, strength);
    const auto schedule = plan::fit(worklist::assignment_on_record(*planned.collection), *planned.setting);
    return worklist::shop_for(schedule, *planned.setting, bench);
}

Result<records::FactId> Keeper::record_batch(const records::BatchId& batch, const worklist::Bench& bench,
                                             const worklist::MixSheet& sheet, const std::string& steps,
                                             const Now& now) {
    if (!sheet.measured || !sheet.resulting) return fail(not_measured(sheet));
    const mixing::MeasuredStrength& strength = *sheet.resulting;
    const units::Volume stock =
        sheet.measured->first ? sheet.recipe.stock : sheet.measured->measurement.total;
    const records::BatchMade made{
        batch,        "ivermectin",  bench.stock.strength, stock, sheet.recipe.total, strength.nominal,
        strength.low, strength.high, sheet.discard_by,     steps};
    return alone([&]() -> Result<records::FactId> {
        const auto today = collection(now.today);
        if (!today) return fail(today.error());
        if (const auto fault = refuse_unaccepted(sheet, *today, knowledge_->tables)) return fail(*fault);
        const auto ids = record({made}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

units::Strength Keeper::usual_strength() const {
    return knowledge_->tables.strength("published_strength_high").value;
}

units::Strength Keeper::strength_in_use(const Collection& collection) const {
    return collection.plan ? collection.plan->value.strength : usual_strength();
}

Result<std::optional<Planned>> Keeper::choose_plan(const PlanOptions& options, const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    Collection today = records::collection_on(*entries, now.today);
    if (const auto ok = check_limits(options.limits, today); !ok) return fail(ok.error());
    const units::Strength strength = options.strength.value_or(usual_strength());
    auto planned = gather(*entries, std::move(today), *knowledge_, strength, now);
    if (!planned) return fail(planned.error());
    const auto ensemble = mites::draw_parameters(knowledge_->tables, options.draws, options.seed);
    planned->belief = belief_of(*planned->known, ensemble, *knowledge_, options.seed);
    planned->setting->limits = options.limits;
    plan::Goal goal{options.target, options.horizon_days, options.prefer, options.progress};
    auto choice = plan::choose_plan(*planned->setting, ensemble, planned->belief, goal);
    if (!choice) return std::optional<Planned>{};
    planned->choice = std::move(*choice);
    return std::optional<Planned>(std::move(*planned));
}

Result<forecast::Forecast> Keeper::rescore(const PlanOptions& options, const Now& now) const {
    auto planned = situation(now);
    if (!planned) return fail(planned.error());
    return rescore_of(*planned, *knowledge_, options, now);
}

/// The horizon counts from the start of the course, so that a day gone by does not change the question.
double horizon_left(const Collection& collection, const PlanOptions& options, units::Day today) {
    const units::Day began = collection.course_since().value_or(today);
    return std::max(1.0, options.horizon_days - static_cast<double>((today - began).count()));
}

Result<Planned> Keeper::situation(const Now& now) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    return situation_of(*entries, *knowledge_, now);
}

Result<clearance::CollectionAnswer> Keeper::clearance(const ClearanceOptions& options, const Now& now) const {
    const auto planned = situation(now);
    if (!planned) return fail(planned.error());
    return clearance_of(*planned, *knowledge_, options);
}

Result<clearance::NextCheckAnswer> Keeper::next_check(const ClearanceOptions& options, const Now& now) const {
    const auto planned = situation(now);
    if (!planned) return fail(planned.error());
    return next_check_of(*planned, *knowledge_, options);
}

Result<clearance::ReleaseAnswer> Keeper::release(const records::AnimalId& animal,
                                                 const ClearanceOptions& options, const Now& now) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    return release_of(*entries, animal, *knowledge_, options, now.today);
}

Result<records::FactId> Keeper::adopt(const plan::ScoredPlan& plan, units::Strength strength, const Now& now,
                                      std::optional<records::FactId> seen) {
    return alone([&]() -> Result<records::FactId> {
        const auto today = collection(now.today);
        if (!today) return fail(today.error());
        if (seen && today->plan && today->plan->entry > *seen) return fail(adopted_since(*today->plan));
        const auto ids = record({adoption_of(plan, strength)}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

Result<records::DatedValue<records::PlanAdopted>> Keeper::adopted(const Now& now) const {
    const auto today = collection(now.today);
    if (!today) return fail(today.error());
    if (!today->plan) return fail(no_plan());
    return *today->plan;
}

Result<worklist::Worklist> Keeper::worklist(const Now& now) const {
    const auto entries = journal();
    if (!entries) return fail(entries.error());
    return worklist_of(*entries, now, WithLate::yes);
}

Result<worklist::Worklist> Keeper::worklist_of(const std::vector<Entry>& journal, const Now& now,
                                               WithLate with_late) const {
    Collection today = records::collection_on(journal, now.today);
    auto tracing = trace_sightings(journal, today, knowledge_->tables);
    if (!tracing && tracing.error().kind != ErrorKind::not_found) return fail(tracing.error());
    auto known = recorded_case(journal, *knowledge_, now);
    const units::Strength strength = strength_in_use(today);
    const Planned planned =
        prepare_setting(std::move(today), *knowledge_, tracing ? std::move(*tracing) : exposure::Tracing{},
                        known ? std::move(*known) : scenario::RecordedCase{}, strength);
    auto list = worklist::make_worklist(*planned.setting);
    if (!planned.collection->plan && list.tasks.empty() && list.questions.empty()) return fail(no_plan());
    list.entry = journal.empty() ? 0 : journal.back().id;
    if (with_late == WithLate::yes) list.late = late_of(journal, *planned.setting, list);
    return list;
}

Result<worklist::Overview> Keeper::overview(const Now& now) const {
    auto entries = journal();
    if (!entries) return fail(entries.error());
    const Collection today = records::collection_on(*entries, now.today);
    auto tracing = trace_sightings(*entries, today, knowledge_->tables);
    if (!tracing && tracing.error().kind != ErrorKind::not_found) return fail(tracing.error());
    auto list = worklist(now);
    if (!list && list.error().kind != ErrorKind::not_found) return fail(list.error());
    return worklist::look_over(*entries, today, tracing ? *tracing : exposure::Tracing{},
                               list ? *list : worklist::Worklist{}, exposed_from);
}

Result<forecast::Forecast> rescore_of(Planned& planned, const Knowledge& knowledge,
                                      const PlanOptions& options, const Now& now) {
    if (!planned.collection->plan) return fail(no_plan());
    const auto ensemble = mites::draw_parameters(knowledge.tables, options.draws, options.seed);
    const auto schedule = plan::fit(worklist::assignment_on_record(*planned.collection), *planned.setting);
    planned.belief = belief_of(*planned.known, ensemble, knowledge, options.seed);
    const plan::Scorer scorer(*planned.setting, ensemble, planned.belief,
                              horizon_left(*planned.collection, options, now.today), branching::for_show);
    auto scored = scorer.score(schedule, 0, options.progress);
    if (!scored) return fail(cancelled());
    return std::move(*scored);
}

Result<Planned> situation_of(const std::vector<Entry>& journal, const Knowledge& knowledge, const Now& now) {
    Collection today = records::collection_on(journal, now.today);
    const units::Strength strength =
        today.plan ? today.plan->value.strength : knowledge.tables.strength("published_strength_high").value;
    return gather(journal, std::move(today), knowledge, strength, now);
}

std::vector<safety::Caution> spray_cautions(const Knowledge& knowledge) {
    return safety::cautions_for(records::Method::spray_animal, knowledge.tables);
}

worklist::Worklist preview_worklist(const Planned& planned, const plan::ScoredPlan& plan,
                                    const Knowledge& knowledge) {
    Collection collection = *planned.collection;
    collection.plan = {planned.setting->today, 0, adoption_of(plan, planned.setting->strength)};
    collection.course_began.reset();
    const safety::Case with = safety::prepare(collection, knowledge.tables, knowledge.taxa);
    return worklist::make_worklist(
        {with, *planned.known, planned.setting->exposed, planned.setting->today, planned.setting->strength});
}

}  // namespace mitefall::service
