#pragma once

#include <functional>
#include <vector>

#include "plan/merit.h"
#include "plan/permit_book.h"
#include "plan/scorer.h"

namespace mitefall::plan {

/// Tries courses, each fitted to the verdicts and scored by `scorer`, until the frontier stands or enough
/// were tried; empty if cancelled.
[[nodiscard]] std::vector<Candidate> explore(const Scorer& scorer, PermitBook& permits, const Goal& goal,
                                             const std::function<bool(double)>& progress);

}  // namespace mitefall::plan
