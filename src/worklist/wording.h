#pragma once

#include <string>

#include "records/method.h"

namespace mitefall::worklist {

/// What the keeper does, in one sentence. Never an amount: amounts stand beside it with their unit. `who`:
/// the animals; `where`: the enclosure or room.
[[nodiscard]] std::string sentence(records::Method method, const std::string& who, const std::string& where);

}  // namespace mitefall::worklist
