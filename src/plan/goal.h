#pragma once

#include <functional>

#include "plan/schedule.h"

namespace mitefall::plan {

struct FrontierCourse;

struct Goal {
    double target = 0.99;            ///< chance of clear wanted at the 10th percentile of the ensemble
    double horizon_days = 84;        ///< counted from today
    Prefer prefer = Prefer::burden;  ///< among the courses that meet the target
    /// Called with the share done; false cancels.
    std::function<bool(double)> progress;
    /// Without a find: what a round must add to the chance to be worth its burden. 0: mites were found, and
    /// the target counts.
    double worth_of_a_round = 0;
    /// Hears of the best course of those tried, each time there is a better one; its chance is a rough look's
    /// (explore.h). On the thread that asked.
    std::function<void(const FrontierCourse&)> best_so_far = {};
};

}  // namespace mitefall::plan
