#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include "base/contract.h"

// Closed choices and the texts they go by in files, answers and options: each told once, beside its
// enumeration, by a function `vocabulary_of`. A text once published is never changed.
namespace mitefall::base {

/// One choice and its text.
template <class E>
struct Word {
    E value;
    std::string_view text;
};

/// All choices of one enumeration, once each, in the order in which they are told.
template <class E, std::size_t N>
struct Vocabulary {
    std::string_view what;  ///< they are of: "shed state"
    std::array<Word<E>, N> all;
};

/// A value, or the text behind one: what `vocabulary` is given in turn.
template <class E>
struct ValueOrText {
    constexpr ValueOrText(E given) : value(given) {}
    constexpr ValueOrText(std::string_view given) : text(given), is_text(true) {}
    constexpr ValueOrText(const char* given) : ValueOrText(std::string_view(given)) {}
    E value{};
    std::string_view text{};
    bool is_text = false;
};

/// For `vocabulary_of`: each value, and its text behind it: Substrate::paper, "paper", Substrate::loose, ...
/// Throws ContractViolation where they do not take turns.
template <class E, class... Texts>
[[nodiscard]] constexpr auto vocabulary(std::string_view what, E first, Texts... texts) {
    constexpr std::size_t count = (1 + sizeof...(texts)) / 2;
    static_assert(count * 2 == 1 + sizeof...(texts), "each value has a text");
    const ValueOrText<E> told[]{first, texts...};
    Vocabulary<E, count> made{what, {}};
    for (std::size_t i = 0; i < count; ++i) {
        const ValueOrText<E>&value = told[2 * i], &text = told[2 * i + 1];
        if (value.is_text || !text.is_text) throw ContractViolation("contract broken: each value has a text");
        made.all[i] = {value.value, text.text};
    }
    return made;
}

/// The same from rows, each of which holds its choice and its text.
template <class Row, std::size_t N, class E>
[[nodiscard]] constexpr Vocabulary<E, N> vocabulary(std::string_view what, const std::array<Row, N>& rows,
                                                    E Row::*value, std::string_view Row::*text) {
    Vocabulary<E, N> told{what, {}};
    for (std::size_t i = 0; i < N; ++i) told.all[i] = {rows[i].*value, rows[i].*text};
    return told;
}

/// Do the rows stand in the order of the enumeration, one for each?
template <class Row, std::size_t N, class E>
[[nodiscard]] constexpr bool in_order(const std::array<Row, N>& rows, E Row::*value) {
    for (std::size_t i = 0; i < N; ++i) {
        if (rows[i].*value != static_cast<E>(i)) return false;
    }
    return true;
}

/// The row of a choice, of rows that stand in its order. Throws ContractViolation for what is no choice.
template <class Row, std::size_t N, class E>
[[nodiscard]] constexpr const Row& row_in(const std::array<Row, N>& rows, E value) {
    const auto place = static_cast<std::size_t>(value);
    if (place < N) return rows[place];
    throw ContractViolation("contract broken: no such row");
}

/// An enumeration with a vocabulary.
template <class E>
concept Choice = std::is_enum_v<E> && requires(E value) {
    vocabulary_of(value);
};

template <Choice E>
inline constexpr auto vocabulary_for = vocabulary_of(E{});

/// Every value, in the order in which they are told.
template <Choice E>
[[nodiscard]] constexpr auto all_of() {
    std::array<E, vocabulary_for<E>.all.size()> values{};
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = vocabulary_for<E>.all[i].value;
    return values;
}

/// "spray-animal". Throws ContractViolation for what is no value of the enumeration.
template <Choice E>
[[nodiscard]] constexpr std::string_view to_text(E value) {
    for (const Word<E>& word : vocabulary_for<E>.all) {
        if (word.value == value) return word.text;
    }
    throw ContractViolation("contract broken: no such " + std::string(vocabulary_for<E>.what));
}

/// The value whose text is `text`, if there is one.
template <Choice E>
[[nodiscard]] constexpr std::optional<E> from_text(std::string_view text) {
    for (const Word<E>& word : vocabulary_for<E>.all) {
        if (word.text == text) return word.value;
    }
    return std::nullopt;
}

/// All texts of E, comma separated, for error messages.
template <Choice E>
[[nodiscard]] std::string list_texts() {
    std::string list;
    for (const Word<E>& word : vocabulary_for<E>.all) {
        if (!list.empty()) list += ", ";
        list += word.text;
    }
    return list;
}

}  // namespace mitefall::base
