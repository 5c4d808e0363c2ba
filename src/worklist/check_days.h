#pragma once

#include <vector>

#include "evidence/tables.h"
#include "plan/schedule.h"

namespace mitefall::worklist {

/// The days of checks after the last treatment of the schedule, as the day's work will ask for them if all
/// goes as planned: every `check_interval` from the first round on, to the end of the watch. None without a
/// round.
[[nodiscard]] std::vector<units::Day> check_days_after(const plan::Schedule& schedule,
                                                       const evidence::Tables& tables);

}  // namespace mitefall::worklist
