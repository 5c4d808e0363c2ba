#include "units/written.h"

#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <cmath>

namespace mitefall::units {
namespace {

using base::fail;
using base::invalid;
using base::Result;

std::string tidy_unit(std::string_view text) {
    std::string unit;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isspace(byte) == 0) {
            unit += static_cast<char>(std::tolower(byte));
        } else if (!unit.empty() && unit.back() != ' ') {
            unit += ' ';
        }
    }
    while (!unit.empty() && (unit.back() == ' ' || unit.back() == '.')) unit.pop_back();
    return unit;
}

const UnitName* find_unit(std::span<const UnitName> units, std::string_view name) {
    for (const UnitName& unit : units) {
        if (unit.name == name) return &unit;
    }
    return nullptr;
}

std::string list_units(std::span<const UnitName> units) {
    std::string list;
    for (const UnitName& unit : units) list += (list.empty() ? "" : ", ") + std::string(unit.name);
    return list;
}

/// Takes the digits in front away.
std::optional<int> take_count(std::string_view& text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    int count = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (fault != std::errc{} || count < 0) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return count;
}

}  // namespace

std::optional<NumberAndUnit> split_fraction(std::string_view text) {
    std::optional<int> whole = 0;
    std::optional<int> above = take_count(text);
    if (above && text.starts_with(' ')) {
        whole = above;
        above = take_count(text);
    }
    if (!above || !text.starts_with('/')) return std::nullopt;
    text.remove_prefix(1);
    const std::optional<int> below = take_count(text);
    const bool is_of_the_kitchen = below == 2 || below == 3 || below == 4 || below == 8;
    if (!is_of_the_kitchen || *above < 1 || *above >= *below || !text.starts_with(' ')) return std::nullopt;
    return NumberAndUnit{*whole + static_cast<double>(*above) / *below, tidy_unit(text)};
}

Result<NumberAndUnit> split(std::string_view text, std::string_view kind, std::string_view example) {
    std::size_t start = 0;
    while (start < text.size() && std::isspace(static_cast<unsigned char>(text[start])) != 0) ++start;
    double number = 0;
    const char* const first = text.data() + start;
    const auto [end, fault] =
        std::from_chars(first, text.data() + text.size(), number, std::chars_format::fixed);
    if (fault != std::errc{} || !std::isfinite(number)) {
        return fail(invalid(fmt::format("not a {}", kind), std::string(text), "a number followed by its unit",
                            fmt::format("write it like {}", example)));
    }
    const std::string_view rest{end, static_cast<std::size_t>(text.data() + text.size() - end)};
    if (rest.starts_with(',')) {
        return fail(
            invalid(fmt::format("a comma in a {} may be a decimal comma or a mark of thousands", kind),
                    std::string(text), "digits, and a point before decimals",
                    fmt::format("write it like {}", example)));
    }
    return NumberAndUnit{number, tidy_unit(rest)};
}

Result<double> amount_of(const NumberAndUnit& parts, double factor, std::string_view kind,
                         std::string_view text) {
    const double amount = parts.number * factor;
    if (!(amount >= 0) || !std::isfinite(amount)) {
        return fail(invalid(fmt::format("a {} cannot be negative", kind), std::string(text), "zero or more"));
    }
    return amount;
}

Result<double> in_base_unit(std::string_view text, std::string_view kind, std::string_view example,
                            std::span<const UnitName> units, const std::string& known) {
    const auto parts = split(text, kind, example);
    if (!parts) return fail(parts.error());
    const UnitName* const unit = find_unit(units, parts->unit);
    if (unit == nullptr) {
        return fail(invalid(fmt::format("unknown unit \"{}\" for a {}", parts->unit, kind), std::string(text),
                            "one of " + (known.empty() ? list_units(units) : known),
                            fmt::format("write it like {}", example)));
    }
    return amount_of(*parts, unit->factor, kind, text);
}

}  // namespace mitefall::units
