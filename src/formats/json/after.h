#pragma once

#include "clearance/answers.h"
#include "formats/json/json.h"

// What is told once mites are gone, or were never there.
namespace mitefall::formats {

/// {"rule", "args", "text", "tag", "source", "by_mites"}
[[nodiscard]] Json told_after_json(const clearance::Told& told);

[[nodiscard]] Json keep_out_json(const clearance::KeepOutAnswer& answer);

/// `names`: the collection of today.
[[nodiscard]] Json handover_json(const clearance::Handover& note, const records::Collection& names);

}  // namespace mitefall::formats
