#pragma once

#include "clearance/outlook.h"

namespace mitefall::clearance {

/// A check that may be done: of one enclosure of a group, by one method, on one day.
struct Candidate {
    std::size_t group = 0;           ///< index among the groups of the request
    scenario::PlaceIndex place = 0;  ///< one of the group
    records::CheckMethod method = records::CheckMethod::look_over;
    double time = 0;  ///< days; today or later
};

struct CheckValue {
    Candidate candidate;
    double finds_if_left = 0;  ///< chance that it finds something if mites are left anywhere
    Sureness before;           ///< of the whole collection on that day, before the check
    Sureness if_clean;         ///< after it, if it finds nothing
};

struct NextCheckRequest {
    Standing standing;
    std::vector<Candidate> candidates;  ///< all of them permitted
    std::size_t shown = 6;              ///< so many of the best are worked out with all draws
    Progress progress;
};

/// What single checks are worth, the most telling first: P(not clean and not clear) / P(not clear). A first
/// block of draws ranks them all; the best are worked out with all draws. nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<CheckValue>> value_checks(const NextCheckRequest& request);

}  // namespace mitefall::clearance
