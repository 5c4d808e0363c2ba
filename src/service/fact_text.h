#pragma once

#include <string_view>

#include "base/result.h"
#include "records/facts.h"

namespace mitefall::service {

/// A fact from the name of its kind and a JSON object with the keys of the journal (docs/schemas/journal):
/// all of them, nothing null. Errors name the key.
[[nodiscard]] base::Result<records::Fact> read_fact(std::string_view kind, std::string_view body);

}  // namespace mitefall::service
