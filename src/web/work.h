#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "base/band.h"
#include "base/result.h"
#include "clearance/answers.h"
#include "plan/search.h"
#include "service/plans.h"
#include "web/desk.h"
#include "web/jobs.h"

// The long computations a page can ask for.
namespace mitefall::web {

/// Asks the situation the question was asked about, the one readers of the desk share as long as nothing is
/// recorded; the desk stays free meanwhile. `jobs`: where a course looks up the plan it is about.
[[nodiscard]] base::Result<Outcome> work_off(const Question& question, Desk& desk, const Jobs& jobs,
                                             const Ongoing& ongoing);

[[nodiscard]] bool is_question(std::string_view kind);
/// Every kind, comma separated, for error messages.
[[nodiscard]] std::string list_questions();

/// What a finished plan job keeps.
struct KeptPlan {
    std::shared_ptr<const service::Planned> planned;
};
/// What a finished clear or rescore job keeps, for the situation.
struct KeptClearance {
    std::shared_ptr<const clearance::CollectionAnswer> answer;
};
/// What a finished why-days job of the adopted course keeps, where other days were tried.
struct KeptDays {
    std::vector<units::Day> days;
};
struct KeptScore {
    base::Band clear;
};

/// One of the plans that a finished job keeps, with what it was made for.
struct PlanAtHand {
    Question question;
    std::shared_ptr<const service::Planned> planned;
    const plan::ScoredPlan* plan = nullptr;  ///< one of `planned`
};
/// `name`: "recommended", or the number of an alternative counted from 0. Error: not_found.
[[nodiscard]] base::Result<PlanAtHand> plan_at_hand(const Jobs& jobs, const std::string& job,
                                                    const std::string& name);

/// Days that were tried for the adopted course, and the question they were tried in.
struct DaysAtHand {
    Question question;
    std::vector<units::Day> days;
};
/// None where the job is no such one, or no longer at hand.
[[nodiscard]] std::optional<DaysAtHand> days_at_hand(const Jobs& jobs, const std::string& job);

}  // namespace mitefall::web
