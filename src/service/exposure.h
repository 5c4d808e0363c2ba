#pragma once

#include "exposure/tracing.h"
#include "service/situation.h"

namespace mitefall::service {

/// Who may have been reached by the mites of the outbreak at hand; with none, by what contact with the
/// outside may have brought. Error not_found with neither.
[[nodiscard]] base::Result<exposure::Tracing> exposure_of(const Situation& situation);

}  // namespace mitefall::service
