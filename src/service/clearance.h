#pragma once

#include <array>

#include "clearance/answers.h"
#include "service/keeper.h"

// How sure are we that no mite is left, and what would make us surer: the questions of src/clearance, asked
// of records, answered in names and days.
namespace mitefall::service {

/// The levels of certainty an answer names a day for.
inline constexpr std::array certainty_levels{0.95, 0.99, 0.999};

/// With nothing seen lately: that nothing came in. Errors: not_found without an animal; conflict: cancelled.
[[nodiscard]] base::Result<clearance::CollectionAnswer> clearance_of(const Situation& situation,
                                                                     const ClearanceOptions& options);
/// Of that answer only the chance that no mite is alive today.
[[nodiscard]] base::Result<base::Band> sure_of_today(const Situation& situation,
                                                     const ClearanceOptions& options);

/// The single checks that would tell most. Soaks and wipes are proposed only where the safety check permits
/// them for every animal of the enclosure. Errors as above.
[[nodiscard]] base::Result<clearance::NextCheckAnswer> next_check_of(const Situation& situation,
                                                                     const ClearanceOptions& options);

/// When an arrival may leave quarantine. Errors: not_found for an unknown animal; conflict if it is not in
/// quarantine, or mites were seen with it, or cancelled.
[[nodiscard]] base::Result<clearance::ReleaseAnswer> release_of(const Situation& situation,
                                                                const records::AnimalId& animal,
                                                                const ClearanceOptions& options);

/// How soon a new introduction would be noticed by looking in one way or another, and what keeps mites out.
/// Errors: not_found without an animal; conflict: cancelled.
[[nodiscard]] base::Result<clearance::KeepOutAnswer> keep_out_of(const Situation& situation,
                                                                 const ClearanceOptions& options);

/// For whoever takes the animal: what was found and done where it lived since it came, how sure we are today.
/// Errors: not_found for an unknown animal; conflict: cancelled.
[[nodiscard]] base::Result<clearance::Handover> handover_of(const Situation& situation,
                                                            const records::AnimalId& animal,
                                                            const ClearanceOptions& options);

}  // namespace mitefall::service
