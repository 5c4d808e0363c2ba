#pragma once

#include <string>

#include "records/collection.h"
#include "units/text.h"
#include "worklist/worklist.h"

namespace mitefall::formats {

/// Cautions, then the work in its order, grouped by enclosure. `details`: every caution, not the first few.
[[nodiscard]] std::string worklist_text(const worklist::Worklist& list, const records::Collection& collection,
                                        units::Display display, bool details = true);

/// Veterinarians to be rung today, above everything else that is told; empty where there is none.
[[nodiscard]] std::string first_of_all_text(const worklist::Worklist& list,
                                            const records::Collection& collection);

}  // namespace mitefall::formats
