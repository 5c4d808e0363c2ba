#pragma once

#include "base/result.h"
#include "cli/context.h"
#include "records/facts.h"

namespace mitefall::cli {

/// The fact with its kind of animal by its full name; a name of several kinds is asked about.
[[nodiscard]] base::Result<records::Fact> with_full_kind(const Context& context,
                                                         base::Result<records::Fact> fact);

}  // namespace mitefall::cli
