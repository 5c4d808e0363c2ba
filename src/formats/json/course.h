#pragma once

#include "formats/course.h"
#include "formats/json/json.h"

namespace mitefall::formats {

/// Every day counted; places with at least a hundredth of a mite expected at some time.
[[nodiscard]] Json course_json(const CourseView& view);

}  // namespace mitefall::formats
