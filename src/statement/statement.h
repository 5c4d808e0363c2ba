#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "units/amounts.h"
#include "units/climate.h"
#include "units/day.h"

// What is to be told, before any language: an id and typed arguments. Engines make statements, words/ makes
// sentences of them, faces show those; nobody reads a sentence to learn what it says.
namespace mitefall::statement {

/// An animal, a place or a bystander. Without an id it is none of the collection; without a name nobody named
/// it.
struct Who {
    std::string id;
    std::string name;
    friend bool operator==(const Who&, const Who&) = default;
};
using Names = std::vector<Who>;

/// A word of a fixed list, by the list and the key it has in files and answers: {"method", "spray-animal"}.
struct Term {
    std::string_view vocabulary;
    std::string_view key;
    friend bool operator==(const Term&, const Term&) = default;
};

struct Statement;

/// std::string: as a keeper or a veterinarian wrote it, or a name. double: a plain number.
using Value =
    std::variant<units::Day, units::TimeSpan, units::Mass, units::Strength, units::Dose, units::Temperature,
                 units::Area, double, std::string, Term, Names, std::vector<Statement>>;

struct Argument {
    std::string_view name;
    Value value;
    friend bool operator==(const Argument&, const Argument&) = default;
};

struct Statement {
    std::string_view id;  ///< of a `Kind`; empty: nothing is told
    std::vector<Argument> arguments{};

    [[nodiscard]] bool empty() const { return id.empty(); }
    friend bool operator==(const Statement&, const Statement&) = default;
};

/// The same text for the same statement only: to gather what is said more than once.
[[nodiscard]] std::string key_of(const Statement& statement);

/// The ids in its arguments that are of the collection, not of statements inside it.
[[nodiscard]] std::vector<std::string> ids_in(const Statement& statement);

/// The names of arguments and their types, in order: takes<units::Day>("since").
template <class... Types>
struct Takes {
    std::array<std::string_view, sizeof...(Types)> names;
};

template <class... Types>
constexpr Takes<Types...> takes(std::string_view names = {}) {
    Takes<Types...> taken{};
    std::size_t count = 0;
    while (!names.empty()) {
        const std::size_t end = std::min(names.find(' '), names.size());
        if (count == sizeof...(Types)) throw "more names than types";
        taken.names.at(count++) = names.substr(0, end);
        names.remove_prefix(std::min(end + 1, names.size()));
    }
    if (count != sizeof...(Types)) throw "a name for every type";
    return taken;
}

/// A kind of statement. Called with its arguments it makes one: the compiler checks their types.
template <class... Types>
struct Kind {
    std::string_view id;
    Takes<Types...> takes;

    [[nodiscard]] Statement operator()(Types... values) const {
        return make(std::index_sequence_for<Types...>{}, std::move(values)...);
    }

  private:
    template <std::size_t... I>
    [[nodiscard]] Statement make(std::index_sequence<I...>, Types... values) const {
        Statement statement{id, {}};
        statement.arguments.reserve(sizeof...(Types));
        (statement.arguments.push_back({takes.names[I], Value(std::move(values))}), ...);
        return statement;
    }
};

template <class... Types>
constexpr Kind<Types...> kind(std::string_view id, Takes<Types...> taken) {
    return {id, taken};
}

/// An id and the names of its arguments, for lists of all that can be told.
struct Row {
    std::string_view id;
    std::vector<std::string_view> arguments;
};

template <class... Types>
[[nodiscard]] Row row_of(const Kind<Types...>& one) {
    return {one.id, {one.takes.names.begin(), one.takes.names.end()}};
}

}  // namespace mitefall::statement
