#pragma once

#include "plan/each_round.h"
#include "plan/prevention.h"
#include "service/keeper.h"
#include "worklist/worklist.h"

namespace mitefall::service {

/// Plans to choose from, and all they refer to, kept alive together.
struct Planned {
    std::shared_ptr<const Situation> situation;
    std::shared_ptr<const Believed> believed;
    plan::Setting setting;  ///< with what was wished; points into the situation
    plan::Goal goal;        ///< without its progress
    plan::PlanChoice choice;
    std::optional<plan::Prevention> prevention{};  ///< where it was asked for
};

/// What a plan is made for, with what is wished of it; points into the situation. Errors as `choose_plan`.
[[nodiscard]] base::Result<plan::Setting> setting_for(const Situation& situation, const PlanOptions& options);
[[nodiscard]] plan::Goal goal_of(const Situation& situation, const PlanOptions& options);

/// Errors: not_found without a sighting, to prevent without an animal, or for an enclosure or room nobody
/// knows; conflict: cancelled, or to prevent where mites were seen.
[[nodiscard]] base::Result<Planned> choose_plan(const Situation& situation, const PlanOptions& options);

/// What each round of a plan buys. Errors: conflict, cancelled.
[[nodiscard]] base::Result<std::vector<plan::Rung>> each_round_of(const Planned& planned,
                                                                  const plan::ScoredPlan& plan,
                                                                  std::function<bool(double)> progress);

/// The day's work if `plan` were adopted today.
[[nodiscard]] worklist::Worklist preview_worklist(const Planned& planned, const plan::ScoredPlan& plan);

}  // namespace mitefall::service
