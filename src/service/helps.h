#pragma once

#include "formats/helps.h"
#include "service/keeper.h"

namespace mitefall::service {

/// For each single change that is possible today (changes.h): the search is made anew, with the records as
/// they would be. What it brings may be below 0 where the best course found then is not better. Nothing is
/// recorded. Errors as `choose_plan`.
[[nodiscard]] base::Result<formats::HelpsView> what_helps(const Situation& situation,
                                                          const PlanOptions& options);

}  // namespace mitefall::service
