#pragma once

#include "cli/context.h"

namespace mitefall::cli {

/// Exposure, verdicts, plans, mixing and the day's work in one answer: the whole job after a sighting.
[[nodiscard]] base::Result<void> answer_tonight(Context& context, std::string_view command,
                                                service::PlanOptions options);

}  // namespace mitefall::cli
