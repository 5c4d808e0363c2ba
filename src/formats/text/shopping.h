#pragma once

#include <string>

#include "units/text.h"
#include "worklist/shopping.h"

namespace mitefall::formats {

/// `exact`: every amount unrounded beside it.
[[nodiscard]] std::string shopping_text(const worklist::Shopping& shopping, const worklist::Bench& bench,
                                        units::Display display, bool exact = false);

/// What each animal and enclosure takes of it; `exact`: to twelve figures.
[[nodiscard]] std::string shares_text(const worklist::Shopping& shopping, bool exact = false);

}  // namespace mitefall::formats
