#include <fmt/format.h>

#include <algorithm>

#include "records/limits.h"
#include "service/adoption.h"
#include "service/keeper.h"

// Work of days gone by: what is late, what it does to the chance, and how the course goes on.
namespace mitefall::service {
namespace {

using base::Error;
using base::ErrorKind;
using base::fail;
using base::Result;
using records::Collection;
using records::Entry;
using records::PlanAdopted;
using units::Day;
using worklist::CatchUp;
using worklist::Late;
using worklist::Redated;

Error nothing_late() {
    return {ErrorKind::not_found,
            "no round of the course is late",
            {},
            {},
            "look at today's list: what is due stands there",
            {}};
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

bool is_known_before(const records::CourseTreatment& row, const Redated& course, Day today) {
    const auto& rounds = course.rounds;
    return row.planned < today && std::find(rounds.begin(), rounds.end(), row.planned) != rounds.end();
}

/// The same course on other days. What was decided for the rounds gone by stays on record.
PlanAdopted on_days_of(PlanAdopted plan, const Redated& course) {
    plan.rounds = course.rounds;
    plan.moved = course.moved;
    plan.continues = true;
    return plan;
}

/// The course with its new days, asked of the safety check: the collection as if it were adopted.
struct Outset {
    Collection collection;
    std::unique_ptr<safety::Case> with;
    plan::Schedule schedule;
};

std::unique_ptr<Outset> set_out(const Collection& today, const Redated& course,
                                const scenario::RecordedCase& known, const Knowledge& knowledge) {
    auto outset = std::make_unique<Outset>();
    outset->collection = today;
    Collection& collection = outset->collection;
    collection.course_began = today.course_since();
    collection.plan = {today.day, 0, on_days_of(today.plan->value, course)};
    outset->with =
        std::make_unique<safety::Case>(safety::prepare(collection, knowledge.tables, knowledge.taxa));
    outset->schedule = plan::fit(worklist::assignment_on_record(collection),
                                 {*outset->with, known, {}, collection.day, collection.plan->value.strength});
    return outset;
}

PlanAdopted adoption_of(const Outset& outset, const PlanAdopted& before, const Redated& course) {
    PlanAdopted plan = on_days_of(before, course);
    if (!before.terms.are_known()) return plan;
    const Day today = outset.collection.day;
    records::CourseTerms terms = terms_of(before.terms.scope, outset.schedule);
    std::vector<records::CourseTreatment> treatments;
    for (const records::CourseTreatment& row : before.terms.treatments) {
        if (is_known_before(row, course, today)) treatments.push_back(row);
    }
    treatments.insert(treatments.end(), terms.treatments.begin(), terms.treatments.end());
    std::vector<records::CourseRefusal> left_out;
    for (const records::CourseRefusal& row : before.terms.left_out) {
        if (row.day < today) left_out.push_back(row);
    }
    left_out.insert(left_out.end(), terms.left_out.begin(), terms.left_out.end());
    plan.terms = {before.terms.scope, std::move(treatments), std::move(left_out)};
    return plan;
}

}  // namespace

Late Keeper::late_of(const std::vector<Entry>& journal, const plan::Setting& setting,
                     const worklist::Worklist& list) const {
    std::vector<std::unique_ptr<Collection>> days;
    std::vector<std::unique_ptr<safety::Case>> cases;
    std::map<Day, const safety::Case*> then;
    for (const Day day : worklist::days_in_question(setting.with.collection)) {
        days.push_back(std::make_unique<Collection>(records::collection_on(journal, day)));
        cases.push_back(std::make_unique<safety::Case>(
            safety::prepare(*days.back(), knowledge_->tables, knowledge_->taxa)));
        then[day] = cases.back().get();
    }
    return worklist::late_on(setting, list, then);
}

Result<LateChances> Keeper::late_chances(const PlanOptions& options, const Now& now) const {
    const auto list = worklist(now);
    if (!list) return fail(list.error());
    const Late& late = list->late;
    if (!late.today) return fail(nothing_late());
    auto planned = situation(now);
    if (!planned) return fail(planned.error());
    const auto ensemble = mites::draw_parameters(knowledge_->tables, options.draws, options.seed);
    planned->belief = belief_of(*planned->known, ensemble, *knowledge_, options.seed);
    int begun = 0;
    const auto share = [&](double done) { return !options.progress || options.progress((begun + done) / 3); };
    const auto score = [&](const std::optional<Redated>& course) -> std::optional<base::Band> {
        const auto outset = set_out(*planned->collection, *course, *planned->known, *knowledge_);
        const plan::Setting setting{*outset->with, *planned->known, planned->setting->exposed, now.today,
                                    planned->setting->strength};
        const plan::Scorer scorer(setting, ensemble, planned->belief,
                                  horizon_left(*planned->collection, options, now.today),
                                  branching::for_show);
        const auto scored = scorer.score(outset->schedule, 0, share);
        return scored ? std::optional(scored->clear) : std::nullopt;
    };
    LateChances chances;
    chances.stood_on = late.rounds.front().planned;
    PlanOptions then = options;
    then.progress = share;
    if (const auto stood = rescore(then, {chances.stood_on, now.instant})) chances.stood = stood->clear;
    begun = 1;
    const auto today = score(late.today);
    if (!today) return fail(cancelled());
    chances.today = *today;
    begun = 2;
    if (!late.move) return chances;
    chances.move = score(late.move);
    if (!chances.move) return fail(cancelled());
    return chances;
}

Result<records::FactId> Keeper::catch_up(CatchUp how, const Now& now, std::optional<records::FactId> seen) {
    return alone([&]() -> Result<records::FactId> {
        const auto entries = journal();
        if (!entries) return fail(entries.error());
        const auto list = worklist_of(*entries, now, WithLate::yes);
        if (!list) return fail(list.error());
        if (seen && *seen != list->entry) {
            const auto shown = worklist_of(seen_up_to(*seen), now, WithLate::yes);
            if (!shown || !(shown->late.by(how) == list->late.by(how))) return fail(late_otherwise(*seen));
        }
        if (!list->late.today) return fail(nothing_late());
        const std::optional<Redated>& course = list->late.by(how);
        if (!course) return fail(nothing_to_move());
        const Collection today = records::collection_on(*entries, now.today);
        const auto outset = set_out(today, *course, {}, *knowledge_);
        const auto ids = record({adoption_of(*outset, today.plan->value, *course)}, now.today, now);
        if (!ids) return fail(ids.error());
        return ids->front();
    });
}

}  // namespace mitefall::service
