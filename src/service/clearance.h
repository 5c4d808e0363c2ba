#pragma once

#include <array>
#include <functional>
#include <span>

#include "clearance/answers.h"
#include "service/keeper.h"

// Records -> standing -> the questions of src/clearance -> names and days.
namespace mitefall::service {

/// The levels of certainty an answer names a day for.
inline constexpr std::array certainty_levels{0.95, 0.99, 0.999};

/// A part of a longer piece of work, for its progress.
[[nodiscard]] inline clearance::Progress part_of(const clearance::Progress& whole, double begin, double end) {
    if (!whole) return {};
    return [=](double share) { return whole(begin + share * (end - begin)); };
}

/// `planned`: everything on record, as Keeper::situation gives it. Error conflict: cancelled.
[[nodiscard]] base::Result<clearance::CollectionAnswer> clearance_of(const Planned& planned,
                                                                     const Knowledge& knowledge,
                                                                     const ClearanceOptions& options);

/// Soaks and wipes are proposed only where the safety check permits them for every animal of the enclosure.
[[nodiscard]] base::Result<clearance::NextCheckAnswer> next_check_of(const Planned& planned,
                                                                     const Knowledge& knowledge,
                                                                     const ClearanceOptions& options);

/// Errors: not_found for an unknown animal; conflict if it is not in quarantine, or mites were seen with it.
[[nodiscard]] base::Result<clearance::ReleaseAnswer> release_of(std::span<const records::Entry> journal,
                                                                const records::AnimalId& animal,
                                                                const Knowledge& knowledge,
                                                                const ClearanceOptions& options,
                                                                units::Day today);

}  // namespace mitefall::service
