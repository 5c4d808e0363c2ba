#include "formats/text/layout.h"

#include <algorithm>

#include "formats/text/breaking.h"
#include "formats/text/marks.h"
#include "formats/text/table_setting.h"

namespace mitefall::formats {
namespace {

constexpr std::size_t pleasant = 100;  // columns of a paragraph, however wide the terminal

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

    static std::vector<std::string> cells_of(std::string_view line) {
        std::vector<std::string> cells;
        for (auto end = line.find(cell_end); end != std::string_view::npos; end = line.find(cell_end)) {
            cells.emplace_back(line.substr(0, end));
            line.remove_prefix(end + 1);
        }
        return cells;
    }

    void end_table() {
        if (!rows_.empty()) text_ += set_table(rows_, terminal_);
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
    std::vector<std::vector<std::string>> rows_;
    Lines picture_;
};

}  // namespace

std::string lay_out(std::string_view text, Terminal terminal) {
    constexpr std::size_t narrowest = 20;
    if (terminal.width > 0) terminal.width = std::max(terminal.width, narrowest);
    return Layout(terminal).run(text);
}

std::size_t columns_of(std::string_view line) { return width_of(line); }

}  // namespace mitefall::formats
