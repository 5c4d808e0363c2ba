#include "service/adopted.h"

#include <algorithm>

#include "records/limits.h"
#include "words/words.h"

namespace mitefall::service {
namespace {

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

}  // namespace

base::Error no_plan() {
    return {base::ErrorKind::not_found,
            "no plan has been adopted",
            {},
            {},
            "look at the plans and adopt one",
            {}};
}

base::Result<records::DatedValue<records::PlanAdopted>> adopted_course(const Situation& situation) {
    const auto& plan = situation.collection().plan;
    if (!plan) return base::fail(no_plan());
    return *plan;
}

records::CourseTerms terms_of(std::string scope, const plan::Schedule& schedule) {
    records::CourseTerms terms;
    terms.scope = std::move(scope);
    for (const plan::Round& round : schedule.rounds) {
        for (const plan::ScheduledTreatment& one : round.treatments) {
            const safety::PermittedTreatment& treatment = one.treatment;
            terms.treatments.push_back({one.key(), round.planned, round.day, treatment.room(),
                                        treatment.enclosure(), treatment.animals(), treatment.method()});
        }
    }
    for (const plan::LeftOut& row : schedule.left_out) terms.left_out.push_back(refusal_of(row));
    return terms;
}

records::PlanAdopted adoption_of(const plan::ScoredPlan& plan, units::Strength strength) {
    const plan::Assignment& assignment = plan.schedule.assignment;
    std::vector<records::EnclosureId> enclosures = assignment.enclosures;
    for (const records::EmptiedWood& wood : assignment.choices.emptied_wood) {
        if (std::find(enclosures.begin(), enclosures.end(), wood.tub) == enclosures.end())
            enclosures.push_back(wood.tub);
    }
    return {assignment.rounds, std::move(enclosures),
            assignment.rooms,  assignment.choices,
            strength,          terms_of(std::string(plan::to_text(plan.course.scope)), plan.schedule)};
}

}  // namespace mitefall::service
