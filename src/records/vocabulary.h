#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "base/contract.h"

// Closed choices of the records. The text of each is part of the file format: never change one once
// published. The choices of web pages and schemas follow from here (docs/schemas/vocabulary.schema.json).
namespace mitefall::records {

/// One choice and its text.
template <class E>
struct Word {
    E value;
    std::string_view text;
};
template <class E>
Word(E, std::string_view) -> Word<E>;  // clang 14 does not find it by itself

/// Of each closed choice: `what` it is of, and `all` its words, once each, in the order in which they are
/// told.
template <class E>
struct Vocabulary;

enum class Material { sealed, porous };  ///< plastic or glass; wood, bare or cracked
template <>
struct Vocabulary<Material> {
    static constexpr std::string_view what = "material";
    static constexpr std::array all{Word{Material::sealed, "sealed"}, Word{Material::porous, "porous"}};
};

enum class Substrate { paper, loose, none };
template <>
struct Vocabulary<Substrate> {
    static constexpr std::string_view what = "substrate";
    static constexpr std::array all{Word{Substrate::paper, "paper"}, Word{Substrate::loose, "loose"},
                                    Word{Substrate::none, "none"}};
};

enum class ShedState {
    cloudy,
    shed,
    clear,  ///< no longer cloudy, and no shed was seen
};
template <>
struct Vocabulary<ShedState> {
    static constexpr std::string_view what = "shed state";
    static constexpr std::array all{Word{ShedState::cloudy, "cloudy"}, Word{ShedState::shed, "shed"},
                                    Word{ShedState::clear, "clear"}};
};

enum class Condition { sick, thin, dehydrated, neonate, gravid, neurological, reacted };
template <>
struct Vocabulary<Condition> {
    static constexpr std::string_view what = "condition";
    static constexpr std::array all{
        Word{Condition::sick, "sick"},
        Word{Condition::thin, "thin"},
        Word{Condition::dehydrated, "dehydrated"},
        Word{Condition::neonate, "neonate"},
        Word{Condition::gravid, "gravid"},
        Word{Condition::neurological, "neurological"},
        Word{Condition::reacted, "reacted"},
    };
};

/// What is asked of an animal before anything is given to it.
enum class AskedState { shed, gravid, newborn };
template <>
struct Vocabulary<AskedState> {
    static constexpr std::string_view what = "state asked for";
    static constexpr std::array all{
        Word{AskedState::shed, "shed"},
        Word{AskedState::gravid, "gravid"},
        Word{AskedState::newborn, "newborn"},
    };
};

/// A sign that means a veterinarian today.
enum class Sign {
#define SIGN(value, text) value,
#include "records/signs.def"
#undef SIGN
};
template <>
struct Vocabulary<Sign> {
    static constexpr std::string_view what = "sign";
    static constexpr std::array all{
#define SIGN(value, text) Word{Sign::value, text},
#include "records/signs.def"
#undef SIGN
    };
};

/// How an animal left the collection.
enum class LeftHow { sold, given_away, died, put_to_sleep, escaped, otherwise };
template <>
struct Vocabulary<LeftHow> {
    static constexpr std::string_view what = "way to leave";
    static constexpr std::array all{
        Word{LeftHow::sold, "sold"},       Word{LeftHow::given_away, "given-away"},
        Word{LeftHow::died, "died"},       Word{LeftHow::put_to_sleep, "put-to-sleep"},
        Word{LeftHow::escaped, "escaped"}, Word{LeftHow::otherwise, "otherwise"},
    };
};

/// How many mites were seen.
enum class SeenCount { none, one, few, many, masses };  ///< 0; 1; 2-10; 11-50; more
template <>
struct Vocabulary<SeenCount> {
    static constexpr std::string_view what = "count of mites";
    static constexpr std::array all{Word{SeenCount::none, "none"}, Word{SeenCount::one, "1"},
                                    Word{SeenCount::few, "2-10"}, Word{SeenCount::many, "11-50"},
                                    Word{SeenCount::masses, "more"}};
};

enum class SeenWhere { on_animal, in_water, on_hands, on_paper };
template <>
struct Vocabulary<SeenWhere> {
    static constexpr std::string_view what = "place of a sighting";
    static constexpr std::array all{
        Word{SeenWhere::on_animal, "on-animal"}, Word{SeenWhere::in_water, "in-water"},
        Word{SeenWhere::on_hands, "on-hands"}, Word{SeenWhere::on_paper, "on-paper"}};
};

enum class CheckMethod { look_over, soak, wipe, paper_trap };
template <>
struct Vocabulary<CheckMethod> {
    static constexpr std::string_view what = "way to check";
    static constexpr std::array all{Word{CheckMethod::look_over, "look-over"},
                                    Word{CheckMethod::soak, "soak"}, Word{CheckMethod::wipe, "wipe"},
                                    Word{CheckMethod::paper_trap, "paper-trap"}};
};

/// What became of a meal.
enum class MealOutcome {
    eaten,
    refused,
    regurgitated,  ///< brought up again
};
template <>
struct Vocabulary<MealOutcome> {
    static constexpr std::string_view what = "outcome of a meal";
    static constexpr std::array all{Word{MealOutcome::eaten, "eaten"}, Word{MealOutcome::refused, "refused"},
                                    Word{MealOutcome::regurgitated, "regurgitated"}};
};

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
template <>
struct Vocabulary<OutsideKind> {
    static constexpr std::string_view what = "contact with the outside";
    static constexpr std::array all{
        Word{OutsideKind::show, "show"},
        Word{OutsideKind::shop, "shop"},
        Word{OutsideKind::animal_held, "animal-held"},
        Word{OutsideKind::visitor, "visitor"},
        Word{OutsideKind::borrowed_thing, "borrowed-thing"},
        Word{OutsideKind::second_hand_wood, "second-hand-wood"},
        Word{OutsideKind::live_plants, "live-plants"},
    };
};

/// An enumeration whose texts are told here or in records/method.h.
template <class E>
concept Choice = requires {
    Vocabulary<E>::all;
};

/// Every value, in the order in which they are told.
template <Choice E>
[[nodiscard]] constexpr auto all_of() {
    std::array<E, Vocabulary<E>::all.size()> values{};
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = Vocabulary<E>::all[i].value;
    return values;
}

/// "spray-animal". Throws ContractViolation for what is no value of the enumeration.
template <Choice E>
[[nodiscard]] constexpr std::string_view to_text(E value) {
    for (const Word<E>& word : Vocabulary<E>::all) {
        if (word.value == value) return word.text;
    }
    throw base::ContractViolation("contract broken: no such " + std::string(Vocabulary<E>::what));
}

/// The value whose text is `text`, if there is one.
template <Choice E>
[[nodiscard]] constexpr std::optional<E> from_text(std::string_view text) {
    for (const Word<E>& word : Vocabulary<E>::all) {
        if (word.text == text) return word.value;
    }
    return std::nullopt;
}

/// All texts of E, comma separated, for error messages.
template <Choice E>
[[nodiscard]] std::string list_texts() {
    std::string list;
    for (const Word<E>& word : Vocabulary<E>::all) {
        if (!list.empty()) list += ", ";
        list += word.text;
    }
    return list;
}

}  // namespace mitefall::records
