#pragma once

#include "base/vocabulary.h"

// Closed choices of the records. The text of each is part of the file format: never change one once
// published. The choices of web pages and schemas follow from here (docs/schemas/vocabulary.schema.json).
namespace mitefall::records {

using base::all_of;
using base::Choice;
using base::from_text;
using base::list_texts;
using base::to_text;

enum class Material { sealed, porous };  ///< plastic or glass; wood, bare or cracked
[[nodiscard]] constexpr auto vocabulary_of(Material) {
    using enum Material;
    return base::vocabulary("material", sealed, "sealed", porous, "porous");
}

enum class Substrate { paper, loose, none };
[[nodiscard]] constexpr auto vocabulary_of(Substrate) {
    using enum Substrate;
    return base::vocabulary("substrate", paper, "paper", loose, "loose", none, "none");
}

enum class ShedState {
    cloudy,
    shed,
    clear,  ///< no longer cloudy, and no shed was seen
};
[[nodiscard]] constexpr auto vocabulary_of(ShedState) {
    using enum ShedState;
    return base::vocabulary("shed state", cloudy, "cloudy", shed, "shed", clear, "clear");
}

enum class Condition { sick, thin, dehydrated, neonate, gravid, neurological, reacted };
[[nodiscard]] constexpr auto vocabulary_of(Condition) {
    using enum Condition;
    return base::vocabulary("condition", sick, "sick", thin, "thin", dehydrated, "dehydrated", neonate,
                            "neonate", gravid, "gravid", neurological, "neurological", reacted, "reacted");
}

/// A sign that means a veterinarian today.
enum class Sign {
#define SIGN(value, text) value,
#include "records/signs.def"
#undef SIGN
};
[[nodiscard]] constexpr auto vocabulary_of(Sign) {
#define SIGN(value, text) , Sign::value, text
    return base::vocabulary("sign"
#include "records/signs.def"
    );
#undef SIGN
}

/// How an animal left the collection.
enum class LeftHow { sold, given_away, died, put_to_sleep, escaped, otherwise };
[[nodiscard]] constexpr auto vocabulary_of(LeftHow) {
    using enum LeftHow;
    return base::vocabulary("way to leave", sold, "sold", given_away, "given-away", died, "died",
                            put_to_sleep, "put-to-sleep", escaped, "escaped", otherwise, "otherwise");
}

/// How many mites were seen.
enum class SeenCount { none, one, few, many, masses };  ///< 0; 1; 2-10; 11-50; more
[[nodiscard]] constexpr auto vocabulary_of(SeenCount) {
    using enum SeenCount;
    return base::vocabulary("count of mites", none, "none", one, "1", few, "2-10", many, "11-50", masses,
                            "more");
}

enum class SeenWhere { on_animal, in_water, on_hands, on_paper };
[[nodiscard]] constexpr auto vocabulary_of(SeenWhere) {
    using enum SeenWhere;
    return base::vocabulary("place of a sighting", on_animal, "on-animal", in_water, "in-water", on_hands,
                            "on-hands", on_paper, "on-paper");
}

enum class CheckMethod { look_over, soak, wipe, paper_trap };
[[nodiscard]] constexpr auto vocabulary_of(CheckMethod) {
    using enum CheckMethod;
    return base::vocabulary("way to check", look_over, "look-over", soak, "soak", wipe, "wipe", paper_trap,
                            "paper-trap");
}

/// What became of a meal.
enum class MealOutcome {
    eaten,
    refused,
    regurgitated,  ///< brought up again
};
[[nodiscard]] constexpr auto vocabulary_of(MealOutcome) {
    using enum MealOutcome;
    return base::vocabulary("outcome of a meal", eaten, "eaten", refused, "refused", regurgitated,
                            "regurgitated");
}

/// What was in contact with animals or their keepers elsewhere.
enum class OutsideKind {
    show,
    shop,
    animal_held,  ///< somebody else's animal, held
    visitor,      ///< somebody who has animals
    borrowed_thing,
    second_hand_wood,
    live_plants,
};
[[nodiscard]] constexpr auto vocabulary_of(OutsideKind) {
    using enum OutsideKind;
    return base::vocabulary("contact with the outside", show, "show", shop, "shop", animal_held,
                            "animal-held", visitor, "visitor", borrowed_thing, "borrowed-thing",
                            second_hand_wood, "second-hand-wood", live_plants, "live-plants");
}

}  // namespace mitefall::records
