#include "service/knowledge.h"

namespace mitefall::service {

base::Result<Knowledge> Knowledge::load() {
    auto tables = evidence::Tables::load_embedded();
    if (!tables) return base::fail(tables.error());
    auto taxa = evidence::Taxa::load_embedded();
    if (!taxa) return base::fail(taxa.error());
    auto ingredients = evidence::Ingredients::load_embedded();
    if (!ingredients) return base::fail(ingredients.error());
    return Knowledge{std::move(*tables), std::move(*taxa), std::move(*ingredients)};
}

units::Strength usual_strength(const Knowledge& knowledge) {
    return knowledge.tables.strength("published_strength_high").value;
}

base::Error cancelled() { return {base::ErrorKind::conflict, "it was cancelled", {}, {}, "ask again", {}}; }

}  // namespace mitefall::service
