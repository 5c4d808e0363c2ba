#pragma once

#include <optional>
#include <vector>

#include "forecast/forecast.h"

// How many mites are to be expected on the days of a course, and how the chance of clear grows.
namespace mitefall::forecast {

/// Expected numbers of one time, over the draws.
struct CountBands {
    base::Band all;
    base::Band on_animals;
    base::Band in_nest;  ///< off the animals, eggs not counted; in a room: loose in it
    base::Band eggs;
};

struct CourseOfCounts {
    std::vector<double> times;                    ///< days, as asked for
    std::vector<CountBands> collection;           ///< per time
    std::vector<std::vector<CountBands>> places;  ///< per place and time
};

/// Expected numbers of female mites at `times` (days, ascending, from `request.from` on), each just before
/// the events of that instant, given that every check up to and at that time finds nothing; the bands are
/// over draws, chance in births and deaths is not in them. Uses scenario, ensemble, start, from and progress
/// of the request. `weights`: of the draws before the checks; empty: all alike. nullopt if cancelled.
[[nodiscard]] std::optional<CourseOfCounts> course_of_counts(const ForecastRequest& request,
                                                             const std::vector<double>& times,
                                                             const std::vector<double>& weights = {});

/// The chance of clear at each of `times` (days, not before `request.from`): one forecast per time, `to` and
/// `only_mode` of the request not used. The events of a time have happened by then. nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<base::Band>> chance_by_day(const ForecastRequest& request,
                                                                   const std::vector<double>& times);

/// `from`, every `step` days after it, and `to`.
[[nodiscard]] std::vector<double> days_between(double from, double to, double step);

}  // namespace mitefall::forecast
