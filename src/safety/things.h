#pragma once

#include <vector>

#include "safety/permit.h"

// What is to be heeded when a thing is freed of mites, and whether it may be sprayed.
namespace mitefall::safety {

/// The first day on which a thing taken out on `day` may go back.
[[nodiscard]] units::Day back_from(records::ThingMethod method, units::Day day,
                                   const evidence::Tables& tables);

/// It is not back yet from the last time.
[[nodiscard]] bool is_away(const records::Thing& thing, units::Day day, const evidence::Tables& tables);

[[nodiscard]] std::vector<Caution> cautions_for(records::ThingKind kind, records::ThingMethod method,
                                                const evidence::Tables& tables);

/// A spray on a thing is one on the enclosure or the room it goes back to.
[[nodiscard]] Permit permit_spray(const Case& with, const records::Thing& thing, units::Day day);

}  // namespace mitefall::safety
