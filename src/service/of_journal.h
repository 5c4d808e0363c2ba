#pragma once

#include <span>

#include "service/keeper.h"

// What Keeper answers of its file, asked of any journal: also of one with facts that are only thought of.
namespace mitefall::service {

/// As Keeper::situation.
[[nodiscard]] base::Result<Planned> situation_of(const std::vector<records::Entry>& journal,
                                                 const Knowledge& knowledge, const Now& now);

/// As Keeper::rescore. `planned`: as situation_of gives it; its belief is formed here. Error not_found
/// without a plan; conflict: cancelled.
[[nodiscard]] base::Result<forecast::Forecast> rescore_of(Planned& planned, const Knowledge& knowledge,
                                                          const PlanOptions& options, const Now& now);

}  // namespace mitefall::service
