#pragma once

#include <functional>
#include <vector>

#include "plan/permit_book.h"
#include "plan/scorer.h"

namespace mitefall::plan {

struct ScoredPlan {
    Course course;
    Schedule schedule;
    base::Band clear;
};

enum class Keep { schedules, chances };

/// Courses scored, and into how many classes places fell at the most.
struct Scored {
    std::vector<ScoredPlan>
        plans;  ///< in the order of the courses; without schedules where only chances are kept
    std::size_t class_count = 0;
};

/// Fits these courses to the verdicts and scores them, several at a time; `blocks` as of Scorer. nullopt once
/// `progress` answers false.
[[nodiscard]] std::optional<Scored> score_all(const Scorer& scorer, PermitBook& permits,
                                              const std::vector<Course>& courses, std::size_t blocks,
                                              Keep keep, std::function<bool(double)> progress);

}  // namespace mitefall::plan
