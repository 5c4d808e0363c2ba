#include "tables/answer.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/json/json.h"
#include "formats/json/parts.h"

namespace mitefall::tables {
namespace {

using formats::Json;

std::string separator_name(char separator) {
    return separator == '\t' ? "tab" : separator == ';' ? "semicolon" : "comma";
}

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json row_json(const RowRead& row) {
    return {{"row", row.row},
            {"animal", row.animal},
            {"written", row.written},
            {"kind", row.kind},
            {"enclosure", row.enclosure},
            {"room", row.room},
            {"weight_g", or_null(row.weight_g)},
            {"since", formats::date(row.since)},
            {"quarantine", row.quarantine}};
}

Json problem_json(const Problem& problem, const Matching& matching) {
    const auto column = problem.field ? matching.find(*problem.field) : matching.end();
    return {{"row", problem.row},
            {"column", column == matching.end() ? Json(nullptr) : Json(column->second)},
            {"field", problem.field ? Json(to_text(*problem.field)) : Json(nullptr)},
            {"fault", to_text(problem.fault)},
            {"value", problem.value},
            {"costs", problem.costs_row ? "row" : "cell"},
            {"error", problem.error ? formats::error_json(*problem.error) : Json(nullptr)}};
}

Json kind_json(const KindWritten& kind, const evidence::Taxa& taxa) {
    Json kinds = Json::array();
    for (const evidence::Taxon* const one : kind.meaning.kinds)
        kinds.push_back({{"name", taxa.plain_name(*one)},
                         {"scientific", one->scientific},
                         {"group", evidence::describe(one->group)},
                         {"unidentified", one->unidentified}});
    return {{"written", kind.written},
            {"animals", kind.animals},
            {"how", evidence::to_text(kind.meaning.how)},
            {"kinds", std::move(kinds)},
            {"name", formats::text_or_null(kind.name)}};
}

std::string several(std::size_t count, const char* one, const char* more) {
    return fmt::format("{} {}", count, count == 1 ? one : more);
}

constexpr std::size_t most_shown = 50;

std::string rows_text(const Reading& reading, units::Display display) {
    formats::Table table(
        {"ROW", "ANIMAL", "KIND", "ENCLOSURE", "ROOM", "WEIGHT", "HERE SINCE", "QUARANTINE"});
    for (std::size_t i = 0; i < std::min(reading.rows.size(), most_shown); ++i) {
        const RowRead& row = reading.rows[i];
        table.add(
            {std::to_string(row.row), row.animal,
             row.kind == row.written || row.kind.empty() ? row.written
                                                         : fmt::format("{} ({})", row.kind, row.written),
             row.enclosure, row.room, row.weight_g ? units::show(units::grams(*row.weight_g), display) : "",
             row.since ? units::format_day(*row.since) : "",
             row.animal.empty() ? ""
             : row.quarantine   ? "yes"
                                : "no"});
    }
    std::string text = table.text();
    if (reading.rows.size() > most_shown)
        text += fmt::format("and {} more\n", reading.rows.size() - most_shown);
    return text;
}

std::string question_text(const Reading& reading, const evidence::Taxa& taxa) {
    std::string text;
    if (!reading.days_of_two.empty())
        text += fmt::format(
            "How are the days written? \"{}\" may be two: --date-order day or --date-order month.\n",
            reading.days_of_two.front());
    for (const KindWritten& kind : reading.kinds) {
        if (kind.meaning.how != evidence::Understood::several || !kind.name.empty()) continue;
        text += fmt::format("Which kind is \"{}\"?", kind.written);
        for (const evidence::Taxon* const one : kind.meaning.kinds)
            text += fmt::format("\n  --kind-is \"{}={}\"", kind.written, taxa.plain_name(*one));
        text += "\n";
    }
    for (const SameName& one : reading.same_names)
        text += fmt::format("Is \"{}\" (row {}) another animal than {}? --other \"{}\", or --leave-out {}.\n",
                            one.name, fmt::join(one.rows, ", "),
                            one.on_record ? "the one on record" : "the first of that name", one.name,
                            one.rows.back());
    return text;
}

std::string problem_text(const Problem& problem, const Cells& cells, const Matching& matching) {
    const auto column = problem.field ? matching.find(*problem.field) : matching.end();
    const std::string where =
        column == matching.end() ? "" : fmt::format(", column \"{}\"", cells.headings[column->second]);
    const std::string why = problem.error ? problem.error->message() : std::string(describe(problem.fault));
    return fmt::format("Row {}{}{}: {}. The {} is left out.\n", problem.row, where,
                       problem.value.empty() || problem.error ? "" : fmt::format(", \"{}\"", problem.value),
                       why, problem.costs_row ? "row" : "cell");
}

}  // namespace

Json looked_json(const Looked& looked, const evidence::Taxa& taxa) {
    const Reading& reading = looked.reading;
    Json columns = Json::object();
    for (const Field field : base::all_of<Field>()) columns[std::string(to_text(field))] = nullptr;
    for (const auto& [field, column] : reading.matching) columns[std::string(to_text(field))] = column;
    return {
        {"separator", separator_name(looked.cells.separator)},
        {"headings", looked.cells.headings},
        {"columns", std::move(columns)},
        {"rows", formats::list(reading.rows, row_json)},
        {"counts",
         {{"rooms", reading.counts.rooms},
          {"enclosures", reading.counts.enclosures},
          {"animals", reading.counts.animals},
          {"weights", reading.counts.weights}}},
        {"problems", formats::list(reading.problems,
                                   [&](const Problem& one) { return problem_json(one, reading.matching); })},
        {"kinds", formats::list(reading.kinds, [&](const KindWritten& one) { return kind_json(one, taxa); })},
        {"questions",
         {{"days_of_two", reading.days_of_two},
          {"same_names",
           formats::list(
               reading.same_names,
               [](const SameName& one) {
                   return Json{{"name", one.name}, {"rows", one.rows}, {"on_record", one.on_record}};
               })}}},
        {"entry", looked.entry}};
}

std::string looked_text(const Looked& looked, const evidence::Taxa& taxa, const Wishes& wishes,
                        units::Display display) {
    const Reading& reading = looked.reading;
    std::string text = rows_text(reading, display);
    text += fmt::format("\nThis adds {}, {}, {} and {}.\n", several(reading.counts.rooms, "room", "rooms"),
                        several(reading.counts.enclosures, "enclosure", "enclosures"),
                        several(reading.counts.animals, "animal", "animals"),
                        several(reading.counts.weights, "weight", "weights"));
    for (const KindWritten& kind : reading.kinds) {
        if (kind.meaning.how == evidence::Understood::unknown)
            text += fmt::format("\"{}\" is not known: nothing is allowed for it.\n", kind.written);
    }
    for (const Problem& problem : reading.problems)
        text += problem_text(problem, looked.cells, reading.matching);
    const std::string asks = question_text(reading, taxa);
    if (!asks.empty()) text += formats::heading("To be answered first") + asks;
    const auto unseen = reading.unseen(wishes);
    if (!unseen.empty())
        text += fmt::format("Nothing is added before the table is put right, or: --leave-out {}.\n",
                            fmt::join(unseen, ","));
    return text;
}

}  // namespace mitefall::tables
