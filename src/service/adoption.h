#pragma once

#include <string>

#include "plan/schedule.h"
#include "records/course.h"

namespace mitefall::service {

/// What is put on record of a schedule when it is adopted. `scope`: as the plan names it.
[[nodiscard]] records::CourseTerms terms_of(std::string scope, const plan::Schedule& schedule);

}  // namespace mitefall::service
