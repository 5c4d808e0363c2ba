#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "forecast/course_of_counts.h"
#include "formats/casefile/case_file.h"
#include "service/keeper.h"

namespace mitefall::service {

/// Expected mites every day and the chance of clear every week, to the horizon.
struct Course {
    forecast::CourseOfCounts counts;
    std::vector<double> clear_times;
    std::vector<base::Band> clear;
    double day_zero = 0;
    std::vector<std::string> places;
};

/// Of a schedule of the setting, from today on. Error conflict: cancelled.
[[nodiscard]] base::Result<Course> course_of(const Situation& situation, const plan::Setting& setting,
                                             const plan::Schedule& schedule, const PlanOptions& options);
/// The same of what is left of the adopted plan. Errors as `rescore`.
[[nodiscard]] base::Result<Course> course_on_record(const Situation& situation, const PlanOptions& options);

/// Of a case file, from its start on. nullopt if cancelled.
[[nodiscard]] std::optional<Course> course_of(const formats::CaseFile& given,
                                              const std::function<bool(double)>& progress);

}  // namespace mitefall::service
