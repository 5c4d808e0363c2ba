#include "questions/described.h"

#include <fmt/format.h>

#include "questions/clear.h"
#include "questions/cupboard.h"
#include "questions/emptied.h"
#include "questions/import.h"
#include "questions/mix.h"
#include "questions/plan.h"
#include "questions/timing.h"
#include "questions/verdicts.h"

namespace mitefall::questions {
namespace {

using formats::Json;

template <class O>
Described described(const Question<O>& question) {
    return {std::string(question.name), std::string(question.help),
            std::vector<Saying>(question.options.begin(), question.options.end())};
}

std::string code(std::string_view text) { return text.empty() ? "" : fmt::format("`{}`", text); }

/// As JSON has it; null for lists, which are empty where nothing is said, and for what is not told.
Json otherwise_json(const Saying& option) {
    if (const auto* const number = std::get_if<double>(&option.otherwise)) return *number;
    if (const auto* const whole = std::get_if<std::uint64_t>(&option.otherwise)) return *whole;
    const auto* const text = std::get_if<std::string>(&option.otherwise);
    return text == nullptr || text->empty() ? Json(nullptr) : Json(*text);
}

std::string otherwise_text(const Saying& option) {
    const Json json = otherwise_json(option);
    return json.is_null()     ? ""
           : json.is_string() ? code(json.get<std::string>())
                              : fmt::format("{}", json.get<double>());
}

std::string limits_text(const Saying& option) {
    if (!option.choices.empty()) return fmt::format("{}", fmt::join(option.choices, ", "));
    return option.limits ? fmt::format("{} to {}", option.limits->low, option.limits->high) : "";
}

std::string unit_text(const Saying& option) {
    return option.is_percent_when_typed ? "share (typed: percent)" : std::string(option.unit);
}

std::string type_text(Type type) {
    switch (type) {
        case Type::number: return "number";
        case Type::whole: return "whole number";
        case Type::flag: return "flag";
        case Type::text: return "text";
        case Type::choice: return "choice";
        case Type::texts: return "text, repeatable";
        case Type::names: return "names";
        case Type::days: return "days";
        case Type::facts: return "facts";
    }
    return {};
}

std::string section(const Described& question) {
    std::string text = fmt::format(
        "\n### {}\n\n{}.\n\n| typed | sent | what | is | unit | limits | without it "
        "|\n|---|---|---|---|---|---|---|\n",
        question.name, question.help);
    for (const Saying& option : question.options)
        text += fmt::format("| {} | {} | {} | {} | {} | {} | {} |\n", code(option.names.typed),
                            code(option.names.key), option.help, type_text(option.type), unit_text(option),
                            limits_text(option), otherwise_text(option));
    return text;
}

Json type_json(const Saying& option) {
    Json one{{"type", "string"}};
    if (!option.choices.empty()) one["enum"] = option.choices;
    if (option.type == Type::days) one["pattern"] = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$";
    switch (option.type) {
        case Type::number:
            return {{"type", "number"}, {"minimum", option.limits->low}, {"maximum", option.limits->high}};
        case Type::whole:
            return {{"type", "integer"}, {"minimum", option.limits->low}, {"maximum", option.limits->high}};
        case Type::flag: return {{"type", "boolean"}};
        case Type::texts:
        case Type::names:
        case Type::days: return {{"type", "array"}, {"items", one}};
        case Type::facts: return {{"type", "array"}, {"items", {{"type", "object"}}}, {"minItems", 1}};
        default: return one;
    }
}

Json options_schema(const Described& question) {
    Json properties = Json::object();
    for (const Saying& option : question.options) {
        if (option.names.key.empty()) continue;
        Json& property = properties[std::string(option.names.key)];
        property = type_json(option);
        property["description"] = option.help;
        if (const Json otherwise = otherwise_json(option); !otherwise.is_null())
            property["default"] = otherwise;
    }
    return {{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
}

}  // namespace

std::vector<Described> jobs() {
    return {described(plan()),       described(rescore()),    described(late()),       described(clear()),
            described(next_check()), described(release()),    described(keep_out()),   described(handover()),
            described(origin()),     described(matters()),    described(what_helps()), described(emptied()),
            described(course()),     described(each_round()), described(why_days()),   described(procedure()),
            described(consequence())};
}

std::vector<Described> others() {
    return {described(tonight()),    described(verdicts()), described(mix()),         described(shopping()),
            described(batch_make()), described(cupboard()), described(import_table())};
}

std::string page() {
    std::string text =
        "# What can be asked, and with what\n\n"
        "Written from the descriptions in `src/questions` by its tests; not to be edited. *Typed*: on the "
        "command line. "
        "*Sent*: by a page, as a key of `options` of a job, of a body or of a query ([web-api](web-api.md)). "
        "An option "
        "without a name in a column is not understood there: pages ask with the usual draws, so that the "
        "same question has "
        "the same number on every screen.\n\n## Long computations: commands, and kinds of job\n";
    for (const Described& question : jobs()) text += section(question);
    text += "\n## Answered at once\n";
    for (const Described& question : others()) text += section(question);
    return text;
}

Json job_schema() {
    Json kinds = Json::array();
    for (const Described& question : jobs()) {
        kinds.push_back(
            {{"type", "object"},
             {"title", question.name},
             {"properties", {{"kind", {{"const", question.name}}}, {"options", options_schema(question)}}},
             {"required", {"kind"}},
             {"additionalProperties", false}});
    }
    return {{"$schema", "http://json-schema.org/draft-07/schema#"},
            {"title", "A long computation, asked for with POST /api/jobs"},
            {"description", "Written from the descriptions in src/questions by its tests; not to be edited."},
            {"oneOf", std::move(kinds)}};
}

}  // namespace mitefall::questions
