#include "evidence/names_alike.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace mitefall::evidence {
namespace {

bool is_letter_or_digit(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z') ||
           byte >= 0x80;
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Edits (insert, delete, replace one letter) that turn one text into the other (Levenshtein 1966).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row;
    for (std::size_t j = 0; j <= b.size(); ++j) row.push_back(j);
    std::size_t distance = b.size();
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i);
        distance = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            distance = std::min({row[j] + 1, distance + 1, replaced});
            diagonal = std::exchange(row[j], distance);
        }
    }
    return distance;
}

/// Edits between two names, none when they are more than a slip or three of the finger.
std::optional<std::size_t> slips(std::string_view asked, std::string_view known) {
    const std::size_t longest_side = std::max(asked.size(), known.size());
    const std::size_t difference = longest_side - std::min(asked.size(), known.size());
    const std::size_t tolerated = longest_side >= 8 ? 3 : longest_side >= 5 ? 2 : 1;
    if (difference > tolerated) return std::nullopt;
    const std::size_t distance = edit_distance(asked, known);
    return distance <= tolerated ? std::optional(distance) : std::nullopt;
}

}  // namespace

std::string key_of(std::string_view text) {
    std::string key;
    for (const char c : text) {
        if (is_letter_or_digit(c)) key += lower(c);
    }
    return key;
}

std::string first_word(std::string_view text) {
    const auto start = std::find_if(text.begin(), text.end(), is_letter_or_digit);
    const auto end = std::find_if_not(start, text.end(), is_letter_or_digit);
    return key_of(std::string_view(start, end));
}

std::optional<std::size_t> unlikeness(std::string_view asked, std::string_view known) {
    if (const auto distance = slips(asked, known)) return distance;
    constexpr std::size_t shortest_part = 5;
    constexpr std::size_t beyond_slips = 4;
    const bool contained = known.size() >= shortest_part && asked.find(known) != std::string_view::npos;
    const bool contains = asked.size() >= shortest_part && known.find(asked) != std::string_view::npos;
    return contained || contains ? std::optional(beyond_slips) : std::nullopt;
}

}  // namespace mitefall::evidence
