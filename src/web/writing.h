#pragma once

#include "web/routes.h"

// Requests that put something on record. Each carries a key of its own, so that one sent again because its
// answer was lost is answered as the first time.
namespace mitefall::web {

/// Reads what is asked, does it once, and answers.
[[nodiscard]] Response answer_once(const Means& means, DeedReader read);

/// {"ids": [...]}
[[nodiscard]] Json ids_json(const std::vector<records::FactId>& ids);

}  // namespace mitefall::web
