#pragma once

#include <map>
#include <span>
#include <vector>

#include "records/facts.h"

namespace mitefall::records {

/// `in_force` without copies; the pointers are into `journal`.
[[nodiscard]] std::vector<const Entry*> pick_in_force(std::span<const Entry> journal);

/// Entries that correct others -> the first entry of their chain.
[[nodiscard]] std::map<FactId, FactId> first_told(std::span<const Entry> journal);

/// The entry that replaced or withdrew this one; null while it is in force.
[[nodiscard]] const Entry* corrected_by(std::span<const Entry> journal, FactId entry);

}  // namespace mitefall::records
