#pragma once

#include <span>
#include <string>

#include "records/collection.h"
#include "words/words.h"

// What a withdrawal says in the journal where nobody gave a reason of their own. The one home of that
// sentence.
namespace mitefall::words {

/// Names what was undone: "undo of adding 999 animals, 40 enclosures and 2 rooms", "undo of 'treated Tub 4:
/// ivermectin spray on the bedding and walls'". `names` is the collection with the entries still in force.
/// Empty for no entries.
[[nodiscard]] std::string undo_of(std::span<const records::Entry> undone, const records::Collection& names,
                                  Language language = Language::english);

/// What somebody did or saw, in the past tense: "treated Ada: ivermectin spray on the animal".
[[nodiscard]] std::string deed_of(const records::Fact& fact, const records::Collection& names,
                                  Language language = Language::english);

}  // namespace mitefall::words
