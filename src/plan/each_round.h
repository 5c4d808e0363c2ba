#pragma once

#include <optional>
#include <vector>

#include "plan/search.h"

namespace mitefall::plan {

/// What a course would achieve with another number of rounds.
struct Rung {
    int rounds = 0;
    base::Band clear;
};

/// What each round of a course buys: its chance with one round to the most, all else alike, on all draws and
/// with the tolerances of a search; the courses shown in `choice` as they stand there. In a large collection
/// without five and seven rounds, unless one of these is shown. `setting`, `ensemble`, `belief`, `goal`: what
/// `choice` was searched with. nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<Rung>> each_round(const Setting& setting,
                                                          const mites::Ensemble& ensemble,
                                                          const belief::Belief& belief, const Goal& goal,
                                                          const PlanChoice& choice, const Course& of);

}  // namespace mitefall::plan
