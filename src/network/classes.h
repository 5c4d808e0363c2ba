#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.h"

namespace mitefall::network {

/// Places whose mites have the same prospects. All walking goes through rooms, so two enclosures of one room
/// with the same conditions and the same events have the same failure probabilities, exactly; and so have two
/// rooms with the same conditions and events, enclosures alike in number and kind, and alike neighbours.
struct Classes {
    std::vector<std::size_t> class_of;                       ///< per place
    std::vector<std::vector<scenario::PlaceIndex>> members;  ///< per class, ascending
};

/// The coarsest such partition that partition refinement finds (Paige & Tarjan 1987, SIAM J. Comput.
/// 16:973-989, in its simple quadratic form): split by own conditions and events, then by the classes that
/// events and walking lead to.
[[nodiscard]] Classes lump(const scenario::Scenario& scenario);

/// The same bytes for scenarios in which each place is like the one of its number in the other, and has the
/// same events.
[[nodiscard]] std::string signature_of(const scenario::Scenario& scenario);

/// Every place its own class: the slow reference.
[[nodiscard]] Classes keep_apart(const scenario::Scenario& scenario);

}  // namespace mitefall::network
