#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

// A table in a text: comma-separated values (RFC 4180).
namespace mitefall::tables {

struct Cells {
    char separator = ',';
    std::vector<std::string> headings;
    /// Rows below the headings, as they are numbered: the first is row 1. A line without any text has no
    /// cells.
    std::vector<std::vector<std::string>> rows;
};

/// Most a table may have (assumption: five times the largest private collection).
struct CellLimits {
    std::size_t bytes = 2UL << 20U;
    std::size_t rows = 5'000;
    std::size_t columns = 64;
    std::size_t cell_bytes = 2'000;
};

/// UTF-8 with or without its mark, lines ended by LF or CRLF, cells in quotation marks where they hold a
/// separator, a line end or a quotation mark. `separator`: comma, semicolon or tab; without one that of which
/// the headings hold most. A quotation mark inside a cell that does not begin with one is a letter like
/// others. Error invalid_input, with the row where there is one: nothing but headings, above the limits, a
/// quotation mark that is never closed, not UTF-8.
[[nodiscard]] base::Result<Cells> read_cells(std::string_view text, std::optional<char> separator = {},
                                             const CellLimits& limits = {});

/// Without white space at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// As names are compared: small letters, of Latin with accents too (Unicode Latin-1).
[[nodiscard]] std::string folded(std::string_view text);

}  // namespace mitefall::tables
