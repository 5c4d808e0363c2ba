#pragma once

#include <optional>

#include "evidence/tables.h"
#include "records/collection.h"
#include "units/day.h"

// When an animal that was seen cloudy is taken to have shed, and when its keeper is asked.
namespace mitefall::safety {

/// An animal whose shed is awaited.
struct ShedAwaited {
    records::ShedState seen = records::ShedState::cloudy;  ///< cloudy, or clear
    units::Day since;                                      ///< first day of the spell
    /// Of a cloudy one: the first day on which to ask whether it has shed, `cloudy_to_shed` after the first
    /// day of the spell and `shed_asked_again` after the last answer. Of a clear one none: a shed that nobody
    /// saw is over in time.
    std::optional<units::Day> ask_from;
    units::Day free_from;  ///< first day on which the shed bars nothing, if it comes by `ask_from`
};

/// nullopt where no shed is awaited: never seen cloudy, or shed since, or clear for long enough on `today`.
/// While an answer is overdue the shed is counted on for the next day, never for `today`.
[[nodiscard]] std::optional<ShedAwaited> shed_awaited(const records::Animal& animal, units::Day today,
                                                      const evidence::Tables& tables);

}  // namespace mitefall::safety
