#pragma once

#include "formats/json/json.h"
#include "records/collection.h"

namespace mitefall::formats {

[[nodiscard]] Json collection_json(const records::Collection& collection);

/// Every batch on record, oldest first.
[[nodiscard]] Json batches_json(const records::Collection& collection);

}  // namespace mitefall::formats
