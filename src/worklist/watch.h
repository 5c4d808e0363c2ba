#pragma once

#include <algorithm>
#include <cmath>

#include "evidence/tables.h"
#include "units/day.h"

namespace mitefall::worklist {

/// How long mites are looked for after the last treatment: as long as the rule says, and no shorter than an
/// adult may live unfed (decision 29).
[[nodiscard]] inline units::Days watch(const evidence::Tables& tables) {
    const auto days = [](units::TimeSpan span) {
        return units::Days(static_cast<int>(std::ceil(units::in_days(span))));
    };
    return std::max(days(tables.time("unfed_adult_life").high),
                    days(tables.time("watch_after_last_treatment").value));
}

}  // namespace mitefall::worklist
