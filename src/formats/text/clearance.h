#pragma once

#include <string>

#include "clearance/answers.h"
#include "records/collection.h"

namespace mitefall::formats {

/// How sure we are now, place by place, and what rounds of checks would do.
[[nodiscard]] std::string clearance_text(const clearance::CollectionAnswer& answer,
                                         const records::Collection& collection);

}  // namespace mitefall::formats
