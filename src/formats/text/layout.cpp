#include "formats/text/layout.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "formats/text/display_columns.h"

namespace mitefall::formats {
namespace {

// The marks. A line that begins with one of the first five is laid out by it.
constexpr char head_row = '\x1D';   // group separator: a table begins
constexpr char next_row = '\x1E';   // record separator
constexpr char cell_end = '\x1F';   // unit separator
constexpr char paragraph = '\x02';  // start of text: the indent of the lines that follow, cell_end, the line
constexpr char pictured = '\x1C';   // file separator: one line of a picture
constexpr char titled = '\x01';     // start of heading
constexpr char tone_on = '\x0E';    // shift out; the next character is the tone
constexpr char tone_off = '\x0F';   // shift in
constexpr char no_tone = '\0';

constexpr std::size_t pleasant = 100;  // columns of a paragraph, however wide the terminal
constexpr std::size_t gap = 2;         // columns between two columns of a table
constexpr std::size_t tallest = 6;     // lines of a row; beyond it rows are told below each other
constexpr std::size_t longest_glued = 16;
constexpr std::size_t longest_unparted = 24;  // columns of a word that a table makes room for

using Lines = std::vector<std::string>;

std::string spaces(std::size_t number) { return std::string(number, ' '); }

bool is_mark(char c) {
    return c == head_row || c == next_row || c == cell_end || c == paragraph || c == pictured ||
           c == titled || c == tone_on || c == tone_off;
}

/// What a keeper wrote, or anything else that brings no marks but those of a tone.
std::string without_marks(std::string_view text) {
    std::string clean;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool is_tone = text[i] == tone_on && i + 1 < text.size() && text[i + 1] >= 'a';
        clean += (is_mark(text[i]) && !is_tone && text[i] != tone_off) || text[i] == '\n' ? ' ' : text[i];
    }
    return clean;
}

char letter_of(Tone tone) {
    switch (tone) {
        case Tone::grave: return 'g';
        case Tone::caution: return 'c';
        case Tone::good: return 'o';
        case Tone::quiet: return 'q';
    }
    return 'q';
}

constexpr char bold = 'b';

/// Select graphic rendition (ECMA-48, 8.3.117); the eight first colours follow the theme of the terminal.
std::string_view rendition_of(char tone) {
    switch (tone) {
        case 'g': return "\x1B[1;31m";
        case 'c': return "\x1B[33m";
        case 'o': return "\x1B[32m";
        case 'q': return "\x1B[2m";
        case bold: return "\x1B[1m";
        default: return {};
    }
}

/// One thing after the other: characters and changes of tone.
template <class Take>
void each_character(std::string_view text, const Take& take) {
    char tone = no_tone;
    while (!text.empty()) {
        if (text.front() == tone_on && text.size() > 1) {
            tone = text[1];
            text.remove_prefix(2);
        } else if (text.front() == tone_off) {
            tone = no_tone;
            text.remove_prefix(1);
        } else {
            const Character character = first_character(text);
            take(character, tone);
            text.remove_prefix(character.bytes.size());
        }
    }
}

/// As it is shown: tones become colour or nothing, and what a terminal would obey becomes a question mark.
std::string shown(std::string_view line, bool colour) {
    std::string text;
    char now = no_tone;
    const auto change = [&](char tone) {
        if (tone == now || !colour) return;
        if (now != no_tone) text += "\x1B[0m";
        text += rendition_of(tone);
        now = tone;
    };
    each_character(line, [&](const Character& character, char tone) {
        change(tone);
        if (character.columns < 0)
            text += '?';
        else
            text += character.bytes;
    });
    change(no_tone);
    return text;
}

std::size_t width_of(std::string_view line) {
    std::size_t columns = 0;
    each_character(line, [&](const Character& character, char) {
        columns += character.columns < 0 ? 1U : static_cast<std::size_t>(character.columns);
    });
    return columns;
}

/// Every word closes and opens again the tone it stands in, so that it can go to any line.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    char open = no_tone;
    const auto switch_to = [&](char tone) {
        if (tone == open) return;
        if (open != no_tone) word += tone_off;
        if (tone != no_tone) word += {tone_on, tone};
        open = tone;
    };
    const auto end = [&] {
        switch_to(no_tone);
        if (!word.empty()) words.push_back(std::move(word));
        word.clear();
    };
    each_character(text, [&](const Character& character, char tone) {
        if (character.code == U' ') return end();
        switch_to(tone);
        word += character.bytes;
    });
    end();
    return words;
}

