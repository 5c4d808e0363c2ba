#pragma once

#include <string_view>
#include <tuple>
#include <variant>

#include "base/result.h"

// What every kind of fact is made of. A kind is one struct: its members, and
//
//     static constexpr Kind kind                  its name in the journal, never changed, never used again;
//                                                 and whether, damaged, it may be the one that speaks against
//                                                 a treatment
//     static constexpr std::tuple members         its members by their keys, for whoever writes, reads or
//                                                 compares it
//     static Applied apply(fact, effect)          what it does to the collection, or why it cannot have been
//     static Applied check(fact)                  whether a new one is possible by itself; left out: always
//     static Applied check_amounts(fact)          the part of it that no version ever accepted otherwise:
//                                                 amounts, order, short names; left out: nothing
//
// One whose telling depends on what it says has `static void fields(fact, archive)` instead of `members`.
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

/// What an entry that cannot be read may have been.
enum class Damaged { says_nothing, speaks_against_treatment };

/// The name of a kind of fact, and what a damaged one may have said.
struct Kind {
    std::string_view name;
    Damaged damaged;
    constexpr operator std::string_view() const { return name; }  // NOLINT(google-explicit-constructor)
};

/// A member under its key: in every file, or come after the first ones.
template <class Row, class T, bool is_later = false>
struct Member {
    Key key;
    T Row::*where;
    constexpr Member(Key named, T Row::*member) : key(named), where(member) {}
    void give(auto& row, auto& archive) const {
        if constexpr (is_later)
            archive.later_field(key, row.*where);
        else
            archive.field(key, row.*where);
    }
};
template <class Row, class T>
Member(Key, T Row::*) -> Member<Row, T>;

template <class Row, class T>
[[nodiscard]] constexpr Member<Row, T, true> later(Key key, T Row::*member) {
    return {key, member};
}

/// A member whose own members stand among those of the row.
template <class Row, class T>
struct Part {
    T Row::*where;
    constexpr explicit Part(T Row::*member) : where(member) {}
    void give(auto& row, auto& archive) const { list_fields(archive, row.*where); }
};

template <class Row>
concept Listed = requires {
    std::remove_cvref_t<Row>::members;
};

/// A fact, or a row within one, whose members are described.
template <class Row, class Archive>
concept Described = Listed<Row> || requires(Row& row, Archive& archive) {
    std::remove_cvref_t<Row>::fields(row, archive);
};

/// Gives each member of a fact, or of a row within one, to the archive.
template <class Archive, Described<Archive> Row>
void list_fields(Archive& archive, Row& row) {
    if constexpr (Listed<Row>) {
        std::apply([&](const auto&... member) { (member.give(row, archive), ...); },
                   std::remove_cvref_t<Row>::members);
    } else {
        std::remove_cvref_t<Row>::fields(row, archive);
    }
}

/// Equal in every member.
template <Listed Row>
[[nodiscard]] bool operator==(const Row& a, const Row& b) {
    return std::apply(
        [&](const auto&... member) { return ((a.*(member.where) == b.*(member.where)) && ...); },
        Row::members);
}

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
