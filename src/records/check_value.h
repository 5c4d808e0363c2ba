#pragma once

#include "base/result.h"
#include "records/facts.h"

namespace mitefall::records {

/// Whether the fact is possible on its own, whatever else is on record: names, amounts, texts, empty lists.
[[nodiscard]] base::Result<void> check_value(const Fact& fact);

/// The part of it that no version of the program ever accepted otherwise: amounts, their order, short names.
/// For facts read from a file; rules about what people write hold for new facts only.
[[nodiscard]] base::Result<void> check_amounts(const Fact& fact);

}  // namespace mitefall::records
