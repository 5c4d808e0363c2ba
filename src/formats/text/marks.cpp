#include "formats/text/marks.h"

namespace mitefall::formats {
namespace {

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

}  // namespace

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

}  // namespace mitefall::formats
