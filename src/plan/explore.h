#pragma once

#include <functional>
#include <vector>

#include "branching/lanes.h"
#include "plan/merit.h"
#include "plan/permit_book.h"
#include "plan/scorer.h"

namespace mitefall::plan {

/// Of the shape of a rough look: courses are told apart by it.
inline constexpr std::size_t draws_of_a_rough_look = branching::lane_count;

/// Tries courses, each fitted to the verdicts and scored by `scorer`, until the frontier stands or enough
/// were tried; empty if cancelled. Tells the goal of the best so far.
[[nodiscard]] std::vector<Candidate> explore(const Scorer& scorer, PermitBook& permits, const Goal& goal,
                                             const std::function<bool(double)>& progress);

}  // namespace mitefall::plan
