#pragma once

#include <string>

#include "plan/search.h"

namespace mitefall::formats {

/// The days of the rounds, and who has a day of its own.
[[nodiscard]] std::string rounds_text(const plan::ScoredPlan& plan, const plan::Setting& setting);

/// Whose animals go into a clean tub; empty where none does.
[[nodiscard]] std::string tubs_text(const plan::ScoredPlan& plan, const plan::Setting& setting);

/// Who is not sprayed, or soaked, in at least one round.
[[nodiscard]] std::string gentler_text(const plan::ScoredPlan& plan, const plan::Setting& setting);

}  // namespace mitefall::formats
