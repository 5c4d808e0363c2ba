#include "tables/days.h"

#include <algorithm>
#include <array>

#include "tables/cells.h"
#include "tables/digits.h"

namespace mitefall::tables {
namespace {

std::optional<units::Day> day_of(int year, int month, int day, std::size_t digits_of_year) {
    constexpr int century = 2000;
    if (digits_of_year == 2) year += century;
    const auto text_of = [](int value, std::size_t width) {
        std::string text = std::to_string(value);
        return text.insert(0, width - std::min(width, text.size()), '0');
    };
    const auto read = units::parse_day(text_of(year, 4) + "-" + text_of(month, 2) + "-" + text_of(day, 2));
    return read ? std::optional(*read) : std::nullopt;
}

/// Pieces of digits or of letters, and what stands between them.
struct Pieces {
    std::vector<std::string> pieces;
    std::vector<std::string> between;
};

Pieces pieces_of(std::string_view text) {
    Pieces found;
    const auto kind = [](char c) { return is_digit(c) ? 1 : (c >= 'a' && c <= 'z') ? 2 : 0; };
    int before = 0;
    std::string gap;
    for (const char c : folded(text)) {
        const int now = kind(c);
        if (now == 0) {
            gap += c;
        } else if (now == before && gap.empty()) {
            found.pieces.back() += c;
        } else {
            if (!found.pieces.empty() || !gap.empty()) found.between.push_back(gap);
            found.pieces.emplace_back(1, c);
            gap.clear();
        }
        before = now == 0 ? before : now;
    }
    if (!gap.empty() && gap != ".") found.between.push_back(gap);
    return found;
}

/// Without a time of the day behind it.
std::string_view without_time(std::string_view text) {
    text = trimmed(text);
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return text;
    const std::size_t before = text.find_last_of(" Tt", colon);
    return before == std::string_view::npos ? text : trimmed(text.substr(0, before));
}

int month_of(std::string_view name) {
    constexpr std::array<std::string_view, 12> months{"january",   "february", "march",    "april",
                                                      "may",       "june",     "july",     "august",
                                                      "september", "october",  "november", "december"};
    for (std::size_t i = 0; i < months.size(); ++i) {
        if (name.size() >= 3 && months[i].starts_with(name)) return static_cast<int>(i) + 1;
    }
    return 0;
}

bool is_year(const std::string& piece) {
    return all_digits(piece) && (piece.size() == 4 || piece.size() == 2);
}
bool is_day_number(const std::string& piece) { return all_digits(piece) && piece.size() <= 2; }

std::optional<units::Day> named_day(std::vector<std::string> pieces) {
    const auto is_ending = [](const std::string& piece) {
        return piece == "st" || piece == "nd" || piece == "rd" || piece == "th";
    };
    std::erase_if(pieces, is_ending);
    if (pieces.size() != 3 || !is_year(pieces[2])) return std::nullopt;
    const bool day_first = is_day_number(pieces[0]);
    const std::string& day = pieces[day_first ? 0 : 1];
    const int month = month_of(pieces[day_first ? 1 : 0]);
    if (month == 0 || !is_day_number(day)) return std::nullopt;
    return day_of(std::stoi(pieces[2]), month, std::stoi(day), pieces[2].size());
}

bool are_alike(std::vector<std::string> between) {
    for (std::string& one : between) one = std::string(trimmed(one));
    return between.size() == 2 && between[0] == between[1] &&
           (between[0] == "-" || between[0] == "/" || between[0] == ".");
}

}  // namespace

Days days_in(std::string_view text) {
    const auto [pieces, between] = pieces_of(without_time(text));
    const bool are_numbers = pieces.size() == 3 && std::all_of(pieces.begin(), pieces.end(), all_digits);
    if (!are_numbers) {
        const auto day = named_day(pieces);
        return {day, day};
    }
    if (!are_alike(between)) return {};
    const auto number = [&pieces = pieces](std::size_t i) { return std::stoi(pieces[i]); };
    if (pieces[0].size() == 4 && is_day_number(pieces[1]) && is_day_number(pieces[2])) {
        const auto day = day_of(number(0), number(1), number(2), 4);
        return {day, day};
    }
    if (!is_day_number(pieces[0]) || !is_day_number(pieces[1]) || !is_year(pieces[2])) return {};
    const std::size_t digits = pieces[2].size();
    return {day_of(number(2), number(1), number(0), digits), day_of(number(2), number(0), number(1), digits)};
}

OrderTold order_of(const std::vector<std::string>& days) {
    bool only_day = false;
    bool only_month = false;
    bool is_open = false;
    for (const std::string& text : days) {
        const auto [day_first, month_first] = days_in(text);
        if (day_first == month_first) continue;
        only_day |= !month_first.has_value();
        only_month |= !day_first.has_value();
        is_open |= day_first.has_value() && month_first.has_value();
    }
    if (only_day != only_month) return {only_day ? Order::day : Order::month, false};
    return {std::nullopt, is_open};
}

Read<units::Day> read_day(std::string_view text, std::optional<Order> order) {
    const auto [day_first, month_first] = days_in(text);
    if (!day_first && !month_first) return Fault::not_a_day;
    if (day_first == month_first) return *day_first;
    if (!day_first || !month_first) return day_first ? *day_first : *month_first;
    if (!order) return Fault::two_days;
    return *order == Order::day ? *day_first : *month_first;
}

}  // namespace mitefall::tables
