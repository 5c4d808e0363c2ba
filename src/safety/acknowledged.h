#pragma once

#include "evidence/tables.h"
#include "records/collection.h"

// Who has accepted a spray stronger than any published one, and up to where anybody may.
namespace mitefall::safety {

/// Above the strongest spray of any practice known (row highest_spray_strength): nothing is permitted.
[[nodiscard]] bool is_beyond_practice(units::Strength strength, const evidence::Tables& tables);

/// The caution about this strength was read and accepted for this animal, by that day.
[[nodiscard]] bool is_acknowledged(const records::Animal& animal, units::Strength strength, units::Day day);

/// The same with no animal named: it holds for places where no animal lives, and for no animal.
[[nodiscard]] bool is_acknowledged_for_empty(const records::Collection& collection, units::Strength strength);

/// A veterinarian's direction names this strength or a stronger one for a spray.
[[nodiscard]] bool is_directed(const records::Animal& animal, units::Strength strength, units::Day day);

/// Somebody or some place may be sprayed with it, so that a bottle of it may be made. What it may be used on
/// is judged for each.
[[nodiscard]] bool may_be_made(const records::Collection& collection, units::Strength strength,
                               units::Day day, const evidence::Tables& tables);

}  // namespace mitefall::safety
