#pragma once

#include <string>

#include "records/collection.h"
#include "units/text.h"
#include "worklist/worklist.h"

namespace mitefall::formats {

/// Rooms, and in them enclosures, in the order of the work. `details`: what is kept there and how each task
/// is done, step by step, too.
[[nodiscard]] std::string tasks_text(const worklist::Worklist& list, const records::Collection& collection,
                                     units::Display display, bool details);

}  // namespace mitefall::formats
