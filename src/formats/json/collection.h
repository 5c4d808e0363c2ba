#pragma once

#include "evidence/tables.h"
#include "formats/json/json.h"
#include "records/collection.h"

namespace mitefall::formats {

/// `tables`: how far back a death reaches for its company.
[[nodiscard]] Json collection_json(const records::Collection& collection, const evidence::Tables& tables);

/// Every batch on record, oldest first.
[[nodiscard]] Json batches_json(const records::Collection& collection);

}  // namespace mitefall::formats
