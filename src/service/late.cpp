#include "service/late.h"

#include <algorithm>

#include "plan/search.h"
#include "service/adopted.h"
#include "service/rescore.h"
#include "service/worklist.h"

namespace mitefall::service {
namespace {

using records::Collection;
using records::PlanAdopted;
using units::Day;
using worklist::Redated;

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
class Outset {
  public:
    Outset(const Situation& situation, const Redated& course)
        : collection_(with_course(situation.collection(), course)),
          with_(safety::prepare(collection_, situation.knowledge().tables, situation.knowledge().taxa)) {}
    Outset(const Outset&) = delete;
    Outset& operator=(const Outset&) = delete;

    /// `of_today`: the setting as the course stands; it outlives what is given.
    [[nodiscard]] plan::Setting setting(const plan::Setting& of_today) const {
        return {with_, of_today.known, of_today.exposed, of_today.today, of_today.strength};
    }
    [[nodiscard]] plan::Schedule schedule(const plan::Setting& of_today) const {
        return plan::fit(worklist::assignment_on_record(collection_),
                         {with_, of_today.known, {}, of_today.today, of_today.strength});
    }

  private:
    [[nodiscard]] static Collection with_course(Collection today, const Redated& course) {
        today.course_began = today.course_since();
        today.plan = {today.day, 0, on_days_of(today.plan->value, course)};
        return today;
    }

    Collection collection_;
    safety::Case with_;
};

}  // namespace

base::Error nothing_late() {
    return {base::ErrorKind::not_found,
            "no round of the course is late",
            {},
            {},
            "look at today's list: what is due stands there",
            {}};
}

PlanAdopted put_to_other_days(const Situation& situation, const Redated& course) {
    const PlanAdopted& before = situation.collection().plan->value;
    PlanAdopted plan = on_days_of(before, course);
    if (!before.terms.are_known()) return plan;
    const Day today = situation.today();
    const Outset outset(situation, course);
    records::CourseTerms terms =
        terms_of(before.terms.scope, outset.schedule(situation.setting_of_treatment()));
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

Result<LateChances> late_chances_of(const Situation& situation, const PlanOptions& options) {
    const auto& list = work_of(situation);
    if (!list) return fail(list.error());
    const worklist::Late& late = list->late;
    if (!late.today) return fail(nothing_late());
    const auto setting = situation.setting_of_course();
    if (!setting) return fail(setting.error());
    int begun = 0;
    const auto share = [&](double done) { return !options.progress || options.progress((begun + done) / 3); };
    const auto believed = situation.believed({options.draws, options.seed}, share);
    if (!believed) return fail(believed.error());
    const auto score = [&](const std::optional<Redated>& course) -> std::optional<base::Band> {
        const Outset outset(situation, *course);
        const plan::Setting then = outset.setting(*setting);
        const plan::Scorer scorer(then, (*believed)->ensemble, (*believed)->belief,
                                  horizon_left(situation.collection(), options, situation.today()),
                                  branching::for_show);
        const auto scored = scorer.score(outset.schedule(*setting), 0, share);
        return scored ? std::optional(scored->clear) : std::nullopt;
    };
    LateChances chances;
    chances.stood_on = late.rounds.front().planned;
    PlanOptions then = options;
    then.progress = share;
    if (const auto stood = rescore(*situation.on(chances.stood_on), then)) chances.stood = stood->clear;
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

}  // namespace mitefall::service
