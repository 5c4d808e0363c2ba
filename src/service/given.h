#pragma once

#include "records/given.h"
#include "service/situation.h"

namespace mitefall::service {

/// What the animal met in the time before today, or before it left or died (death_look_back).
[[nodiscard]] base::Result<records::Given> given_of(const Situation& situation,
                                                    const records::AnimalId& animal);

}  // namespace mitefall::service
