#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/result.h"
#include "cli/parse.h"
#include "records/facts.h"

// The options of a "record KIND" command, each told once: its name, the member of the fact it fills, its
// help.
namespace mitefall::cli {

using FactMaker = std::function<base::Result<records::Fact>()>;

/// The text of an option as what a member holds: a choice by its text, an amount with its unit ("450 g"), a
/// name as it stands. An error names the option.
template <class T>
[[nodiscard]] base::Result<T> parse_as(const std::string& option, const std::string& text) {
    if constexpr (std::is_enum_v<T>)
        return parse_choice<T>(option, text);
    else if constexpr (std::is_same_v<T, units::Mass>)
        return for_option(option, units::parse_mass(text));
    else if constexpr (std::is_same_v<T, units::Strength>)
        return for_option(option, units::parse_strength(text));
    else if constexpr (std::is_same_v<T, units::Temperature>)
        return for_option(option, units::parse_temperature(text));
    else if constexpr (std::is_same_v<T, units::Day>)
        return for_option(option, units::parse_day(text));
    else
        return T(text);
}

template <class T>
[[nodiscard]] base::Result<std::vector<T>> parse_all(const std::string& option,
                                                     const std::vector<std::string>& texts) {
    std::vector<T> values;
    for (const std::string& text : texts) {
        auto value = parse_as<T>(option, text);
        if (!value) return base::fail(value.error());
        values.push_back(std::move(*value));
    }
    return values;
}

/// Options that fill the members of a fact, in the order in which they are told. A member whose option is
/// left out stays as the fact begins. A member is told as `&F::member`, or as a function that gives it.
template <class F>
class FactOptions {
  public:
    explicit FactOptions(CLI::App& command) : command_(&command) {}

    /// An option, or a word in its place, that must be said.
    template <class M>
    FactOptions& needs(const std::string& name, M member, const std::string& about = {}) {
        add(name, member, about)->required();
        return *this;
    }
    template <class M>
    FactOptions& may(const std::string& name, M member, const std::string& about = {}) {
        add(name, member, about);
        return *this;
    }
    /// A choice that may be left out; help tells how the fact begins.
    template <class M>
    FactOptions& begins(const std::string& name, M member, const std::string& about) {
        F fact{};
        add(name, member, about)->default_str(std::string(records::to_text(std::invoke(member, fact))));
        return *this;
    }
    /// A number that stands for an amount; without `usual` it must be said.
    template <class M>
    FactOptions& number(const std::string& name, M member, auto amount_of, const std::string& about,
                        std::optional<double> usual = {}) {
        const auto said = std::make_shared<double>(usual.value_or(0));
        CLI::Option* const option = command_->add_option(name, *said, about);
        if (usual)
            option->capture_default_str();
        else
            option->required();
        return then([said, member, amount_of](F& fact) { std::invoke(member, fact) = amount_of(*said); });
    }
    /// A flag; where it is given, the member is `given`.
    template <class M>
    FactOptions& flag(const std::string& name, M member, const std::string& about, bool given = true) {
        const auto is_so = std::make_shared<bool>(false);
        const CLI::Option* const option = command_->add_flag(name, *is_so, about);
        return then([is_so, option, member, given](F& fact) {
            if (option->count() > 0) std::invoke(member, fact) = (*is_so == given);
        });
    }
    /// One of two words.
    template <class M>
    FactOptions& either(const std::string& name, M member, const std::string& yes, const std::string& no,
                        const std::string& about = {}) {
        const auto said = std::make_shared<std::string>();
        command_->add_option(name, *said, about.empty() ? yes + " or " + no : about)
            ->required()
            ->check(CLI::IsMember({yes, no}));
        return then([said, member, yes](F& fact) { std::invoke(member, fact) = *said == yes; });
    }
    /// What the options before it leave open.
    FactOptions& then(std::function<void(F&)> step) {
        steps_->push_back([step = std::move(step)](F& fact) {
            step(fact);
            return base::Result<void>{};
        });
        return *this;
    }

    [[nodiscard]] base::Result<records::Fact> operator()() const {
        F fact{};
        for (const auto& step : *steps_)
            if (const auto done = step(fact); !done) return base::fail(done.error());
        return fact;
    }

  private:
    /// How a member is said: numbers as such, lists as lists, all else as text.
    template <class T>
    struct Said {
        using Type = std::conditional_t<std::is_arithmetic_v<T>, T, std::string>;
        static base::Result<T> read(const std::string& name, const Type& said) {
            if constexpr (std::is_arithmetic_v<T>)
                return said;
            else
                return parse_as<T>(name, said);
        }
    };
    template <class T>
    struct Said<std::optional<T>> : Said<T> {};
    template <class T>
    struct Said<std::vector<T>> {
        using Type = std::vector<std::string>;
        static base::Result<std::vector<T>> read(const std::string& name, const Type& said) {
            return parse_all<T>(name, said);
        }
    };

    template <class M>
    CLI::Option* add(const std::string& name, M member, const std::string& about) {
        using Form = Said<std::remove_cvref_t<std::invoke_result_t<M, F&>>>;
        const auto said = std::make_shared<typename Form::Type>();
        CLI::Option* const option = command_->add_option(name, *said, about);
        steps_->push_back([=](F& fact) -> base::Result<void> {
            if (option->count() == 0) return {};
            auto value = Form::read(name, *said);
            if (!value) return base::fail(value.error());
            std::invoke(member, fact) = std::move(*value);
            return {};
        });
        return option;
    }

    CLI::App* command_;
    std::shared_ptr<std::vector<std::function<base::Result<void>(F&)>>> steps_ =
        std::make_shared<std::vector<std::function<base::Result<void>(F&)>>>();
};

}  // namespace mitefall::cli
