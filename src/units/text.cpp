#include "units/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <initializer_list>
#include <optional>
#include <span>

namespace mitefall::units {
namespace {

using base::Error;
using base::fail;
using base::invalid;
using base::Result;

struct NumberAndUnit {
    double number;
    std::string unit;  // lower case, inner spaces collapsed
};

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

struct UnitName {
    std::string_view name;
    double factor;  // to the base unit of the dimension
};

// The first name of each unit is the one errors show.
constexpr std::array litre_units{
    UnitName{"ml", 1.0},         UnitName{"millilitre", 1.0},  UnitName{"millilitres", 1.0},
    UnitName{"milliliter", 1.0}, UnitName{"milliliters", 1.0}, UnitName{"cc", 1.0},
    UnitName{"cl", 10.0},        UnitName{"dl", 100.0},        UnitName{"l", 1000.0},
    UnitName{"litre", 1000.0},   UnitName{"liter", 1000.0},    UnitName{"litres", 1000.0},
    UnitName{"liters", 1000.0},
};

/// A measure of the kitchen, which is not the same everywhere. mL; 0: there is none of that kind.
struct CustomaryUnit {
    std::string_view name;  ///< as errors show it
    std::array<std::string_view, 6> names;
    double us, imperial, metric;
    NamedMeasure measure;
};

// US and imperial: NIST Handbook 44 (2023), appendix C. Metric: as sold with kitchen scales; the metric cup
// and spoons are common practice.
constexpr std::array customary_units{
    CustomaryUnit{"fl oz",
                  {"fl oz", "fl. oz", "floz", "fluid ounce", "fluid ounces", "oz"},
                  ml_per_us_fluid_ounce,
                  ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::none},
    CustomaryUnit{
        "tsp", {"tsp", "teaspoon", "teaspoons", "tsps"}, ml_per_us_teaspoon, 0, 5, NamedMeasure::spoon},
    CustomaryUnit{"tbsp",
                  {"tbsp", "tablespoon", "tablespoons", "tbsps"},
                  3 * ml_per_us_teaspoon,
                  0,
                  15,
                  NamedMeasure::spoon},
    CustomaryUnit{"cup", {"cup", "cups"}, 8 * ml_per_us_fluid_ounce, 0, 250, NamedMeasure::vessel},
    CustomaryUnit{"pint",
                  {"pint", "pints", "pt", "pts"},
                  16 * ml_per_us_fluid_ounce,
                  20 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
    CustomaryUnit{"quart",
                  {"quart", "quarts", "qt", "qts"},
                  ml_per_us_quart,
                  40 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
    CustomaryUnit{"gallon",
                  {"gallon", "gallons", "gal", "gals"},
                  ml_per_us_gallon,
                  160 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
};

/// "US", "imp" or "metric" in front of a unit.
struct Kind {
    std::string_view word;
    double CustomaryUnit::*millilitres;
    std::string_view shown;
};
constexpr std::array kinds{
    Kind{"us", &CustomaryUnit::us, "US"},
    Kind{"u.s.", &CustomaryUnit::us, "US"},
    Kind{"imp", &CustomaryUnit::imperial, "imp"},
    Kind{"imp.", &CustomaryUnit::imperial, "imp"},
    Kind{"imperial", &CustomaryUnit::imperial, "imp"},
    Kind{"uk", &CustomaryUnit::imperial, "imp"},
    Kind{"metric", &CustomaryUnit::metric, "metric"},
};

/// A unit of the kitchen as it was written; `millilitres` is 0 where nobody said which, or there is none.
struct Customary {
    const CustomaryUnit* unit = nullptr;
    double millilitres = 0;
};

std::optional<Customary> find_customary(std::string_view written) {
    const Kind* kind = nullptr;
    for (const Kind& one : kinds) {
        if (written.starts_with(one.word) && written.substr(one.word.size()).starts_with(' ')) kind = &one;
    }
    const std::string_view name = kind == nullptr ? written : written.substr(kind->word.size() + 1);
    for (const CustomaryUnit& unit : customary_units) {
        if (std::find(unit.names.begin(), unit.names.end(), name) == unit.names.end() || name.empty())
            continue;
        return Customary{&unit, kind == nullptr ? 0 : unit.*kind->millilitres};
    }
    return std::nullopt;
}

constexpr std::array mass_units{
    UnitName{"g", 1.0},        UnitName{"kg", 1000.0},       UnitName{"mg", 0.001},
    UnitName{"lb", 453.59237}, UnitName{"oz", 28.349523125},
};

constexpr std::array strength_units{
    UnitName{"mg/ml", 1000.0},     UnitName{"mg/l", 1.0},     UnitName{"g/l", 1000.0},
    UnitName{"% w/v", 10000.0},    UnitName{"%w/v", 10000.0}, UnitName{"% m/v", 10000.0},
    UnitName{"g/100 ml", 10000.0}, UnitName{"ug/ml", 1.0},    UnitName{"mcg/ml", 1.0},
    UnitName{"ppm w/v", 1.0},
};

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

/// What a volume may be written in, for errors.
std::string known_volumes() {
    std::string list = "mL, L";
    for (const CustomaryUnit& unit : customary_units) {
        for (const Kind& kind : kinds) {
            const std::string one = fmt::format(", {} {}", kind.shown, unit.name);
            if (unit.*kind.millilitres > 0 && list.find(one) == std::string::npos) list += one;
        }
    }
    return list;
}

Result<double> amount_of(const NumberAndUnit& parts, double factor, std::string_view kind,
                         std::string_view text) {
    const double amount = parts.number * factor;
    if (!(amount >= 0) || !std::isfinite(amount)) {
        return fail(invalid(fmt::format("a {} cannot be negative", kind), std::string(text), "zero or more"));
    }
    return amount;
}

/// `known`: what errors list; empty: the names of the units.
Result<double> in_base_unit(std::string_view text, std::string_view kind, std::string_view example,
                            std::span<const UnitName> units, const std::string& known = {}) {
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

/// "US quart" (946 mL) or "imp quart" (1.14 L)
std::string each_kind(const CustomaryUnit& unit) {
    std::string text;
    for (const Kind& kind : kinds) {
        const double ml = unit.*kind.millilitres;
        const std::string one =
            fmt::format("\"{} {}\" ({})", kind.shown, unit.name, show(millilitres(ml), {}));
        if (ml > 0 && text.find(one) == std::string::npos) text += (text.empty() ? "" : " or ") + one;
    }
    return text;
}

Error ask_which(std::string_view text, const CustomaryUnit& unit, std::string_view written) {
    return invalid(fmt::format("\"{}\" means different volumes in different countries", written),
                   std::string(text), "US, imperial and metric measures differ",
                   "say which: " + each_kind(unit));
}

}  // namespace

Result<double> parse_number(std::string_view text) {
    double number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size() || !std::isfinite(number)) {
        return fail(
            invalid("not a number", std::string(text), "a finite decimal number", "write it like 12.5"));
    }
    return number;
}

Result<Volume> parse_volume(std::string_view text) {
    const auto parts = split(text, "volume", "38 mL");
    if (!parts) return fail(parts.error());
    const auto customary = find_customary(parts->unit);
    if (!customary)
        return in_base_unit(text, "volume", "38 mL", litre_units, known_volumes()).map(millilitres);
    if (!(customary->millilitres > 0)) return fail(ask_which(text, *customary->unit, parts->unit));
    return amount_of(*parts, customary->millilitres, "volume", text).map(millilitres);
}

NamedMeasure measure_named_in(std::string_view text) {
    const auto parts = split(text, "volume", "38 mL");
    const auto customary = parts ? find_customary(parts->unit) : std::nullopt;
    return customary ? customary->unit->measure : NamedMeasure::none;
}

Result<Mass> parse_mass(std::string_view text) {
    return in_base_unit(text, "mass", "450 g", mass_units).map(grams);
}

Result<Strength> parse_strength(std::string_view text) {
    if (const auto question = ask_about_strength(text)) return fail(*question);
    const auto amount = in_base_unit(text, "strength", "10 mg/mL", strength_units);
    if (amount && *amount > in_milligrams_per_litre(percent_mass_in_volume(100))) {
        return fail(invalid("stronger than anything can be", std::string(text), "100 % w/v (1000 mg/mL)",
                            "check the number and the unit on the label"));
    }
    return amount.map(milligrams_per_litre);
}

Result<Temperature> parse_temperature(std::string_view text) {
    const auto parts = split(text, "temperature", "28 C");
    if (!parts) return fail(parts.error());
    if (parts->unit != "c" && parts->unit != "f") {
        return fail(invalid("a temperature without C or F", std::string(text), "C or F",
                            "write it like 28 C or 82 F"));
    }
    const Temperature temperature = parts->unit == "c" ? celsius(parts->number) : fahrenheit(parts->number);
    if (!(in_celsius(temperature) >= -50 && in_celsius(temperature) <= 100)) {
        return fail(invalid("temperature out of range", std::string(text), "-50 to 100 C (-58 to 212 F)"));
    }
    return temperature;
}

std::string show_number(double value, int digits) {
    if (!std::isfinite(value)) return "unknown";
    if (value == 0) return "0";
    const int magnitude = static_cast<int>(std::floor(std::log10(std::fabs(value))));
    const int decimals = digits - 1 - magnitude;
    if (decimals <= 0) {
        const double step = std::pow(10.0, -decimals);
        return fmt::format("{:.0f}", std::round(value / step) * step);
    }
    std::string text = fmt::format("{:.{}f}", value, decimals);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string show(Volume volume, Display display) {
    const double ml = in_millilitres(volume);
    if (display.system == UnitSystem::us && ml >= ml_per_us_fluid_ounce) {
        return show_number(in_us_fluid_ounces(volume), 3) + " US fl oz";
    }
    if (display.system == UnitSystem::imperial && ml >= ml_per_imperial_fluid_ounce) {
        return show_number(in_imperial_fluid_ounces(volume), 3) + " imp fl oz";
    }
    if (ml >= 1000) return show_number(in_litres(volume), 3) + " L";
    return show_number(ml, 3) + " mL";
}

std::string show(Mass mass, Display display) {
    if (display.system == UnitSystem::metric) {
        return in_grams(mass) >= 1000 ? show_number(in_kilograms(mass), 3) + " kg"
                                      : show_number(in_grams(mass), 3) + " g";
    }
    return in_pounds(mass) >= 1 ? show_number(in_pounds(mass), 3) + " lb"
                                : show_number(in_ounces(mass), 3) + " oz";
}

std::string show(Temperature temperature, Display display) {
    return display.scale == TemperatureScale::celsius ? show_number(in_celsius(temperature), 3) + " C"
                                                      : show_number(in_fahrenheit(temperature), 3) + " F";
}

std::string show(Strength strength) { return show_number(in_milligrams_per_litre(strength), 3) + " mg/L"; }

std::string show(Dose dose) { return show_number(in_milligrams_per_kilogram(dose), 2) + " mg/kg"; }

std::string show_chance(double probability) {
    if (!(probability >= 0 && probability <= 1)) return "unknown";
    const double percent = probability * 100;
    if (probability == 0 || probability == 1) return fmt::format("{:.0f} %", percent);
    if (percent < 0.1) return "< 0.1 %";
    if (percent > 99.99) return "> 99.99 %";
    if (percent >= 99) return fmt::format("{:.2f} %", std::floor(percent * 100) / 100);
    if (percent >= 90) return fmt::format("{:.1f} %", std::floor(percent * 10) / 10);
    return percent < 10 ? fmt::format("{:.1f} %", percent) : fmt::format("{:.0f} %", percent);
}

}  // namespace mitefall::units
