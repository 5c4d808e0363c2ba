#pragma once

#include "forecast/forecast.h"
#include "service/keeper.h"

namespace mitefall::service {

/// Chance that what is left of the adopted plan clears the collection. Errors: not_found without a plan or
/// sighting; conflict: cancelled.
[[nodiscard]] base::Result<forecast::Forecast> rescore(const Situation& situation,
                                                       const PlanOptions& options);

/// Days from `today` to the end of the question a course is scored for.
[[nodiscard]] double horizon_left(const records::Collection& collection, const PlanOptions& options,
                                  units::Day today);

}  // namespace mitefall::service
