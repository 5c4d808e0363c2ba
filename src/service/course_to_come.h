#pragma once

#include "plan/schedule.h"

namespace mitefall::service {

/// What was recorded since the last sighting, and from today on what the course does: the scenario of the
/// question how things stand. What of the course is left for today comes an instant after today, so it is not
/// done yet. On the day of the sighting so does all that was done against mites that day, before the sighting
/// or after it (records do not tell): where they were seen today they are today.
[[nodiscard]] scenario::Scenario scenario_from_today(const plan::Setting& setting);
[[nodiscard]] scenario::Scenario scenario_from_today(const plan::Setting& setting,
                                                     const plan::Schedule& course);

}  // namespace mitefall::service
