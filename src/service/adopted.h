#pragma once

#include "plan/schedule.h"
#include "plan/search.h"
#include "service/situation.h"

// A course as it stands on record.
namespace mitefall::service {

[[nodiscard]] base::Error no_plan();

/// The course on record in force today. Error not_found without one.
[[nodiscard]] base::Result<records::DatedValue<records::PlanAdopted>> adopted_course(
    const Situation& situation);

/// What is put on record of a schedule when it is adopted. `scope`: as the plan names it.
[[nodiscard]] records::CourseTerms terms_of(std::string scope, const plan::Schedule& schedule);
/// What is put on record when the plan is adopted.
[[nodiscard]] records::PlanAdopted adoption_of(const plan::ScoredPlan& plan, units::Strength strength);

}  // namespace mitefall::service
