#pragma once

#include <string>
#include <string_view>

#include "formats/text/display_columns.h"

// The control characters a text carries until it is laid out for one terminal (layout.h).
namespace mitefall::formats {

// The marks. A line that begins with one of the first five is laid out by it.
inline constexpr char head_row = '\x1D';  // group separator: a table begins
inline constexpr char next_row = '\x1E';  // record separator
inline constexpr char cell_end = '\x1F';  // unit separator
inline constexpr char paragraph =
    '\x02';  // start of text: the indent of the lines that follow, cell_end, the line
inline constexpr char pictured = '\x1C';  // file separator: one line of a picture
inline constexpr char titled = '\x01';    // start of heading
inline constexpr char tone_on = '\x0E';   // shift out; the next character is the tone
inline constexpr char tone_off = '\x0F';  // shift in
inline constexpr char no_tone = '\0';
inline constexpr char bold = 'b';  // a tone of headings

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
[[nodiscard]] std::string shown(std::string_view line, bool colour);

/// Display columns.
[[nodiscard]] std::size_t width_of(std::string_view line);

[[nodiscard]] inline std::string spaces(std::size_t number) { return std::string(number, ' '); }

}  // namespace mitefall::formats
