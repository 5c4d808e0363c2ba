#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/vocabulary.h"
#include "evidence/ingredients.h"
#include "evidence/tables.h"
#include "mixing/label.h"
#include "safety/methods.h"
#include "safety/verdict.h"

// What stands in the cupboard: what may a bottle be used on, by what its label names?
namespace mitefall::safety {

/// What speaks against one use, most severe first; allowed only without any reason.
struct UseRuling {
    Ruling ruling = Ruling::allowed;
    std::vector<Reason> reasons;
};

/// One line of the label.
struct IngredientRuling {
    mixing::LabelLine line;
    std::optional<evidence::Ingredient> known;  ///< none: not known here, and allowed for nothing
    std::vector<std::string> like;  ///< of an unknown one: names to choose from, never to decide by
    UseRuling on_animal;
    UseRuling in_empty;
};

/// What a bottle is good for, from nothing on.
enum class Usable {
    nothing,
    empty_once_thinned,   ///< an emptied enclosure, thinned to the usual strength
    empty,                ///< an emptied enclosure, as it is
    animal_once_thinned,  ///< a spray mixed from it; each animal by its verdict
    animal,               ///< as it is; each animal by its verdict
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Usable) {
    using enum Usable;
    return base::vocabulary("use of a product", nothing, "nothing", empty_once_thinned, "empty-once-thinned",
                            empty, "empty", animal_once_thinned, "animal-once-thinned", animal, "animal");
}

/// A bottle the program can reckon with: what it is and the strength it is used at.
struct Reckoned {
    Agent agent = Agent::none;
    units::Strength strength;  ///< of the label
    units::Strength used_at;   ///< no stronger: the strongest published spray, the usual permethrin
    [[nodiscard]] bool is_to_be_thinned() const;
};

struct LabelRuling {
    std::vector<IngredientRuling> ingredients;  ///< in the order of the label
    UseRuling on_animal;                        ///< by the worst of them, and by what the whole is
    UseRuling in_empty;
    Usable usable = Usable::nothing;
    std::optional<Reckoned> reckoned;
    std::vector<Caution> cautions;  ///< none where it is good for nothing
};

/// Judges a bottle by its worst ingredient. Says nothing of one animal or enclosure: that is `judge`.
[[nodiscard]] LabelRuling judge_label(const mixing::Label& label, const evidence::Ingredients& ingredients,
                                      const evidence::Tables& tables);

enum class Alike {
    same,            ///< the same active ingredients in the same strengths and form
    other_strength,  ///< the same active ingredients
    other_form,      ///< the same active ingredients, but another form
    not_told,        ///< the same names, but something about them is not known
    shared,          ///< some in common
    different,
};
[[nodiscard]] constexpr auto vocabulary_of(Alike) {
    using enum Alike;
    return base::vocabulary("likeness of two labels", same, "same", other_strength, "other-strength",
                            other_form, "other-form", not_told, "not-told", shared, "shared", different,
                            "different");
}

/// Two labels side by side, by their active ingredients.
struct LabelComparison {
    Alike alike = Alike::different;
    std::vector<std::string> both, only_first, only_second;  ///< names as the table has them
    std::optional<double> times;  ///< of one active ingredient in both: the second over the first
};
[[nodiscard]] LabelComparison compare_labels(const LabelRuling& first, mixing::StockForm first_form,
                                             const LabelRuling& second, mixing::StockForm second_form);

}  // namespace mitefall::safety
