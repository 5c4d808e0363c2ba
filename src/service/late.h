#pragma once

#include <memory>

#include "base/band.h"
#include "service/keeper.h"
#include "worklist/late.h"

// Work of days gone by: what it does to the chance, and how the course goes on.
namespace mitefall::service {

/// What a late round does to the chance that the course clears the collection.
struct LateChances {
    units::Day stood_on;              ///< the day of the first late round
    std::optional<base::Band> stood;  ///< as it stood on that day; none where it cannot be told
    base::Band today;                 ///< if it is done today
    std::optional<base::Band> move;   ///< if the rest is moved; none where there is no rest
};

/// Errors: not_found where no round is late, or as `rescore`; conflict: cancelled.
[[nodiscard]] base::Result<LateChances> late_chances_of(const Situation& situation,
                                                        const PlanOptions& options);

[[nodiscard]] base::Error nothing_late();

/// The adopted course put to other days, as it goes on record: asked of the safety check, in full. There is a
/// course.
[[nodiscard]] records::PlanAdopted put_to_other_days(const Situation& situation,
                                                     const worklist::Redated& course);

}  // namespace mitefall::service
