#pragma once

#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {

/// A shed that is awaited, and what of its answers would change which treatments of the plan are permitted.
struct ShedQuestion {
    records::AnimalId animal;
    records::EnclosureId enclosure;
    units::Day since;                              ///< cloudy since
    std::vector<records::ShedState> would_change;  ///< answers given today; none: the plan stays as it is
};

/// One for each animal of the enclosures in the plan whose shed is awaited, by animal.
[[nodiscard]] std::vector<ShedQuestion> open_questions(const Assignment& assignment, const Setting& setting);

}  // namespace mitefall::plan
