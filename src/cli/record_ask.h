#pragma once

#include <vector>

#include "base/result.h"
#include "cli/recording.h"
#include "service/asked_first.h"

namespace mitefall::cli {

/// What was written, and what was said yes to.
struct Recorded {
    std::vector<records::FactId> ids;
    std::vector<service::Ask> asks;
};

/// Records what was said yes to, or asks.
[[nodiscard]] base::Result<Recorded> record_asking(const Recording& recording, service::Keeper& keeper,
                                                   const service::DatedFact& dated);

}  // namespace mitefall::cli
