#pragma once

#include <vector>

#include "safety/check.h"

// Animals that are dangerous to whoever works in their enclosure, whatever the work is.
namespace mitefall::safety {

/// It is venomous, or nobody knows: its kind is not on file, not known here, or "some snake".
[[nodiscard]] bool may_be_venomous(const std::optional<evidence::Taxon>& taxon);

/// One of these animals may be venomous: no task by hand, checks by paper trap or through the glass.
[[nodiscard]] bool is_any_venomous(const Case& with, const std::vector<records::AnimalId>& animals);

/// The same of whoever lives in the enclosure.
[[nodiscard]] bool is_venomous_inside(const Case& with, const records::EnclosureId& enclosure);

/// What stands beside every task that concerns these animals: a shift box and a second person for venomous
/// ones and those of which it is not known, two people for very long ones.
void warn_of_handling(const Case& with, const std::vector<records::AnimalId>& animals,
                      std::vector<Caution>& cautions);

/// The same for whoever lives in the enclosure.
[[nodiscard]] std::vector<Caution> handling_cautions(const Case& with, const records::EnclosureId& enclosure);

}  // namespace mitefall::safety
