#include "formats/text/verdict_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using records::Collection;
using records::Method;

std::string_view short_name(safety::Ruling ruling) {
    switch (ruling) {
        case safety::Ruling::allowed: return "allowed";
        case safety::Ruling::bedding_only: return "bedding only";
        case safety::Ruling::wait_until: return "wait";
        case safety::Ruling::ask_vet: return "ask a vet";
        case safety::Ruling::never: return "never";
    }
    return "never";
}

std::string ruling_cell(const safety::Verdict& verdict) {
    const std::string text = verdict.until ? "until " + units::format_day_short(*verdict.until)
                                           : std::string(short_name(verdict.ruling));
    switch (verdict.ruling) {
        case safety::Ruling::never: return toned(Tone::grave, text);
        case safety::Ruling::ask_vet: return toned(Tone::caution, text);
        case safety::Ruling::wait_until:
        case safety::Ruling::bedding_only:
        case safety::Ruling::allowed: break;
    }
    return text;
}

/// One animal: its cells, and its rulings from the most severe to the mildest.
struct VerdictRow {
    std::string name;
    std::vector<std::string> cells;
    std::vector<safety::Ruling> rulings;
};

std::vector<VerdictRow> verdict_rows(const std::map<records::AnimalId, VerdictsByMethod>& by_animal,
                                     const Collection& collection, std::span<const Method> columns) {
    std::vector<VerdictRow> rows;
    for (const auto& [animal, verdicts] : by_animal) {
        VerdictRow& row = rows.emplace_back();
        row.name = animal_name(collection, animal);
        for (const Method method : columns) {
            const auto found = verdicts.find(method);
            row.cells.push_back(found == verdicts.end() ? "-" : ruling_cell(*found->second));
            if (found != verdicts.end()) row.rulings.push_back(found->second->ruling);
        }
        std::sort(row.rulings.rbegin(), row.rulings.rend());
    }
    std::stable_sort(rows.begin(), rows.end(),
                     [](const auto& a, const auto& b) { return a.rulings > b.rulings; });
    return rows;
}

/// "15 others, all alike: ...": those with the mildest rulings, in one paragraph.
std::string crowd_text(std::span<const VerdictRow> crowd, std::span<const Method> columns) {
    std::vector<std::pair<std::string, std::string>> by_cell;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const std::string& cell = crowd.front().cells[c];
        auto found =
            std::find_if(by_cell.begin(), by_cell.end(), [&](const auto& one) { return one.first == cell; });
        if (found == by_cell.end()) found = by_cell.insert(by_cell.end(), {cell, ""});
        found->second += (found->second.empty() ? "" : ", ") + std::string(records::to_text(columns[c]));
    }
    std::string text = fmt::format("{} others, all alike", crowd.size());
    for (const auto& [cell, methods] : by_cell) text += fmt::format("; {}: {}", cell, methods);
    std::vector<std::string> names;
    for (const VerdictRow& row : crowd) names.push_back(row.name);
    return wrap(text + ". They are " + join(names) + ".", "", "  ");
}

constexpr std::size_t least_crowd = 3;  // fewer have a row each

}  // namespace

std::string verdict_table(const std::map<records::AnimalId, VerdictsByMethod>& by_animal,
                          const Collection& collection, std::span<const Method> columns, bool every_animal) {
    const std::vector<VerdictRow> rows = verdict_rows(by_animal, collection, columns);
    auto crowd = rows.end();
    while (!every_animal && crowd != rows.begin() && std::prev(crowd)->cells == rows.back().cells) --crowd;
    if (static_cast<std::size_t>(rows.end() - crowd) < least_crowd) crowd = rows.end();
    std::vector<std::string> head{"ANIMAL"};
    for (const Method method : columns) head.emplace_back(records::to_text(method));
    Table table(head);
    for (auto row = rows.begin(); row != crowd; ++row) {
        std::vector<std::string> cells{row->name};
        cells.insert(cells.end(), row->cells.begin(), row->cells.end());
        table.add(cells);
    }
    return (crowd == rows.begin() ? "" : table.text()) +
           (crowd == rows.end() ? "" : crowd_text({crowd, rows.end()}, columns));
}

}  // namespace mitefall::formats
