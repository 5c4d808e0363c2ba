#pragma once

#include "formats/json/json.h"
#include "plan/schedule.h"

namespace mitefall::formats {

/// Appends what is treated as a whole, who at risk stands outside it, and the answers that would change it.
void put_reach(Json& json, const plan::Schedule& schedule, const plan::Setting& setting);

}  // namespace mitefall::formats
