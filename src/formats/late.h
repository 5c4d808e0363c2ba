#pragma once

#include <optional>
#include <string>

#include "base/band.h"
#include "formats/json/json.h"
#include "records/collection.h"
#include "worklist/late.h"

// What is late, and what it does to the chance. Pure functions.
namespace mitefall::formats {

/// The chances of a course with a late round.
struct LateChancesView {
    units::Day stood_on;              ///< the day of the first late round
    std::optional<base::Band> stood;  ///< as it stood on that day
    base::Band today;                 ///< if it is done today
    std::optional<base::Band> move;   ///< if the rest is moved
};

/// The gravest first, with what to type. Empty where nothing is late.
[[nodiscard]] std::string late_text(const worklist::Late& late, const records::Collection& collection);
[[nodiscard]] std::string late_chances_text(const LateChancesView& chances);

/// Null where nothing is late.
[[nodiscard]] Json late_json(const worklist::Late& late);
[[nodiscard]] Json late_chances_json(const LateChancesView& chances);

}  // namespace mitefall::formats
