#pragma once

#include "plan/procedure.h"
#include "service/keeper.h"

namespace mitefall::service {

/// What looks after a course, and the course once more on a find, add to its chance. The looks are those the
/// day's work will ask for, every second one, at most `procedure_looks`. Errors: conflict: cancelled;
/// not_found where the course has no round.
[[nodiscard]] base::Result<plan::Procedure> procedure_of(const Situation& situation,
                                                         const plan::Setting& setting,
                                                         const plan::Schedule& course,
                                                         const PlanOptions& options);
/// The same of what is left of the adopted course. Errors as `rescore` too.
[[nodiscard]] base::Result<plan::Procedure> procedure_on_record(const Situation& situation,
                                                                const PlanOptions& options);

inline constexpr std::size_t procedure_looks = 4;

}  // namespace mitefall::service
