#pragma once

#include <vector>

#include "base/result.h"
#include "cli/recording.h"
#include "service/keeper.h"

namespace mitefall::cli {

/// Records what was said yes to, or asks.
[[nodiscard]] base::Result<std::vector<records::FactId>> record_asking(const Recording& recording,
                                                                       service::Keeper& keeper,
                                                                       const service::DatedFact& dated);

}  // namespace mitefall::cli
