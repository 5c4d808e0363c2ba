#include "formats/text/table_setting.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <string_view>

#include "formats/text/breaking.h"
#include "formats/text/marks.h"

namespace mitefall::formats {
namespace {

constexpr std::size_t gap = 2;                // columns between two columns of a table
constexpr std::size_t tallest = 6;            // lines of a row; beyond it rows are told below each other
constexpr std::size_t longest_unparted = 24;  // columns of a word that a table makes room for

using Row = std::vector<std::string>;
using Widths = std::vector<std::size_t>;

/// A table for one width.
class TableSetting {
  public:
    TableSetting(const std::vector<Row>& rows, Terminal terminal) : rows_(rows), terminal_(terminal) {
        for (const Row& row : rows_) {
            wanted_.resize(std::max(wanted_.size(), row.size()), 0);
            least_.resize(wanted_.size(), 1);
            for (std::size_t c = 0; c < row.size(); ++c) {
                wanted_[c] = std::max(wanted_[c], width_of(row[c]));
                least_[c] = std::max(least_[c], least_of(row[c], &row == &rows_.front()));
            }
        }
    }

    [[nodiscard]] std::string text() const {
        if (terminal_.width == 0 || sum(wanted_) <= terminal_.width) return grid(wanted_);
        if (sum(least_) > terminal_.width) return told_below_each_other();
        const Widths widths = fitted();
        return height(widths) > tallest ? told_below_each_other() : grid(widths);
    }

  private:
    /// The longest that is not parted; the name of a column is parted where it has a hyphen.
    static std::size_t least_of(std::string_view cell, bool is_head) {
        std::size_t longest = 1;
        for (const std::string& word : unparted(cell)) {
            if (!is_head) longest = std::max(longest, std::min(width_of(word), longest_unparted));
            for (std::size_t from = 0; is_head && from < word.size();) {
                const std::size_t end = std::min(word.find('-', from), word.size() - 1) + 1;
                longest = std::max(longest, width_of(std::string_view(word).substr(from, end - from)));
                from = end;
            }
        }
        return longest;
    }

    static std::size_t sum(const Widths& widths) {
        return std::accumulate(widths.begin(), widths.end(),
                               gap * (std::max<std::size_t>(widths.size(), 1) - 1));
    }

    /// Lines a column takes beyond one a row, about: what another space would help with.
    [[nodiscard]] std::size_t excess(std::size_t column, std::size_t width) const {
        std::size_t lines = 0;
        for (const Row& row : rows_) {
            if (column < row.size() && width_of(row[column]) > 0)
                lines += (width_of(row[column]) - 1) / width;
        }
        return lines;
    }

    /// Space goes to the column that takes most lines, until there is none left.
    [[nodiscard]] Widths fitted() const {
        Widths widths = least_;
        for (std::size_t spare = terminal_.width - sum(least_); spare > 0; --spare) {
            std::optional<std::size_t> worst;
            std::size_t most = 0;
            for (std::size_t c = 0; c < widths.size(); ++c) {
                const std::size_t lines = widths[c] < wanted_[c] ? 1 + excess(c, widths[c]) : 0;
                if (lines > most) {
                    most = lines;
                    worst = c;
                }
            }
            if (!worst) break;
            ++widths[*worst];
        }
        return widths;
    }

    [[nodiscard]] std::size_t height(const Widths& widths) const {
        std::size_t lines = 0;
        for (std::size_t r = 1; r < rows_.size(); ++r) {
            for (std::size_t c = 0; c < rows_[r].size(); ++c)
                lines = std::max(lines, broken(rows_[r][c], widths[c]).size());
        }
        return lines;
    }

    [[nodiscard]] std::string grid(const Widths& widths) const {
        std::string text;
        for (std::size_t r = 0; r < rows_.size(); ++r) {
            std::vector<Lines> cells;
            std::size_t lines = 1;
            for (std::size_t c = 0; c < rows_[r].size(); ++c) {
                cells.push_back(broken(rows_[r][c], widths[c]));
                lines = std::max(lines, cells.back().size());
            }
            for (std::size_t l = 0; l < lines; ++l) text += line_of(cells, widths, l, r == 0) + "\n";
        }
        return text;
    }

    [[nodiscard]] std::string line_of(const std::vector<Lines>& cells, const Widths& widths, std::size_t l,
                                      bool is_head) const {
        std::string line;
        std::size_t blank = 0;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            const std::string part = l < cells[c].size() ? cells[c][l] : "";
            if (!part.empty()) {
                line += spaces(blank) + part;
                blank = 0;
            }
            blank += widths[c] - std::min(widths[c], width_of(part)) + gap;
        }
        return shown(is_head ? std::string{tone_on, bold} + line + tone_off : line, terminal_.colour);
    }

    /// "51 %", with the name of its column unless it has none.
    [[nodiscard]] std::string named(const Row& row, std::size_t column) const {
        const std::string& name = rows_.front()[column];
        return name.empty() ? row[column] : name + ": " + row[column];
    }

    /// The first cell stands alone, long ones begin a line, the others follow each other.
    [[nodiscard]] std::string told_below_each_other() const {
        std::string text;
        for (std::size_t r = 1; r < rows_.size(); ++r) {
            text += indented(named(rows_[r], 0), 0);
            std::string line;
            const auto end_line = [&] {
                if (!line.empty()) text += indented(line, gap);
                line.clear();
            };
            for (std::size_t c = 1; c < rows_[r].size(); ++c) {
                if (rows_[r][c].empty()) continue;
                const std::string cell = named(rows_[r], c);
                const bool is_long = width_of(cell) > terminal_.width / 2;
                if (is_long) end_line();
                line += (line.empty() ? "" : "; ") + cell;
                if (is_long) end_line();
            }
            end_line();
        }
        return text;
    }

    [[nodiscard]] std::string indented(std::string_view line, std::size_t indent) const {
        std::string text;
        for (const std::string& part : broken(line, terminal_.width - indent - gap))
            text += spaces(text.empty() ? indent : indent + gap) + shown(part, terminal_.colour) + "\n";
        return text;
    }

    const std::vector<Row>& rows_;
    Terminal terminal_;
    Widths wanted_;
    Widths least_;
};

}  // namespace

std::string set_table(const std::vector<Row>& rows, Terminal terminal) {
    return TableSetting(rows, terminal).text();
}

}  // namespace mitefall::formats
