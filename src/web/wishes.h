#pragma once

#include "base/result.h"
#include "formats/json/json.h"
#include "formats/words.h"
#include "questions/option.h"
#include "units/text.h"
#include "web/message.h"

// What a page asks for, read from JSON or from a query. Unknown keys and wrong kinds of value are errors that
// name the key.
namespace mitefall::web {

/// Reads the members of one JSON object. The first fault stays; every key must be read before `finish`.
class Members {
  public:
    explicit Members(const formats::Json& object);

    [[nodiscard]] std::string text(std::string_view key, std::string otherwise = "");
    [[nodiscard]] double number(std::string_view key, double otherwise, double low, double high);
    [[nodiscard]] std::uint64_t whole(std::string_view key, std::uint64_t otherwise,
                                      const questions::Limits& limits);
    [[nodiscard]] bool flag(std::string_view key, bool otherwise);
    [[nodiscard]] std::vector<std::string> texts(std::string_view key);
    /// What is said of the option; nullopt: nothing, or nothing that is understood.
    [[nodiscard]] std::optional<questions::Value> value(const questions::Saying& option);
    /// Null where it is missing.
    [[nodiscard]] formats::Json any(std::string_view key);

    /// Error invalid_input: the first fault, or a key nobody asked for.
    [[nodiscard]] base::Result<void> finish() const;

  private:
    const formats::Json* find(std::string_view key);
    std::optional<std::string> one_of(std::string_view key, const std::vector<std::string>& choices,
                                      const std::string& said);
    void fault(std::string_view key, const std::string& what, const std::string& value,
               const std::string& limit);

    const formats::Json& object_;
    std::vector<std::string> asked_;
    std::optional<base::Error> fault_;
};

/// What a query says of the option; nullopt: nothing.
[[nodiscard]] std::optional<questions::Value> value_in(const Fields& query, const questions::Saying& option);

/// What is asked, from an object: every key that the question does not know is an error.
template <class O>
[[nodiscard]] base::Result<O> read(const questions::Question<O>& question, Members& members) {
    O read;
    base::Result<void> first;
    for (const auto& option : question.options) {
        const auto value = members.value(option);
        if (!value || !first) continue;
        first = formats::for_option(option.names.key, option.set(read, *value));
    }
    if (const auto ok = members.finish(); !ok) return base::fail(ok.error());
    if (!first) return base::fail(first.error());
    return read;
}

/// The same from a query, where a flag is set unless it is empty, "0" or "false".
template <class O>
[[nodiscard]] base::Result<O> read(const questions::Question<O>& question, const Fields& query) {
    O read;
    for (const auto& option : question.options) {
        const auto value = value_in(query, option);
        if (!value) continue;
        const auto ok = formats::for_option(option.names.key, option.set(read, *value));
        if (!ok) return base::fail(ok.error());
    }
    return read;
}

/// "metric", "us" or "imperial"; metric for anything else.
[[nodiscard]] units::Display read_display(const std::string& units);

}  // namespace mitefall::web
