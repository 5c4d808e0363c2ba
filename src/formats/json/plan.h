#pragma once

#include "formats/json/json.h"
#include "plan/each_round.h"

namespace mitefall::formats {

/// `rungs`: what each round buys, where that was asked for.
[[nodiscard]] Json plan_json(const plan::PlanChoice& choice, const plan::Setting& setting,
                             const plan::Goal& goal, const std::vector<plan::Rung>& rungs = {});
/// The best course a search has come upon so far, by a rough look.
[[nodiscard]] Json best_so_far_json(const plan::FrontierCourse& best);
/// The chance with each number of rounds.
[[nodiscard]] Json each_round_json(const std::vector<plan::Rung>& rungs);

}  // namespace mitefall::formats
