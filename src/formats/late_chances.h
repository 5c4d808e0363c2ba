#pragma once

#include <optional>

#include "base/band.h"
#include "units/day.h"

namespace mitefall::formats {

/// The chances of a course with a late round.
struct LateChancesView {
    units::Day stood_on;              ///< the day of the first late round
    std::optional<base::Band> stood;  ///< as it stood on that day
    base::Band today;                 ///< if it is done today
    std::optional<base::Band> move;   ///< if the rest is moved
};

}  // namespace mitefall::formats
