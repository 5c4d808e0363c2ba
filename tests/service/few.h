#pragma once

#include "service/clearance.h"
#include "service/plans.h"

// Few draws and looks, where a test asks for the answer and not for its precision.
namespace mitefall::service {

inline PlanOptions few_draws() {
    PlanOptions options;
    options.draws = 8;
    return options;
}

inline ClearanceOptions few_looks() {
    ClearanceOptions options;
    options.draws = 8;
    options.rounds = 1;
    return options;
}

}  // namespace mitefall::service
