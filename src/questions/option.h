#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/result.h"
#include "records/vocabulary.h"
#include "units/text.h"

// What a question can be asked with, each option described once. The command line, the reader of queries and
// bodies, the schema and the documentation follow from it.
namespace mitefall::questions {

enum class Type {
    number,  ///< within limits
    whole,   ///< within limits
    flag,
    text,
    choice,  ///< one of the choices
    texts,   ///< repeatable
    names,   ///< typed with commas between them; of the choices, where there are some
    days,    ///< typed with commas between them: 2026-11-29
    facts,   ///< that are not on record; read by the page's side alone
};

/// What was said, by type: number, whole, flag; text and choice; texts and names.
using Value = std::variant<double, std::uint64_t, bool, std::string, std::vector<std::string>>;

struct Limits {
    double low = 0;
    double high = 0;
};

/// Under which names an option is understood.
struct Names {
    std::string_view key;    ///< in JSON and in a query; empty: no page asks it
    std::string_view typed;  ///< "--days", or "ANIMAL" by its place; empty: it is not typed
};

/// One option as both faces, the schema and the documentation see it.
struct Saying {
    Names names;
    Type type = Type::text;
    std::string_view help;
    std::string_view unit = {};
    std::optional<Limits> limits = {};
    std::vector<std::string> choices = {};
    Value otherwise = std::string();  ///< where nothing is said: as the struct of the question has it
    bool is_percent_when_typed = false;
    bool is_required = false;  ///< where it is typed
};

/// One option of the question whose answer is asked for by an O.
template <class O>
struct Option : Saying {
    /// Error invalid_input without a place: the face knows what it calls the option.
    std::function<base::Result<void>(O&, const Value&)> set;

    [[nodiscard]] Option in_percent() && {
        is_percent_when_typed = true;
        return std::move(*this);
    }
    [[nodiscard]] Option required() && {
        is_required = true;
        return std::move(*this);
    }
    [[nodiscard]] Option in(std::string_view what) && {
        unit = what;
        return std::move(*this);
    }
};

template <class O>
struct Question {
    std::string_view name;  ///< the command, and the kind of job
    std::string_view help;
    std::vector<Option<O>> options;
};

// How an option is made from the member it fills. `member` may be one of a base of O.

template <class O, class Member>
[[nodiscard]] Option<O> plainly(Names names, Type type, Member member, std::string_view help,
                                std::optional<Limits> limits = {}) {
    Option<O> option;
    option.names = names;
    option.type = type;
    option.help = help;
    option.limits = limits;
    using T = std::remove_cvref_t<decltype(std::declval<O&>().*member)>;
    using Kept = std::conditional_t<std::is_integral_v<T> && !std::is_same_v<T, bool>, std::uint64_t, T>;
    option.otherwise = static_cast<Kept>(O{}.*member);
    option.set = [member](O& into, const Value& said) -> base::Result<void> {
        into.*member = static_cast<T>(std::get<Kept>(said));
        return {};
    };
    return option;
}

template <class O, class B>
[[nodiscard]] Option<O> number(Names names, double B::*member, Limits limits, std::string_view help) {
    return plainly<O>(names, Type::number, member, help, limits);
}

template <class O, class B, class T>
[[nodiscard]] Option<O> whole(Names names, T B::*member, std::optional<Limits> limits,
                              std::string_view help) {
    return plainly<O>(names, Type::whole, member, help, limits);
}

template <class O, class B>
[[nodiscard]] Option<O> flag(Names names, bool B::*member, std::string_view help) {
    return plainly<O>(names, Type::flag, member, help);
}

template <class O, class B>
[[nodiscard]] Option<O> text(Names names, std::string B::*member, std::string_view help) {
    return plainly<O>(names, Type::text, member, help);
}

template <class O, class B>
[[nodiscard]] Option<O> texts(Names names, std::vector<std::string> B::*member, std::string_view help) {
    return plainly<O>(names, Type::texts, member, help);
}

/// One of an enumeration; `values`: each with its text.
template <class O, class B, class E>
[[nodiscard]] Option<O> choice(Names names, E B::*member, std::vector<std::pair<std::string, E>> values,
                               std::string_view help) {
    Option<O> option;
    option.names = names;
    option.type = Type::choice;
    option.help = help;
    for (const auto& [text, value] : values) {
        option.choices.push_back(text);
        if (value == O{}.*member) option.otherwise = text;
    }
    option.set = [member, values = std::move(values)](O& into, const Value& said) -> base::Result<void> {
        for (const auto& [text, value] : values) {
            if (text == std::get<std::string>(said)) into.*member = value;
        }
        return {};
    };
    return option;
}

/// Read by `read`, which gives an error without a place.
template <class O>
[[nodiscard]] Option<O> read_by(Names names, Type type, std::string_view help, Value otherwise,
                                std::function<base::Result<void>(O&, const Value&)> read) {
    Option<O> option;
    option.names = names;
    option.type = type;
    option.help = help;
    option.otherwise = std::move(otherwise);
    option.set = std::move(read);
    return option;
}

/// A strength as it is written: "10 mg/L".
template <class O, class B>
[[nodiscard]] Option<O> strength(Names names, std::optional<units::Strength> B::*member,
                                 std::string_view help) {
    return read_by<O>(names, Type::text, help, std::string(),
                      [member](O& into, const Value& said) -> base::Result<void> {
                          if (std::get<std::string>(said).empty()) return {};
                          const auto given = units::parse_strength(std::get<std::string>(said));
                          if (!given) return base::fail(given.error());
                          into.*member = *given;
                          return {};
                      });
}

/// Each value of an enumeration of the records with its text.
template <class E>
[[nodiscard]] std::vector<std::pair<std::string, E>> values_of() {
    std::vector<std::pair<std::string, E>> values;
    for (const E value : records::all_of<E>()) values.emplace_back(records::to_text(value), value);
    return values;
}

/// What lists of options have in common, one after the other.
template <class O>
[[nodiscard]] std::vector<Option<O>> together(std::vector<Option<O>> first, std::vector<Option<O>> more) {
    first.insert(first.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
    return first;
}

}  // namespace mitefall::questions
