#pragma once

#include "service/situation.h"
#include "worklist/overview.h"
#include "worklist/worklist.h"

namespace mitefall::service {

/// The day's work under the adopted plan, and what is late of it. Error not_found where there is neither a
/// plan nor a question.
[[nodiscard]] base::Result<worklist::Worklist> worklist_of(const Situation& situation);
/// The same as the situation keeps it.
[[nodiscard]] const Situation::Work& work_of(const Situation& situation);
/// The same without what is late, which takes a look at the days before.
[[nodiscard]] const Situation::Work& tasks_of(const Situation& situation);

/// Every room at a glance.
[[nodiscard]] base::Result<worklist::Overview> overview_of(const Situation& situation);

/// What is to be done on the next day with work, with nothing left of today; else nothing.
[[nodiscard]] std::vector<worklist::WorkAhead> next_work_of(const Situation& situation,
                                                            const worklist::Overview& today);

}  // namespace mitefall::service
