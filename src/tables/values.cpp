#include "tables/values.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "records/limits.h"
#include "tables/cells.h"

namespace mitefall::tables {
namespace {

constexpr std::array<std::string_view, 13> fault_names{
    "no-animal",      "no-enclosure", "on-record",    "not-a-number", "two-numbers",
    "not-above-zero", "too-heavy",    "not-possible", "not-a-day",    "two-days",
    "day-to-come",    "not-a-choice", "refused"};
constexpr std::array<std::string_view, 13> fault_texts{
    "there is neither an animal nor an enclosure",
    "the animal has no enclosure",
    "it is on record already",
    "it is not a number",
    "it may be two numbers: write it without a mark of thousands",
    "it is not above zero",
    "it is too heavy",
    "it cannot be",
    "it is not a day",
    "it may be two days: tell which of day and month stands first",
    "the day has not come yet",
    "it is not one of the choices",
    "it does not fit what is on record"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool all_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

/// A number as C writes it, all of the text.
std::optional<double> plain_number(const std::string& text) {
    double value = 0;
    const auto read =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    const bool is_all = read.ec == std::errc{} && read.ptr == text.data() + text.size();
    return is_all ? std::optional(value) : std::nullopt;
}

std::vector<std::string> split(std::string_view text, char mark) {
    std::vector<std::string> parts(1);
    for (const char c : text) {
        if (c == mark)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

/// "1", "620", "500": groups of thousands.
bool are_groups(const std::vector<std::string>& parts) {
    return parts.size() > 1 && !parts[0].empty() && parts[0].size() <= 3 && all_digits(parts[0]) &&
           std::all_of(parts.begin() + 1, parts.end(),
                       [](const std::string& part) { return part.size() == 3 && all_digits(part); });
}

std::string joined(const std::vector<std::string>& parts) {
    std::string all;
    for (const std::string& part : parts) all += part;
    return all;
}

/// A sign, and the rest in which blanks and quotation marks between thousands are all blanks.
struct Tidy {
    bool is_negative = false;
    std::string digits;
};

Tidy tidy(std::string_view text) {
    std::string rest(trimmed(text));
    for (const std::string_view mark : {"\u00A0", "\u2009", "\u202F", "\u2019", "'"}) {
        for (std::size_t at = rest.find(mark); at != std::string::npos; at = rest.find(mark))
            rest.replace(at, mark.size(), " ");
    }
    const bool is_negative = rest.starts_with('-');
    if (is_negative || rest.starts_with('+')) rest.erase(0, 1);
    return {is_negative, rest};
}

/// Digits with one mark of decimals at most, given as `decimal`.
std::optional<double> decimal_number(std::string text, char decimal) {
    if (text.empty() || text == std::string(1, decimal)) return std::nullopt;
    if (std::count(text.begin(), text.end(), decimal) > 1) return std::nullopt;
    for (char& c : text) {
        if (!is_digit(c) && c != decimal) return std::nullopt;
        if (c == decimal) c = '.';
    }
    if (text.front() == '.') text.insert(0, "0");
    if (text.back() == '.') text.pop_back();
    return plain_number(text);
}

/// "1,620.5" with the comma as `thousands` and the point as `decimal`; the decimals may be missing.
std::optional<double> grouped_number(const std::string& text, char thousands, char decimal) {
    const std::size_t point = text.find(decimal);
    const std::vector<std::string> groups = split(text.substr(0, point), thousands);
    if (!are_groups(groups)) return std::nullopt;
    return decimal_number(joined(groups) + (point == std::string::npos ? "" : text.substr(point)), decimal);
}

/// "1,620" and "1.620": one mark that may stand before thousands or decimals.
char lone_mark(const std::string& digits) {
    const char mark = digits.find(',') != std::string::npos ? ',' : '.';
    const std::vector<std::string> parts = split(digits, mark);
    return are_groups(parts) && parts.size() == 2 && parts[0][0] != '0' ? mark : '\0';
}

std::optional<double> read_digits(const std::string& digits) {
    if (const auto value = decimal_number(digits, '.')) return value;
    for (const char decimal : {'.', ','}) {
        if (const auto value = grouped_number(digits, ' ', decimal)) return value;
    }
    const bool has_both = digits.find(',') != std::string::npos && digits.find('.') != std::string::npos;
    const bool has_many = std::count(digits.begin(), digits.end(), ',') > 1 ||
                          std::count(digits.begin(), digits.end(), '.') > 1;
    if (has_both || has_many) {
        if (const auto value = grouped_number(digits, ',', '.')) return value;
        if (const auto value = grouped_number(digits, '.', ',')) return value;
    }
    return decimal_number(digits, ',');
}

struct WithUnit {
    std::string_view number;
    std::string unit;  ///< small letters; empty: none
};

WithUnit part(std::string_view text) {
    text = trimmed(text);
    std::size_t end = text.size();
    while (end > 0 && !is_digit(text[end - 1]) && text[end - 1] != ',' && text[end - 1] != '.') --end;
    // A full stop after the name of the unit is no part of it.
    std::string unit = folded(text.substr(end));
    if (unit.empty() && text.ends_with('.') && text.size() > 1 && !is_digit(text[text.size() - 2]))
        return part(text.substr(0, text.size() - 1));
    return {text.substr(0, end), std::move(unit)};
}

struct Unit {
    double grams;
    std::vector<std::string_view> names;
};

std::optional<double> grams_in(std::string_view unit) {
    constexpr double pound = 453.59237;  // NIST Handbook 44, appendix C
    static const std::vector<Unit> units{{1, {"g", "gr", "gram", "grams"}},
                                         {1000, {"kg", "kilo", "kilos", "kilogram", "kilograms"}},
                                         {pound, {"lb", "lbs", "pound", "pounds"}},
                                         {pound / 16, {"oz", "ounce", "ounces"}}};
    for (const Unit& one : units) {
        if (std::find(one.names.begin(), one.names.end(), unit) != one.names.end()) return one.grams;
    }
    return std::nullopt;
}

std::optional<Mark> meaning(const std::vector<std::string>& weights, char mark) {
    bool thousands = false;
    bool decimal = false;
    for (const std::string& weight : weights) {
        const std::string digits = tidy(part(weight).number).digits;
        if (digits.find(mark) == std::string::npos || !read_digits(digits) || lone_mark(digits) == mark)
            continue;
        const bool is_thousands = grouped_number(digits, mark, mark == ',' ? '.' : ',').has_value() &&
                                  !decimal_number(digits, mark);
        const bool is_group = std::count(digits.begin(), digits.end(), mark) > 1 || is_thousands;
        (is_group ? thousands : decimal) = true;
    }
    if (thousands == decimal) return std::nullopt;
    return thousands ? Mark::thousands : Mark::decimal;
}

Read<double> read_marked(std::string_view text, const Marks& marks) {
    const Tidy number = tidy(text);
    const char mark = lone_mark(number.digits);
    if (mark == '\0') return read_number(text);
    const auto told = mark == ',' ? marks.comma : marks.point;
    // A point is a decimal point, unless commas are that in this column.
    if (!told && (mark == ',' || marks.comma == Mark::decimal)) return Fault::two_numbers;
    const bool is_thousands = told == Mark::thousands;
    const auto value =
        is_thousands ? plain_number(joined(split(number.digits, mark))) : decimal_number(number.digits, mark);
    if (!value) return Fault::not_a_number;
    return number.is_negative ? -*value : *value;
}

Read<double> within(const Read<double>& read, double low, double high) {
    const auto* const value = std::get_if<double>(&read);
    if (value != nullptr && (*value < low || *value > high)) return Fault::not_possible;
    return read;
}

// Days.

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

std::string_view to_text(Fault fault) { return fault_names[static_cast<std::size_t>(fault)]; }
std::string_view describe(Fault fault) { return fault_texts[static_cast<std::size_t>(fault)]; }

Marks marks_of(const std::vector<std::string>& weights) {
    return {meaning(weights, ','), meaning(weights, '.')};
}

Read<double> read_number(std::string_view text) {
    const Tidy number = tidy(text);
    if (lone_mark(number.digits) == ',') return Fault::two_numbers;
    const auto value = read_digits(number.digits);
    if (!value) return Fault::not_a_number;
    return number.is_negative ? -*value : *value;
}

double grams_of_heading(std::string_view heading) {
    std::string word;
    for (const char c : folded(heading) + " ") {
        if (c >= 'a' && c <= 'z') {
            word += c;
            continue;
        }
        const auto grams = grams_in(word);
        if (grams) return *grams;
        word.clear();
    }
    return 1;
}

Read<double> read_mass(std::string_view text, const Marks& marks, double usual_grams) {
    const WithUnit written = part(text);
    const auto grams = written.unit.empty() ? std::optional(usual_grams) : grams_in(written.unit);
    if (!grams) return Fault::not_a_number;
    const Read<double> read = read_marked(written.number, marks);
    const auto* const value = std::get_if<double>(&read);
    if (value == nullptr) return read;
    if (*value <= 0) return Fault::not_above_zero;
    const double mass = *value * *grams;
    if (!records::check_mass(units::grams(mass))) return Fault::too_heavy;
    return mass;
}

Read<double> read_celsius(std::string_view text) {
    const WithUnit written = part(text);
    std::string unit = written.unit;
    for (const std::string_view word : {"degrees", "degree", "deg", "\u00B0", " "}) {
        for (std::size_t at = unit.find(word); at != std::string::npos; at = unit.find(word))
            unit.erase(at, word.size());
    }
    if (!unit.empty() && unit != "c" && unit != "f") return Fault::not_a_number;
    Read<double> read = read_number(written.number);
    if (auto* const value = std::get_if<double>(&read); value != nullptr && unit == "f")
        *value = (*value - 32) / 1.8;
    return within(read, -10, 60);
}

Read<double> read_percent(std::string_view text) {
    const WithUnit written = part(text);
    if (!written.unit.empty() && written.unit != "%") return Fault::not_a_number;
    return within(read_number(written.number), 0, 100);
}

Read<double> read_area(std::string_view text) {
    text = trimmed(text);
    for (const std::string_view unit : {"cm2", "cm\u00B2"}) {
        if (text.ends_with(unit)) text = trimmed(text.substr(0, text.size() - unit.size()));
    }
    const Read<double> read = read_number(text);
    const auto* const value = std::get_if<double>(&read);
    if (value != nullptr && *value <= 0) return Fault::not_above_zero;
    return read;
}

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
