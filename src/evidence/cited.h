#pragma once

#include <string>
#include <string_view>

#include "base/vocabulary.h"

namespace mitefall::evidence {

/// How far a number may be trusted (docs/sources/README.md).
enum class Tag {
    read,             ///< R: read in the named text
    read_in_citing,   ///< R2: read in a text that cites the named one
    memory,           ///< M: from memory, to be verified
    computed,         ///< C: computed from figures beside it
    common_practice,  ///< P: a rule of the trade; nobody has published it
    assumption,       ///< A: ours
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Tag) {
    using enum Tag;
    return base::vocabulary("tag of a source", read, "R", read_in_citing, "R2", memory, "M", computed, "C",
                            common_practice, "P", assumption, "A");
}
[[nodiscard]] std::string explain(Tag tag);  ///< "common practice, no published source"

/// A number with what is needed to doubt it: the range it may lie in and where it comes from. The texts are
/// those of the tables it is from, which must outlive them.
template <class T>
struct Cited {
    T value{};
    T low{};
    T high{};
    std::string_view source;  ///< full citation; empty for common practice and assumptions
    Tag tag = Tag::assumption;
    std::string_view key;      ///< name in the evidence tables
    std::string_view meaning;  ///< one line for people
};

}  // namespace mitefall::evidence
