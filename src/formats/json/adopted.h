#pragma once

#include "evidence/tables.h"
#include "formats/json/json.h"
#include "records/collection.h"

namespace mitefall::formats {

/// Cautions are those of the methods; those of an animal stand on the worklist of the day.
[[nodiscard]] Json adopted_json(const records::DatedValue<records::PlanAdopted>& plan,
                                const evidence::Tables& tables);

}  // namespace mitefall::formats
