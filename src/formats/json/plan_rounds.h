#pragma once

#include "formats/json/json.h"
#include "plan/schedule.h"

namespace mitefall::formats {

/// Appends the rounds, what is left out and why, and the cautions that treatments name by position.
void put_rounds(Json& json, const plan::Schedule& schedule);

}  // namespace mitefall::formats
