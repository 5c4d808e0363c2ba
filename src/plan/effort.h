#pragma once

#include "evidence/tables.h"
#include "plan/schedule.h"

namespace mitefall::plan {

/// What a schedule asks of its keeper's time.
struct Effort {
    int days = 0;                ///< on which something is treated
    units::TimeSpan longest;     ///< work of the day with most
    units::TimeSpan all;         ///< of all days
    units::TimeSpan one_by_one;  ///< of the day with most, each soak by itself
};

/// An assumption: a wipe takes as long as the row `effort_wipe` says, everything else that is treated as long
/// as looking an animal over (`effort_look_over`). Soaks of a day are side by side: together they take as
/// much longer as one does by itself (`effort_soak`). Mixing, wetting paper again and water are not counted.
[[nodiscard]] Effort effort_of(const Schedule& schedule, const evidence::Tables& tables);

}  // namespace mitefall::plan
