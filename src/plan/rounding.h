#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "plan/permit_book.h"
#include "plan/scorer.h"

// Where a large collection has many climates, hardly two enclosures are alike and each is worked out by
// itself. A search puts neighbouring climates together there, as coarsely as the chance of two courses allows
// (docs/decisions/0070).
namespace mitefall::plan {

/// What was put together, and what that did.
struct Rounding {
    std::size_t climates = 0;    ///< of enclosures, on record
    std::size_t told_apart = 0;  ///< by the search
    /// Chance of the course recommended, exactly, less what it is with the climates put together: on
    /// `checked_draws` draws.
    double difference = 0;
};

inline constexpr std::size_t checked_draws = branching::lane_count;

/// Widths of the climates that are put together, degrees Celsius by day and by night, and ten times as many
/// per cent of humidity.
struct ClimateWidth {
    double near = 0;  ///< in a room in which mites are likely
    double far = 0;   ///< elsewhere
};

/// What a search scores.
struct SearchedPresent {
    scenario::Scenario scenario;
    std::optional<Rounding> rounding;  ///< none: every climate as it is
};

/// The present of the setting, with its climates put together where it has more of them than a search has
/// time for: by the coarsest width with which the chances of a usual and of the most thorough course stay
/// within `rounding_allowed` of the exact ones, on the draws of `few`; with every climate as it is if none
/// does. nullopt once `progress` answers false.
[[nodiscard]] std::optional<SearchedPresent> present_for_search(const Setting& setting,
                                                                const belief::Shortlist& few,
                                                                double horizon_days, PermitBook& permits,
                                                                const std::function<bool(double)>& progress);

/// Of a chance and of its 10th and 90th percentile.
inline constexpr double rounding_allowed = 0.003;
inline constexpr double rounding_allowed_of_ends = 0.01;

}  // namespace mitefall::plan
