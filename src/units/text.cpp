#include "units/text.h"

#include <array>
#include <charconv>
#include <cmath>

#include "units/customary.h"
#include "units/written.h"

namespace mitefall::units {
namespace {

using base::fail;
using base::invalid;
using base::Result;

// The first name of each unit is the one errors show.
constexpr std::array litre_units{
    UnitName{"ml", 1.0},         UnitName{"millilitre", 1.0},  UnitName{"millilitres", 1.0},
    UnitName{"milliliter", 1.0}, UnitName{"milliliters", 1.0}, UnitName{"cc", 1.0},
    UnitName{"cl", 10.0},        UnitName{"dl", 100.0},        UnitName{"l", 1000.0},
    UnitName{"litre", 1000.0},   UnitName{"liter", 1000.0},    UnitName{"litres", 1000.0},
    UnitName{"liters", 1000.0},
};

constexpr std::array mass_units{
    UnitName{"g", 1.0},        UnitName{"kg", 1000.0},       UnitName{"mg", 0.001},
    UnitName{"lb", 453.59237}, UnitName{"oz", 28.349523125},
};

/// A number and its unit; of spoons, cups, pints, quarts and gallons a fraction too, as recipes are written.
Result<NumberAndUnit> split_volume(std::string_view text) {
    if (auto parts = split_fraction(text)) {
        const auto customary = find_customary(parts->unit);
        if (customary && customary->unit->measure != NamedMeasure::none) return std::move(*parts);
    }
    return split(text, "volume", "38 mL");
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
    const auto parts = split_volume(text);
    if (!parts) return fail(parts.error());
    const auto customary = find_customary(parts->unit);
    if (!customary)
        return in_base_unit(text, "volume", "38 mL", litre_units, known_volumes()).map(millilitres);
    if (!(customary->millilitres > 0)) return fail(ask_which(text, *customary->unit, parts->unit));
    return amount_of(*parts, customary->millilitres, "volume", text).map(millilitres);
}

NamedMeasure measure_named_in(std::string_view text) {
    const auto parts = split_volume(text);
    const auto customary = parts ? find_customary(parts->unit) : std::nullopt;
    return customary ? customary->unit->measure : NamedMeasure::none;
}

UnitSystem system_written_in(std::string_view text) {
    const auto parts = split_volume(text);
    const auto customary = parts ? find_customary(parts->unit) : std::nullopt;
    if (!customary || !(customary->millilitres > 0)) return UnitSystem::metric;
    if (customary->millilitres == customary->unit->us) return UnitSystem::us;
    return customary->millilitres == customary->unit->imperial ? UnitSystem::imperial : UnitSystem::metric;
}

Result<Mass> parse_mass(std::string_view text) {
    return in_base_unit(text, "mass", "450 g", mass_units).map(grams);
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

}  // namespace mitefall::units
