#pragma once

#include <string>

#include "formats/course.h"

namespace mitefall::formats {

/// The days of the chance of clear, which must be among those of the counts, and where mites are on the
/// first.
[[nodiscard]] std::string course_text(const CourseView& view);

}  // namespace mitefall::formats
