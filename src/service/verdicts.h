#pragma once

#include "safety/cautions.h"
#include "service/situation.h"
#include "worklist/mix_sheet.h"

// What may be given to whom.
namespace mitefall::service {

[[nodiscard]] std::vector<safety::Verdict> verdicts_of(const Situation& situation, units::Strength strength);

/// What a misting at that strength would leave on each animal, and whether it may be given.
[[nodiscard]] std::vector<worklist::MistOnAnimal> mists_of(const Situation& situation,
                                                           units::Strength strength);

/// What whoever uses a spray reads first.
[[nodiscard]] std::vector<safety::Caution> spray_cautions(const Knowledge& knowledge);

}  // namespace mitefall::service
