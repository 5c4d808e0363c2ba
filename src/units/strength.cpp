#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <optional>

#include "units/text.h"
#include "units/written.h"

namespace mitefall::units {
namespace {

using base::Error;
using base::fail;
using base::invalid;
using base::Result;

constexpr std::array strength_units{
    UnitName{"mg/ml", 1000.0},     UnitName{"mg/l", 1.0},     UnitName{"g/l", 1000.0},
    UnitName{"% w/v", 10000.0},    UnitName{"%w/v", 10000.0}, UnitName{"% m/v", 10000.0},
    UnitName{"g/100 ml", 10000.0}, UnitName{"ug/ml", 1.0},    UnitName{"mcg/ml", 1.0},
    UnitName{"ppm w/v", 1.0},
};

bool is_one_of(std::string_view unit, std::initializer_list<std::string_view> list) {
    return std::find(list.begin(), list.end(), unit) != list.end();
}

Error say_part_of_what(std::string_view text, const NumberAndUnit& parts) {
    const bool is_percent = parts.unit == "%";
    const std::string number = show_number(parts.number, 6);
    return invalid(
        fmt::format("\"{}\" alone does not say what it is a part of", parts.unit), std::string(text),
        "mass in volume (w/v) and volume in volume (v/v) are different strengths",
        is_percent
            ? fmt::format("look on the label: if it says w/v or {} mg/mL, write \"{} % w/v\"; if it says "
                          "anything else, ask the pharmacist for the mg/mL",
                          show_number(parts.number * 10, 6), number)
            : fmt::format("look on the label: if it means mg in a litre, write \"{} mg/L\"", number));
}

/// What a label may say and this cannot be sure of, as a question back.
std::optional<Error> ask_about_strength(std::string_view text) {
    if (text.find(':') != std::string_view::npos) {
        return invalid("a ratio does not say whether the stock is counted in the whole", std::string(text),
                       "1:100 may be 1 part in 100 or 1 part and 100 more",
                       "write the mg/mL of the stock, and the recipe as what went in");
    }
    const auto parts = split(text, "strength", "10 mg/mL");
    if (!parts) return std::nullopt;
    if (is_one_of(parts->unit, {"%", "percent", "ppm"})) return say_part_of_what(text, *parts);
    if (is_one_of(parts->unit, {"% v/v", "%v/v", "% w/w", "%w/w", "% m/m", "mg/g", "mg/kg", "g/kg"})) {
        return invalid(
            fmt::format("\"{}\" cannot be turned into mg/mL without the density", parts->unit),
            std::string(text), "a mass of active ingredient in a volume",
            "find the mg/mL on the label or ask the pharmacist; a paste is not measured by volume");
    }
    if (is_one_of(parts->unit, {"mg", "g", "ug", "mcg", "iu", "ml"})) {
        return invalid("an amount is not a strength", std::string(text), "an amount in a volume",
                       "say in how much: \"10 mg/mL\"");
    }
    return std::nullopt;
}

}  // namespace

Result<Strength> parse_strength(std::string_view text) {
    if (const auto question = ask_about_strength(text)) return fail(*question);
    const auto amount = in_base_unit(text, "strength", "10 mg/mL", strength_units);
    if (amount && *amount > in_milligrams_per_litre(percent_mass_in_volume(100))) {
        return fail(invalid("stronger than anything can be", std::string(text), "100 % w/v (1000 mg/mL)",
                            "check the number and the unit on the label"));
    }
    return amount.map(milligrams_per_litre);
}

}  // namespace mitefall::units
