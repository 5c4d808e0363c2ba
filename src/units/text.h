#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "units/amounts.h"
#include "units/climate.h"

// Amounts as people write them: a number and a unit ("38 mL", "32 US fl oz", "0.5 % w/v", "79 F").
namespace mitefall::units {

/// mL, cL, dL, L; US, imperial and metric fluid ounces, teaspoons, tablespoons, cups, pints, quarts and
/// gallons, in short or in full, one or many ("2 US quarts", "1 imp pt"). Without "US", "imp" or "metric"
/// these are refused: they differ, and the error says by how much and how to write each. Spoons, cups, pints,
/// quarts and gallons may be written as recipes do, in halves, thirds, quarters and eighths: "1 1/2 US tsp".
[[nodiscard]] base::Result<Volume> parse_volume(std::string_view text);

/// What an amount was measured with, where its unit names it.
enum class NamedMeasure {
    none,    ///< a unit that is read off marks: mL, L, fl oz
    spoon,   ///< teaspoon, tablespoon
    vessel,  ///< cup, pint, quart, gallon: filled to its line, so that "1 quart" is a quart
};
/// `text` as for parse_volume; none for what is no volume.
[[nodiscard]] NamedMeasure measure_named_in(std::string_view text);

/// g, kg, mg, lb, oz.
[[nodiscard]] base::Result<Mass> parse_mass(std::string_view text);

/// mg/mL, mg/L, g/L, ug/mL, g/100 mL, % w/v, ppm w/v. A bare "%" or "ppm" or a ratio is refused with the
/// question to ask the label; "% v/v", "% w/w" and mg/g as not convertible.
[[nodiscard]] base::Result<Strength> parse_strength(std::string_view text);

/// C or F, -50 to 100 C.
[[nodiscard]] base::Result<Temperature> parse_temperature(std::string_view text);

/// A finite number, the whole text.
[[nodiscard]] base::Result<double> parse_number(std::string_view text);

enum class UnitSystem { metric, us, imperial };
/// Of what a volume is written in; metric for what is no volume.
[[nodiscard]] UnitSystem system_written_in(std::string_view text);
enum class TemperatureScale { celsius, fahrenheit };

/// What the keeper reads. Never used to read amounts back.
struct Display {
    UnitSystem system = UnitSystem::metric;
    TemperatureScale scale = TemperatureScale::celsius;
};

[[nodiscard]] std::string show(Volume volume, Display display);
[[nodiscard]] std::string show(Mass mass, Display display);
[[nodiscard]] std::string show(Temperature temperature, Display display);
/// Always mg/L: strengths are compared across sources, so one unit is used.
[[nodiscard]] std::string show(Strength strength);
[[nodiscard]] std::string show(Dose dose);
/// A chance as a percentage that never rounds to 0 % or 100 % unless it is ("99.98 %", "< 0.1 %", "> 99.99
/// %").
[[nodiscard]] std::string show_chance(double probability);
/// `digits` significant figures, no exponent, no trailing zeros after the point.
[[nodiscard]] std::string show_number(double value, int digits);

}  // namespace mitefall::units
