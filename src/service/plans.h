#pragma once

#include "plan/search.h"
#include "service/keeper.h"
#include "worklist/worklist.h"

namespace mitefall::service {

/// Plans to choose from, and all they refer to, kept alive together.
struct Planned {
    std::shared_ptr<const Situation> situation;
    std::shared_ptr<const Believed> believed;
    plan::Setting setting;  ///< with what was wished; points into the situation
    plan::PlanChoice choice;
};

/// Errors: not_found without a sighting, or for an enclosure nobody knows; conflict: cancelled.
[[nodiscard]] base::Result<Planned> choose_plan(const Situation& situation, const PlanOptions& options);

/// The day's work if `plan` were adopted today.
[[nodiscard]] worklist::Worklist preview_worklist(const Planned& planned, const plan::ScoredPlan& plan);

}  // namespace mitefall::service
