#include "formats/text/layout.h"

#include <algorithm>

#include "formats/text/marks.h"

namespace mitefall::formats {
namespace {

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

}  // namespace mitefall::formats
