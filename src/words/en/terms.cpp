#include "words/en/terms.h"

#include <fmt/format.h>

#include "base/contract.h"
#include "evidence/ingredients.h"
#include "evidence/taxa.h"
#include "records/method.h"
#include "records/thing.h"

namespace mitefall::words::en {

std::string and_more(const std::string& names, std::size_t more) {
    return fmt::format("{} and {} more", names, more);
}

std::string counted(double number, std::string_view thing) {
    return fmt::format("{:.0f} {}{}", number, thing, number == 1 ? "" : "s");
}

std::string days(const std::string& number) { return number + " days"; }

std::string with_remedy(const std::string& what, const std::string& remedy) {
    return fmt::format("{}. What to do: {}", what, remedy);
}

namespace {

std::string outside(std::string_view key) {
    switch (records::from_text<records::OutsideKind>(key).value_or(records::OutsideKind::show)) {
        case records::OutsideKind::show: return "a show";
        case records::OutsideKind::shop: return "a shop";
        case records::OutsideKind::animal_held: return "an animal held elsewhere";
        case records::OutsideKind::visitor: return "a visitor";
        case records::OutsideKind::borrowed_thing: return "a borrowed thing";
        case records::OutsideKind::second_hand_wood: return "second-hand wood";
        case records::OutsideKind::live_plants: return "live plants";
    }
    return {};
}

std::string ingredient_class(std::string_view key) {
    using evidence::IngredientClass;
    switch (base::from_text<IngredientClass>(key).value_or(IngredientClass::not_named)) {
        case IngredientClass::ivermectin: return "avermectin";
        case IngredientClass::permethrin: return "pyrethroid";
        case IngredientClass::macrocyclic_lactone: return "kin of ivermectin";
        case IngredientClass::isoxazoline: return "isoxazoline, on prescription";
        case IngredientClass::pyrethroid: return "pyrethroid";
        case IngredientClass::pyrethrin: return "pyrethrins";
        case IngredientClass::synergist: return "synergist: strengthens pyrethrins";
        case IngredientClass::organophosphate: return "organophosphate";
        case IngredientClass::carbamate: return "carbamate";
        case IngredientClass::other_nerve_poison: return "poison of the nerves";
        case IngredientClass::fipronil: return "phenylpyrazole";
        case IngredientClass::neonicotinoid: return "neonicotinoid";
        case IngredientClass::growth_regulator: return "insect growth regulator";
        case IngredientClass::other_insecticide: return "other insecticide";
        case IngredientClass::food_oil: return "food oil";
        case IngredientClass::film: return "oil or silicone";
        case IngredientClass::mild_soap: return "mild soap";
        case IngredientClass::strong_soap: return "soap or surfactant";
        case IngredientClass::alcohol: return "alcohol";
        case IngredientClass::antiseptic: return "antiseptic";
        case IngredientClass::disinfectant: return "disinfectant";
        case IngredientClass::bleach: return "bleach";
        case IngredientClass::phenol: return "phenol";
        case IngredientClass::essential_oil: return "essential oil";
        case IngredientClass::dust: return "drying dust";
        case IngredientClass::borate: return "borate";
        case IngredientClass::sulfur: return "sulfur";
        case IngredientClass::repellent: return "repellent";
        case IngredientClass::vapour: return "works by its vapour";
        case IngredientClass::other_drug: return "another drug";
        case IngredientClass::carrier: return "carrier";
        case IngredientClass::not_named: return "not named";
    }
    return {};
}

std::string sign(std::string_view key) {
    const auto known = records::from_text<records::Sign>(key);
    base::expects(known.has_value(), "a term of signs is one of them");
    switch (*known) {
        case records::Sign::pale_gums: return "pale gums";
        case records::Sign::limp: return "limp";
        case records::Sign::gaping: return "gaping, or bubbles at mouth or nose";
        case records::Sign::cannot_right_itself: return "cannot right itself";
        case records::Sign::red_belly: return "red belly or blisters";
        case records::Sign::swollen_eyes: return "swollen eyes";
        case records::Sign::retained_eye_caps: return "eye caps kept after a shed";
        case records::Sign::not_eating: return "not eating and losing weight";
        case records::Sign::many_mites: return "more than 50 mites on a small animal";
    }
    return {};
}

}  // namespace

std::string term(const statement::Term& term) {
    if (term.vocabulary == "method") {
        if (const auto method = records::from_text<records::Method>(term.key))
            return std::string(records::describe(*method));
    }
    if (term.vocabulary == "kind") {
        if (const auto kind = base::from_text<evidence::TaxonGroup>(term.key))
            return std::string(evidence::describe(*kind));
    }
    if (term.vocabulary == "thing") {
        if (const auto thing = records::from_text<records::ThingKind>(term.key))
            return std::string(records::row_of(*thing).name);
    }
    if (term.vocabulary == "sign") return sign(term.key);
    if (term.vocabulary == "outside") return outside(term.key);
    if (term.vocabulary == "ingredient-class") return ingredient_class(term.key);
    return std::string(term.key);
}

}  // namespace mitefall::words::en
