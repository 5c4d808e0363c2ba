#pragma once

#include <span>
#include <vector>

#include "records/facts.h"

namespace mitefall::records {

/// `in_force` without copies; the pointers are into `journal`.
[[nodiscard]] std::vector<const Entry*> pick_in_force(std::span<const Entry> journal);

}  // namespace mitefall::records
