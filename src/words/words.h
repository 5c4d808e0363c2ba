#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "safety/verdict.h"
#include "statement/statement.h"

// Every sentence of the core, by the id of what it says. Engines tell what holds (statement/), this folder
// says it.
namespace mitefall::words {

/// Of the keeper. Each has a folder here.
enum class Language { english };

/// A sentence by its id. In it "{name}" stands for the argument of that name, "{name:how}" for the argument
/// shown in another way, "{name|other words}" for what is said where the argument is empty.
struct Sentence {
    /// Where it is of one word of a list, with that word, which is the first of its arguments: "treat/soak".
    std::string_view id;
    std::string_view text;
    /// What is said once of all to which the rule applies, and what is of one of them alone. Empty: the whole
    /// text is said of all, and nothing of one alone.
    std::string_view common{};
    std::string_view own{};
};

/// Every sentence of the language.
[[nodiscard]] const std::vector<Sentence>& all_sentences(Language language);

/// The statement as a sentence, without a full stop. Throws ContractViolation for an id without one.
[[nodiscard]] std::string say(const statement::Statement& statement, Language language = Language::english);

/// Sentence after sentence, each with its full stop.
[[nodiscard]] std::string say_all(const std::vector<statement::Statement>& statements,
                                  Language language = Language::english);

/// The same in two parts: what may be said once for all, and what is of this one alone (may be empty).
struct Shared {
    std::string common;
    std::string own;
};
[[nodiscard]] Shared say_shared(const statement::Statement& statement, Language language = Language::english);

/// "it weighs 95 g; ... What to do: spray the bedding only".
[[nodiscard]] std::string say_with_remedy(const safety::Reason& reason,
                                          Language language = Language::english);

/// A word of a fixed list.
[[nodiscard]] std::string say(const statement::Term& term, Language language = Language::english);

}  // namespace mitefall::words
