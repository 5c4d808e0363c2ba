#pragma once

#include <string_view>

#include "tables/numbers.h"

// What a cell means as a weight, a temperature, a humidity or an area.
namespace mitefall::tables {

/// Grams in one of the unit a heading names: "Weight (kg)"; 1 where it names none.
[[nodiscard]] double grams_of_heading(std::string_view heading);

/// A weight in grams: above 0, at most 200 kg (records/limits.h).
[[nodiscard]] Read<double> read_mass(std::string_view text, const Marks& marks, double usual_grams);

[[nodiscard]] Read<double> read_celsius(std::string_view text);  ///< "29", "29 C", "84 F"; -10 to 60 C
[[nodiscard]] Read<double> read_percent(std::string_view text);  ///< 0 to 100
[[nodiscard]] Read<double> read_area(std::string_view text);     ///< cm2, above 0

}  // namespace mitefall::tables
