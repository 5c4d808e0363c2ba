#include "tables/numbers.h"

#include <algorithm>
#include <charconv>

#include "tables/cells.h"
#include "tables/digits.h"

namespace mitefall::tables {
namespace {

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

}  // namespace

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

}  // namespace mitefall::tables
