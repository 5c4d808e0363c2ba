#pragma once

#include <string>

// What the methods of treatment do in the model, told from their table.
namespace mitefall::formats {

/// "spray-animal: kill on-animal; ... soak, wipe: kill on-animal": those side by side that do the same are
/// told together.
[[nodiscard]] std::string effects_of_methods();

/// "soak kill_soak; ...", of those that no strength makes stronger.
[[nodiscard]] std::string chances_of_methods();

}  // namespace mitefall::formats
