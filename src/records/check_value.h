#pragma once

#include "base/result.h"
#include "records/facts.h"

namespace mitefall::records {

/// Whether the fact is possible on its own, whatever else is on record: names, amounts, texts, empty lists.
[[nodiscard]] base::Result<void> check_value(const Fact& fact);

}  // namespace mitefall::records
