#pragma once

#include "evidence/ingredients.h"
#include "evidence/tables.h"
#include "evidence/taxa.h"
#include "service/result.h"
#include "units/amounts.h"

namespace mitefall::service {

/// What does not change from collection to collection.
struct Knowledge {
    evidence::Tables tables;
    evidence::Taxa taxa;
    evidence::Ingredients ingredients;
    [[nodiscard]] static base::Result<Knowledge> load();
};

/// Strength a plan uses unless told otherwise: the strongest of the published range, whatever else was
/// acknowledged. A stronger one is asked for by name.
[[nodiscard]] units::Strength usual_strength(const Knowledge& knowledge);

/// Of an answer whose asker no longer waits for it.
[[nodiscard]] base::Error cancelled();

}  // namespace mitefall::service
