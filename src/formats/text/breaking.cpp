#include "formats/text/breaking.h"

#include <algorithm>

#include "formats/text/marks.h"

namespace mitefall::formats {
namespace {

constexpr std::size_t longest_glued = 16;

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

}  // namespace

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

}  // namespace mitefall::formats
