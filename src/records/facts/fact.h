#pragma once

#include <string_view>
#include <variant>

#include "base/result.h"

// What every kind of fact is made of. A kind is one struct: its members, and
//
//     static constexpr std::string_view kind       its name in the journal; never changed, never used again
//     static constexpr bool bears_on_treatment     damaged, it may be the one that speaks against a treatment
//     static void fields(fact, archive)            its members by their keys, for whoever writes or reads it
//     static Applied apply(fact, effect)           what it does to the collection, or why it cannot have been
//     static Applied check(fact)                   whether a new one is possible by itself; left out: always
//     static Applied check_amounts(fact)           the part of it that no version ever accepted otherwise:
//                                                  amounts, order, short names; left out: nothing
//
// A key is part of the file format and of the answers, and ends in its unit where it has one. `field` is in
// every file; `later_field` came after the first files: it is written only where it differs from the value
// the fact has without it, which is what files without it mean.
namespace mitefall::records {

struct Effect;  ///< where and when a fact takes effect (records/apply.h)
using Applied = base::Result<void>;

/// How answers tell a member that says nothing (empty, zero, false). The file always holds it as it is.
enum class Unsaid {
    as_it_is,
    null,
    left_out,
    told_otherwise,  ///< whatever it says, answers tell it in another shape (formats/json/facts.cpp)
};

/// The key of a member.
struct Key {
    const char* text;
    Unsaid unsaid = Unsaid::as_it_is;
    constexpr Key(const char* key) : text(key) {}  // NOLINT(google-explicit-constructor): most keys are plain
    constexpr Key(const char* key, Unsaid as) : text(key), unsaid(as) {}
    constexpr operator const char*() const { return text; }       // NOLINT(google-explicit-constructor)
    constexpr operator std::string_view() const { return text; }  // NOLINT(google-explicit-constructor)
};
constexpr Key or_null(const char* key) { return {key, Unsaid::null}; }
constexpr Key or_left_out(const char* key) { return {key, Unsaid::left_out}; }
constexpr Key told_otherwise(const char* key) { return {key, Unsaid::told_otherwise}; }

/// Gives each member of a fact, or of a row within one, to the archive.
template <class Archive, class Fact>
requires requires(Archive& archive, Fact& fact) { Fact::fields(fact, archive); }
void list_fields(Archive& archive, Fact& fact) { Fact::fields(fact, archive); }

/// A list of kinds. Their order means nothing.
template <class... Kinds>
struct KindList {
    using Variant = std::variant<Kinds...>;
};

template <class... Lists>
struct Joined;
template <class... Kinds>
struct Joined<KindList<Kinds...>> : KindList<Kinds...> {};
template <class... Some, class... More, class... Rest>
struct Joined<KindList<Some...>, KindList<More...>, Rest...> : Joined<KindList<Some..., More...>, Rest...> {};

}  // namespace mitefall::records
