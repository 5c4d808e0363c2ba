#pragma once

#include "evidence/tables.h"
#include "records/collection.h"
#include "units/day.h"

namespace mitefall::safety {

/// The water dish around one spraying. The day of the spraying is day 0.
struct WaterDish {
    units::Day out_on;   ///< the day of the spraying, or earlier if it is out already
    units::Day back_by;  ///< last day on which it may be put back
};

[[nodiscard]] WaterDish water_around(const records::Enclosure& enclosure, units::Day sprayed,
                                     const evidence::Tables& tables);

/// Whether the dish has been out for longer than it may: its last day is over, or nobody knows since when.
[[nodiscard]] bool water_is_overdue(const records::Enclosure& enclosure, units::Day today,
                                    const evidence::Tables& tables);

/// Whether the spell without a dish that ended that day was longer than it may be.
[[nodiscard]] bool water_was_overdue(const records::Enclosure& enclosure, units::Day back,
                                     const evidence::Tables& tables);

/// Whether the dish should be back by now: it has been out for the longest time allowed.
[[nodiscard]] bool water_is_due(const records::Enclosure& enclosure, units::Day today,
                                const evidence::Tables& tables);

}  // namespace mitefall::safety
