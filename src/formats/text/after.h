#pragma once

#include <string>

#include "clearance/answers.h"

// What is told once mites are gone, or were never there.
namespace mitefall::formats {

/// One line each, with its tag and source.
[[nodiscard]] std::string told_text(const std::vector<clearance::Told>& told);

[[nodiscard]] std::string keep_out_text(const clearance::KeepOutAnswer& answer);

/// `names`: the collection of today.
[[nodiscard]] std::string handover_text(const clearance::Handover& note, const records::Collection& names);

}  // namespace mitefall::formats
