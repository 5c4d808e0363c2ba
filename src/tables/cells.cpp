#include "tables/cells.h"

#include <csv.h>
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "records/limits.h"

namespace mitefall::tables {
namespace {

using base::fail;
using base::Result;

constexpr std::string_view mark_of_utf8 = "\xEF\xBB\xBF";

base::Error at_row(base::Error error, std::size_t row) {
    if (row > 0) error.where = fmt::format("row {}", row);
    return error;
}

/// Gathers what the parser finds. The first fault stays.
struct Gathering {
    const CellLimits& limits;
    std::vector<std::vector<std::string>> lines = {};
    std::vector<std::string> line = {};
    int ended_by = 0;  ///< the line end before, where nothing stood since
    std::optional<base::Error> fault = {};

    void refuse(const char* what, std::size_t found, std::size_t most) {
        if (!fault)
            fault = at_row(base::invalid(what, std::to_string(found), fmt::format("at most {}", most)),
                           lines.size());
    }

    void cell(std::string_view text) {
        ended_by = 0;
        if (text.size() > limits.cell_bytes)
            refuse("a cell is too long (bytes)", text.size(), limits.cell_bytes);
        if (line.size() >= limits.columns)
            refuse("a row has too many cells", line.size() + 1, limits.columns);
        if (!fault) line.emplace_back(text);
    }

    /// A line feed after a carriage return ends no line of its own.
    void end(int by) {
        const bool is_rest = by == '\n' && ended_by == '\r' && line.empty();
        ended_by = is_rest ? 0 : by;
        if (is_rest || fault) return;
        if (lines.size() > limits.rows) refuse("the table has too many rows", lines.size(), limits.rows);
        const bool says_nothing =
            std::all_of(line.begin(), line.end(), [](const auto& one) { return trimmed(one).empty(); });
        if (says_nothing) line.clear();
        lines.push_back(std::move(line));
        line.clear();
    }
};

void take_cell(void* cell, std::size_t size, void* into) {
    static_cast<Gathering*>(into)->cell({static_cast<const char*>(cell), size});
}

void end_line(int by, void* into) { static_cast<Gathering*>(into)->end(by); }

/// White space is part of a cell (RFC 4180, 2.4).
int no_space(unsigned char) { return 0; }

/// Of the first line, outside quotation marks.
char guess_separator(std::string_view text) {
    std::size_t counts[3] = {};
    constexpr std::string_view candidates = ",;\t";
    bool is_quoted = false;
    for (const char c : text) {
        if (c == '"') is_quoted = !is_quoted;
        if (is_quoted) continue;
        if (c == '\n' || c == '\r') break;
        if (const auto at = candidates.find(c); at != std::string_view::npos) ++counts[at];
    }
    return candidates[static_cast<std::size_t>(std::max_element(std::begin(counts), std::end(counts)) -
                                               std::begin(counts))];
}

Result<void> check_text(std::string_view text, const CellLimits& limits) {
    if (text.size() > limits.bytes)
        return fail(base::invalid("the table is too large (bytes)", std::to_string(text.size()),
                                  fmt::format("at most {}", limits.bytes), "split it"));
    // What follows is judged in pieces no longer than a text on record may be, cut between characters.
    constexpr std::size_t piece = 1'000;
    for (std::size_t begin = 0; begin < text.size();) {
        std::size_t end = std::min(text.size(), begin + piece);
        while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
        std::string part(text.substr(begin, end - begin));
        std::replace(part.begin(), part.end(), '\r', '\n');
        if (!records::check_text("table", part))
            return fail(base::invalid("this is not a table of plain text", {},
                                      "UTF-8 text without control characters",
                                      "in the spreadsheet, save it as CSV UTF-8"));
        begin = end;
    }
    return {};
}

Result<std::vector<std::vector<std::string>>> parse(std::string_view text, char separator,
                                                    const CellLimits& limits) {
    csv_parser parser{};
    if (csv_init(&parser, CSV_REPALL_NL) != 0) throw std::bad_alloc();
    const std::unique_ptr<csv_parser, void (*)(csv_parser*)> owner(&parser, csv_free);
    csv_set_delim(&parser, static_cast<unsigned char>(separator));
    csv_set_space_func(&parser, no_space);
    Gathering found{limits};
    const bool parsed =
        csv_parse(&parser, text.data(), text.size(), take_cell, end_line, &found) == text.size();
    // Quotation marks inside a cell are letters; one that is open at the end is not.
    csv_set_opts(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL);
    const bool ended = parsed && csv_fini(&parser, take_cell, end_line, &found) == 0;
    if (csv_error(&parser) == CSV_ENOMEM) throw std::bad_alloc();
    if (found.fault) return fail(*found.fault);
    if (!ended)
        return fail(at_row(
            base::invalid("a quotation mark is never closed", {}, "cells in quotation marks end with one",
                          "look at the last quotation mark of the table"),
            found.lines.size()));
    return std::move(found.lines);
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view space = " \t\r\n";
    const std::size_t first = text.find_first_not_of(space);
    return first == std::string_view::npos ? std::string_view()
                                           : text.substr(first, text.find_last_not_of(space) + 1 - first);
}

std::string folded(std::string_view text) {
    std::string low(trimmed(text));
    for (std::size_t i = 0; i < low.size(); ++i) {
        if (low[i] >= 'A' && low[i] <= 'Z') low[i] = static_cast<char>(low[i] - 'A' + 'a');
        // U+00C0 to U+00DE are C3 80 to C3 9E in UTF-8, their small letters C3 A0 to C3 BE; U+00D7 is a sign.
        const auto byte = static_cast<unsigned char>(low[i]);
        const bool is_capital = i > 0 && low[i - 1] == '\xC3' && byte >= 0x80 && byte <= 0x9E && byte != 0x97;
        if (is_capital) low[i] = static_cast<char>(byte + 0x20U);
    }
    return low;
}

Result<Cells> read_cells(std::string_view text, std::optional<char> separator, const CellLimits& limits) {
    if (text.starts_with(mark_of_utf8)) text.remove_prefix(mark_of_utf8.size());
    if (const auto ok = check_text(text, limits); !ok) return fail(ok.error());
    while (!text.empty() && trimmed(text.substr(0, 1)).empty() && text.front() != '\t') text.remove_prefix(1);
    Cells cells;
    cells.separator = separator.value_or(guess_separator(text));
    auto lines = parse(text, cells.separator, limits);
    if (!lines) return fail(lines.error());
    while (!lines->empty() && lines->back().empty()) lines->pop_back();
    if (lines->size() < 2)
        return fail(base::invalid("there is no row below the headings", {}, "a line of headings, and rows"));
    cells.headings = std::move(lines->front());
    lines->erase(lines->begin());
    cells.rows = std::move(*lines);
    return cells;
}

}  // namespace mitefall::tables
