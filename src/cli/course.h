#pragma once

#include "formats/course.h"
#include "service/course.h"

namespace mitefall::cli {

/// The course as it is shown; it must outlive the view.
[[nodiscard]] inline formats::CourseView view_of(const service::Course& course) {
    return {course.counts, course.clear_times, course.clear, course.day_zero, course.places};
}

}  // namespace mitefall::cli
