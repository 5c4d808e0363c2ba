#include "mixing/label.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "units/text.h"
#include "units/written.h"

namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

const char* const example = "ivermectin 10 mg/mL";

/// What may stand behind the number of a strength; the longer before what it begins with.
constexpr std::array<std::string_view, 25> strength_units{
    "g/100 ml", "ppm w/v", "percent", "mg/ml", "ug/ml", "mcg/ml", "% w/v", "% m/v", "% v/v",
    "% w/w",    "% m/m",   "mg/kg",   "mg/l",  "mg/g",  "g/kg",   "%w/v",  "%v/v",  "%w/w",
    "g/l",      "ppm",     "mg",      "iu",    "ml",    "g",      "%"};

bool is_unit(std::string_view text) {
    return std::find(strength_units.begin(), strength_units.end(), text) != strength_units.end();
}

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::string trimmed(std::string_view text) {
    constexpr std::string_view outside = " \t\n:=,;()";
    const auto first = text.find_first_not_of(outside);
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(outside) - first + 1));
}

struct Parts {
    std::string name;
    std::string amount;
};

bool begins_number(std::string_view text, std::size_t at) {
    return is_digit(text[at]) &&
           (at == 0 || std::string_view(" \t:=(").find(text[at - 1]) != std::string_view::npos);
}

/// A name, then a number with a unit that ends the text.
Result<Parts> with_amount_behind(std::string_view text) {
    for (std::size_t at = 1; at < text.size(); ++at) {
        if (!begins_number(text, at)) continue;
        const std::string amount = trimmed(text.substr(at));
        const auto parts = units::split(amount, "strength", example);
        if (!parts && amount.find(' ') == std::string::npos && amount.find(',') == std::string::npos)
            continue;
        if (!parts) return fail(parts.error());
        if (is_unit(parts->unit)) return Parts{trimmed(text.substr(0, at)), amount};
    }
    return Parts{trimmed(text), {}};
}

/// "0.5 % permethrin"; no name: it does not begin so.
Parts with_amount_in_front(std::string_view text) {
    const auto parts = units::split(text, "strength", example);
    if (text.empty() || !is_digit(text.front()) || !parts) return {};
    for (const std::string_view unit : strength_units) {
        if (!parts->unit.starts_with(std::string(unit) + " ")) continue;
        const std::size_t words = static_cast<std::size_t>(std::count(unit.begin(), unit.end(), ' ')) + 1;
        std::size_t at = text.find_first_not_of("0123456789.");
        for (std::size_t i = 0; i < words && at != std::string_view::npos; ++i)
            at = text.find(' ', text.find_first_not_of(' ', at));
        if (at == std::string_view::npos) return {};
        return {trimmed(text.substr(at)), trimmed(text.substr(0, at))};
    }
    return {};
}

/// Something with letters that is not a strength alone.
bool is_name(const std::string& text) {
    const auto amount = units::split(text, "strength", example);
    const bool has_letter = std::any_of(
        text.begin(), text.end(), [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; });
    return has_letter && !(amount && is_unit(amount->unit));
}

Result<LabelLine> with_strength(Parts parts) {
    LabelLine line{std::move(parts.name), std::move(parts.amount), std::nullopt};
    if (line.amount.empty()) return line;
    const auto written = units::split(line.amount, "strength", example);
    if (!written) return fail(written.error());
    line.is_bare_percent = written->unit == "%" || written->unit == "percent";
    const auto read = units::parse_strength(
        line.is_bare_percent ? units::show_number(written->number, 12) + " % w/v" : line.amount);
    if (read) line.strength = *read;
    const bool is_too_much = written->unit.starts_with('%') && written->number > 100;
    if (!(written->number > 0) || is_too_much)
        return fail(invalid("a strength lies above zero and, in per cent, not above 100", line.amount,
                            "more than 0, at most 100 %", "read the number on the label again"));
    return line;
}

}  // namespace

Result<LabelLine> read_label_line(std::string_view text) {
    const std::string all = trimmed(text);
    Parts parts = with_amount_in_front(all);
    if (parts.name.empty()) {
        auto behind = with_amount_behind(all);
        if (!behind) return fail(behind.error());
        parts = std::move(*behind);
    }
    if (!is_name(parts.name))
        return fail(invalid("an ingredient has a name", std::string(text), "a name and its strength",
                            std::string("write it like \"") + example + "\""));
    return with_strength(std::move(parts));
}

}  // namespace mitefall::mixing
