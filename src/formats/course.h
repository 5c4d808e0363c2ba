#pragma once

#include <string>
#include <vector>

#include "forecast/course_of_counts.h"
#include "formats/json/json.h"

// How many mites are to be expected day by day, for people and for programs.
namespace mitefall::formats {

struct CourseView {
    const forecast::CourseOfCounts& counts;
    const std::vector<double>& clear_times;  ///< days of the scenario
    const std::vector<base::Band>& clear;
    double day_zero = 0;              ///< from which days are counted
    std::vector<std::string> places;  ///< names, in the order of the scenario
};

/// The days of the chance of clear, which must be among those of the counts, and where mites are on the
/// first.
[[nodiscard]] std::string course_text(const CourseView& view);
/// Every day counted; places with at least a hundredth of a mite expected at some time.
[[nodiscard]] Json course_json(const CourseView& view);

}  // namespace mitefall::formats
