#pragma once

#include <cmath>

#include "units/climate.h"
#include "units/day.h"

// From a span of time to whole calendar days. Records know no hours, so that every span must be rounded one
// way or the other; which way is a question of what the span is for.
namespace mitefall::units {

/// A limit, "at most so long": the whole days that fit into it, rounded down. 3.9 days are 3.
[[nodiscard]] inline Days at_most_days(TimeSpan limit) {
    return Days(std::lround(std::floor(in_days(limit))));
}

/// A wait, or how far to look back, "at least so long": the whole days after which it is surely over, rounded
/// up. 3.1 days are 4.
[[nodiscard]] inline Days at_least_days(TimeSpan wait) { return Days(std::lround(std::ceil(in_days(wait)))); }

/// The first day on which `wait` has surely passed since some hour of `day`: who did it at eleven at night
/// counts from then.
[[nodiscard]] inline Day surely_after(Day day, TimeSpan wait) { return day + at_least_days(wait) + one_day; }

}  // namespace mitefall::units
