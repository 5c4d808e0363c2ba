#pragma once

#include <optional>
#include <vector>

#include "plan/search.h"
#include "statement/statement.h"

// Without a find: is a treatment worth its burden, or does a look do more?
namespace mitefall::plan {

/// Looking at every animal and one round of treatment, weighed in the same unit: the chance that nothing is
/// alive anywhere at the horizon. All of it given the clean looks on record.
struct Prevention {
    base::Band clear_now;       ///< nothing is alive today
    base::Band clear_there;     ///< the same of the enclosures of the course alone
    base::Band finds;           ///< a look today finds something
    base::Band clear_if_clean;  ///< nothing is alive today, if it finds nothing
    base::Band nothing;         ///< clear at the horizon if nothing is done
    base::Band round;           ///< after one round of the recommended course
    base::Band look;            ///< after a look today, and where it finds something the best course shown
    base::Band looks;           ///< the same with `weekly_looks` looks, until one finds something
    base::Band round_gain;      ///< over doing nothing
    base::Band look_gain, looks_gain;
    std::vector<records::EnclosureId> looked_at;
    Schedule one_round;
    statement::Statement one_round_told;
    statement::Statement advice;  ///< one of those without a find (told.def)
};

/// How a look at everything in `enclosures` is done: by hand, by paper trap where nobody takes in hand what
/// may be venomous. Where nothing lives there is nothing to look at.
[[nodiscard]] std::vector<scenario::CleanCheck> look_at_all(
    const std::vector<records::EnclosureId>& enclosures, const Setting& setting);

/// So many looks, one a week from today on (a look a week: common practice).
inline constexpr int weekly_looks = 4;

/// `choice`: of the same setting, ensemble, belief and goal. nullopt if cancelled.
[[nodiscard]] std::optional<Prevention> weigh_prevention(const Setting& setting,
                                                         const mites::Ensemble& ensemble,
                                                         const belief::Belief& belief, const Goal& goal,
                                                         const PlanChoice& choice);

}  // namespace mitefall::plan