char last_visible(std::string_view word) {
    while (!word.empty() && word.back() == tone_off) word.remove_suffix(1);
    return word.empty() ? ' ' : word.back();
}

/// "< 0.1 %", "10 mg/L": what would be misread if it were parted.
bool belongs_together(std::string_view before, std::string_view after) {
    const char last = last_visible(before);
    return (last >= '0' && last <= '9') || before == "<" || before == ">" || after.starts_with('%');
}

std::vector<std::string> unparted(std::string_view text) {
    std::vector<std::string> glued;
    for (std::string& word : words_of(text)) {
        const bool joins = !glued.empty() && belongs_together(glued.back(), word) &&
                           width_of(glued.back()) + 1 + width_of(word) <= longest_glued;
        if (joins)
            glued.back() += " " + word;
        else
            glued.push_back(std::move(word));
    }
    return glued;
}

/// A word wider than the line, in parts that are not: after a mark that ends a part, or anywhere.
Lines parts_of(std::string_view word, std::size_t width) {
    Lines parts{""};
    std::size_t used = 0;
    std::size_t good = 0;  // bytes of the last part up to a place to break
    std::size_t good_used = 0;
    each_character(word, [&](const Character& character, char tone) {
        const auto columns = static_cast<std::size_t>(std::max(0, character.columns));
        if (used + columns > width && used > 0) {
            const bool breaks = good > 0;
            std::string rest = breaks ? parts.back().substr(good) : "";
            if (breaks) parts.back().resize(good);
            parts.push_back(std::move(rest));
            used = breaks ? used - good_used : 0;
            good = 0;
        }
        if (tone != no_tone) parts.back() += {tone_on, tone};
        parts.back() += character.bytes;
        if (tone != no_tone) parts.back() += tone_off;
        used += columns;
        if (std::string_view(",;:/-_").find(character.bytes.front()) != std::string_view::npos) {
            good = parts.back().size();
            good_used = used;
        }
    });
    return parts;
}

/// Lines no wider than `width`.
Lines broken(std::string_view text, std::size_t width) {
    Lines lines{""};
    std::size_t used = 0;
    const auto put = [&](const std::string& word, bool spaced) {
        const std::size_t columns = width_of(word);
        const bool is_begun = !lines.back().empty();
        if (is_begun && used + (spaced ? 1 : 0) + columns > width) {
            lines.emplace_back();
            used = 0;
        } else if (is_begun && spaced) {
            lines.back() += ' ';
            ++used;
        }
        lines.back() += word;
        used += columns;
    };
    for (const std::string& word : unparted(text)) {
        if (width_of(word) <= width) {
            put(word, true);
            continue;
        }
        for (const std::string& part : words_of(word)) {
            bool spaced = true;
            for (const std::string& piece : parts_of(part, width)) {
                put(piece, spaced);
                spaced = false;
            }
        }
    }
    return lines;
}

using Row = std::vector<std::string>;
using Widths = std::vector<std::size_t>;

