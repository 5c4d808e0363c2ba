#pragma once

#include <string>
#include <vector>

#include "base/band.h"
#include "forecast/course_of_counts.h"

// How many mites are to be expected day by day.
namespace mitefall::formats {

struct CourseView {
    const forecast::CourseOfCounts& counts;
    const std::vector<double>& clear_times;  ///< days of the scenario
    const std::vector<base::Band>& clear;
    double day_zero = 0;              ///< from which days are counted
    std::vector<std::string> places;  ///< names, in the order of the scenario
};

/// Expected mites below which a place is not told.
inline constexpr double worth_telling = 0.01;

}  // namespace mitefall::formats
