#pragma once

#include <vector>

#include "worklist/workday.h"

namespace mitefall::worklist {

/// How the place or thing of a task is cleaned, in order (work.def, step_*): by its material and its size. A
/// help beside the task: the tick of the task is what goes on record. Empty for tasks that are one thing to
/// do.
[[nodiscard]] std::vector<statement::Statement> steps_of(const Task& task, const Workday& day);

}  // namespace mitefall::worklist