/// A table for one width.
class Setting {
  public:
    Setting(const std::vector<Row>& rows, Terminal terminal) : rows_(rows), terminal_(terminal) {
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

/// The text in lines, each laid out by its mark.
class Layout {
  public:
    explicit Layout(Terminal terminal) : terminal_(terminal) {}

    [[nodiscard]] std::string run(std::string_view text) {
        while (!text.empty()) {
            const auto end = text.find('\n');
            take(text.substr(0, end), end == std::string_view::npos);
            text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        }
        end_table();
        end_picture();
        return std::move(text_);
    }

  private:
    void take(std::string_view line, bool is_last) {
        const char mark = line.empty() ? no_tone : line.front();
        if (mark != next_row) end_table();
        if (mark != pictured) end_picture();
        if (mark == head_row || mark == next_row)
            rows_.push_back(cells_of(line.substr(1)));
        else if (mark == pictured)
            picture_.emplace_back(line.substr(1));
        else if (mark == titled)
            put_title(line.substr(1));
        else if (mark == paragraph && line.find(cell_end) != std::string_view::npos)
            put_paragraph(line.substr(1));
        else
            put_line(line, is_last);
    }

    static Row cells_of(std::string_view line) {
        Row cells;
        for (auto end = line.find(cell_end); end != std::string_view::npos; end = line.find(cell_end)) {
            cells.emplace_back(line.substr(0, end));
            line.remove_prefix(end + 1);
        }
        return cells;
    }

    void end_table() {
        if (!rows_.empty()) text_ += Setting(rows_, terminal_).text();
        rows_.clear();
    }

    void end_picture() {
        const bool fits = std::all_of(picture_.begin(), picture_.end(),
                                      [&](const std::string& line) { return is_narrow(line); });
        for (const std::string& line : picture_) {
            if (fits) text_ += shown(line, terminal_.colour) + "\n";
        }
        picture_.clear();
    }

    [[nodiscard]] bool is_narrow(std::string_view line) const {
        return terminal_.width == 0 || width_of(line) <= terminal_.width;
    }

    void put_title(std::string_view title) {
        const Lines lines = terminal_.width == 0 ? Lines{std::string(title)} : broken(title, terminal_.width);
        std::size_t widest = 0;
        for (const std::string& line : lines) {
            text_ += shown(std::string{tone_on, bold} + line + tone_off, terminal_.colour) + "\n";
            widest = std::max(widest, width_of(line));
        }
        text_ += std::string(widest, '-') + "\n";
    }

    void put_paragraph(std::string_view line) {
        const auto end = line.find(cell_end);
        put_broken(line.substr(end + 1), std::string(line.substr(0, end)),
                   std::min(pleasant, terminal_.width));
    }

    /// A line that is too wide goes on under its own beginning, or under its second column where it has one.
    void put_line(std::string_view line, bool is_last) {
        if (is_narrow(line)) {
            text_ += shown(line, terminal_.colour) + (is_last ? "" : "\n");
            return;
        }
        const std::size_t begin = std::min(line.find_first_not_of(' '), line.size());
        const std::size_t gap_at = line.find("  ", begin);
        const std::size_t second = line.find_first_not_of(' ', gap_at);
        if (gap_at == std::string_view::npos || second == std::string_view::npos ||
            second > terminal_.width / 2)
            return put_broken(line, spaces(std::min(begin, terminal_.width / 2)),
                              std::min(pleasant, terminal_.width));
        const std::size_t column = width_of(line.substr(0, second));
        const Lines lines = broken(line.substr(second), std::min(pleasant, terminal_.width) - column);
        for (std::size_t l = 0; l < lines.size(); ++l) {
            const std::string before = l == 0 ? std::string(line.substr(0, second)) : spaces(column);
            text_ += shown(before + lines[l], terminal_.colour) + "\n";
        }
    }

    void put_broken(std::string_view line, const std::string& indent, std::size_t width) {
        if (width == 0) {
            text_ += shown(line, terminal_.colour) + "\n";
            return;
        }
        const std::size_t begin = std::min(line.find_first_not_of(' '), line.size());
        const std::size_t inset = std::min(begin, width / 2);
        const std::size_t hang = std::min(indent.size(), width / 2);
        const Lines lines = broken(line.substr(begin), width - std::max(inset, hang));
        for (std::size_t l = 0; l < lines.size(); ++l)
            text_ += spaces(l == 0 ? inset : hang) + shown(lines[l], terminal_.colour) + "\n";
    }

    Terminal terminal_;
    std::string text_;
    std::vector<Row> rows_;
    Lines picture_;
};

}  // namespace

std::string toned(Tone tone, std::string_view text) {
    if (text.empty()) return {};
    return std::string{tone_on, letter_of(tone)} + without_marks(text) + tone_off;
}

std::string Table::text() const {
    std::string text;
    for (const auto& row : rows_) {
        text += &row == &rows_.front() ? head_row : next_row;
        for (const std::string& cell : row) text += without_marks(cell) + cell_end;
        text += '\n';
    }
    return text;
}

std::string heading(std::string_view text) { return std::string("\n") + titled + without_marks(text) + "\n"; }

std::string wrap(std::string_view text, std::string_view first, std::string_view indent) {
    return paragraph + std::string(indent) + cell_end + std::string(first) + without_marks(text) + "\n";
}

std::string picture(std::string_view lines) {
    std::string text;
    while (!lines.empty()) {
        const std::string_view line = lines.substr(0, lines.find('\n'));
        text += pictured + std::string(line) + "\n";
        lines.remove_prefix(std::min(lines.size(), line.size() + 1));
    }
    return text;
}

std::string lay_out(std::string_view text, Terminal terminal) {
    constexpr std::size_t narrowest = 20;
    if (terminal.width > 0) terminal.width = std::max(terminal.width, narrowest);
    return Layout(terminal).run(text);
}

std::size_t columns_of(std::string_view line) { return width_of(line); }

}  // namespace mitefall::formats
