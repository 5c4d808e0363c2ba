#pragma once

#include "forecast/sensitivity.h"
#include "service/keeper.h"

namespace mitefall::service {

/// What the chance of clear of a plan depends on.
struct Matters {
    statement::Statement plan;  ///< plan/told.def
    bool adopted = false;       ///< else the recommended one
    base::Band clear;
    forecast::Sensitivity sensitivity;
};

/// For what is left of the adopted plan, or without one for the plan recommended today. Its variance is
/// shared out in log odds, so that a chance near 1 counts as much as one near a half. Errors as `rescore`
/// and `choose_plan`.
[[nodiscard]] base::Result<Matters> what_matters(const Situation& situation, const PlanOptions& options);

}  // namespace mitefall::service
