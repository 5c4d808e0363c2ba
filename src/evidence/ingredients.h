#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/vocabulary.h"
#include "evidence/tables.h"

// What labels name: ingredients by their common chemical names.
namespace mitefall::evidence {

/// What the safety check tells apart about what is in a bottle.
enum class IngredientClass {
    ivermectin,
    permethrin,
    macrocyclic_lactone,  ///< kin of ivermectin
    isoxazoline,
    pyrethroid,  ///< other than permethrin
    pyrethrin,
    synergist,
    organophosphate,
    carbamate,
    other_nerve_poison,
    fipronil,
    neonicotinoid,
    growth_regulator,
    other_insecticide,
    food_oil,
    film,  ///< oils and silicones that are no food
    mild_soap,
    strong_soap,
    alcohol,
    antiseptic,
    disinfectant,
    bleach,
    phenol,
    essential_oil,
    dust,
    borate,
    sulfur,
    repellent,
    vapour,
    other_drug,
    carrier,
    not_named,  ///< "other ingredients": whoever made it does not say
};

[[nodiscard]] constexpr auto vocabulary_of(IngredientClass) {
    using enum IngredientClass;
    return base::vocabulary(
        "class of ingredients", ivermectin, "ivermectin", permethrin, "permethrin", macrocyclic_lactone,
        "macrocyclic-lactone", isoxazoline, "isoxazoline", pyrethroid, "pyrethroid", pyrethrin, "pyrethrin",
        synergist, "synergist", organophosphate, "organophosphate", carbamate, "carbamate",
        other_nerve_poison, "other-nerve-poison", fipronil, "fipronil", neonicotinoid, "neonicotinoid",
        growth_regulator, "growth-regulator", other_insecticide, "other-insecticide", food_oil, "food-oil",
        film, "film", mild_soap, "mild-soap", strong_soap, "strong-soap", alcohol, "alcohol", antiseptic,
        "antiseptic", disinfectant, "disinfectant", bleach, "bleach", phenol, "phenol", essential_oil,
        "essential-oil", dust, "dust", borate, "borate", sulfur, "sulfur", repellent, "repellent", vapour,
        "vapour", other_drug, "other-drug", carrier, "carrier", not_named, "not-named");
}

struct Ingredient {
    std::string name;
    std::vector<std::string> also;  ///< other spellings
    IngredientClass kind = IngredientClass::not_named;
};

/// The ingredients the program knows. One it does not know is never taken for a safe one.
///
/// File format (TOML 1.0): `[[ingredient]]` with `name`, `class`, and where there are some `also`.
class Ingredients {
  public:
    /// Errors name file, line and key.
    [[nodiscard]] static base::Result<Ingredients> load(std::span<const TableText> files);

    /// The table carried inside the program.
    [[nodiscard]] static base::Result<Ingredients> load_embedded();

    /// The ingredient of that name; null: none. Case, spaces and hyphens do not matter; spelling does.
    [[nodiscard]] const Ingredient* find(std::string_view text) const;

    /// Ingredients with a name much like `text`, nearest first, at most three. For a person to choose from,
    /// never to decide by.
    [[nodiscard]] std::vector<std::string> suggest(std::string_view text) const;

    [[nodiscard]] const std::vector<Ingredient>& all() const { return ingredients_; }

  private:
    /// The name that is taken, if one is.
    [[nodiscard]] std::optional<std::string> add(Ingredient ingredient);

    std::vector<Ingredient> ingredients_;
    std::map<std::string, std::size_t, std::less<>> by_name_;  // letters and digits only, lower case
};

}  // namespace mitefall::evidence
