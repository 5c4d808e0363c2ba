#pragma once

#include "units/quantity.h"

// Mass, volume, strength and dose. Conversion factors: NIST SP 811 (2008) appendix B.8 and NIST Handbook 44
// appendix C; imperial fluid ounce: UK Weights and Measures Act 1985 schedule 1.
namespace mitefall::units {

struct MassDimension;
struct VolumeDimension;
struct StrengthDimension;
struct DoseDimension;
struct AreaDimension;

using Mass = Quantity<MassDimension>;          ///< base unit: gram
using Volume = Quantity<VolumeDimension>;      ///< base unit: millilitre
using Strength = Quantity<StrengthDimension>;  ///< mass concentration; base unit: milligram per litre
using Dose = Quantity<DoseDimension>;          ///< active ingredient per body mass; base unit: mg per kg
using Area = Quantity<AreaDimension>;          ///< base unit: square centimetre

constexpr Mass grams(double x) { return Mass::from_base(x); }
constexpr Mass kilograms(double x) { return Mass::from_base(x * 1000.0); }
constexpr Mass milligrams(double x) { return Mass::from_base(x / 1000.0); }
constexpr Mass pounds(double x) { return Mass::from_base(x * 453.59237); }
constexpr Mass ounces(double x) { return Mass::from_base(x * 28.349523125); }
constexpr double in_grams(Mass m) { return m.base(); }
constexpr double in_kilograms(Mass m) { return m.base() / 1000.0; }
constexpr double in_milligrams(Mass m) { return m.base() * 1000.0; }
constexpr double in_pounds(Mass m) { return m.base() / 453.59237; }
constexpr double in_ounces(Mass m) { return m.base() / 28.349523125; }

constexpr double ml_per_us_teaspoon = 4.92892159375;
constexpr double ml_per_us_fluid_ounce = 29.5735295625;
constexpr double ml_per_us_quart = 946.352946;
constexpr double ml_per_us_gallon = 3785.411784;
constexpr double ml_per_imperial_fluid_ounce = 28.4130625;

constexpr Volume millilitres(double x) { return Volume::from_base(x); }
constexpr Volume litres(double x) { return Volume::from_base(x * 1000.0); }
constexpr Volume us_teaspoons(double x) { return Volume::from_base(x * ml_per_us_teaspoon); }
constexpr Volume us_tablespoons(double x) { return Volume::from_base(x * 3.0 * ml_per_us_teaspoon); }
constexpr Volume us_fluid_ounces(double x) { return Volume::from_base(x * ml_per_us_fluid_ounce); }
constexpr Volume us_pints(double x) { return Volume::from_base(x * 16.0 * ml_per_us_fluid_ounce); }
constexpr Volume us_quarts(double x) { return Volume::from_base(x * ml_per_us_quart); }
constexpr Volume us_gallons(double x) { return Volume::from_base(x * ml_per_us_gallon); }
constexpr Volume imperial_fluid_ounces(double x) {
    return Volume::from_base(x * ml_per_imperial_fluid_ounce);
}
constexpr Volume imperial_pints(double x) {
    return Volume::from_base(x * 20.0 * ml_per_imperial_fluid_ounce);
}
constexpr Volume imperial_gallons(double x) {
    return Volume::from_base(x * 160.0 * ml_per_imperial_fluid_ounce);
}
constexpr Volume metric_teaspoons(double x) { return Volume::from_base(x * 5.0); }
constexpr double in_millilitres(Volume v) { return v.base(); }
constexpr double in_litres(Volume v) { return v.base() / 1000.0; }
constexpr double in_us_teaspoons(Volume v) { return v.base() / ml_per_us_teaspoon; }
constexpr double in_us_fluid_ounces(Volume v) { return v.base() / ml_per_us_fluid_ounce; }
constexpr double in_imperial_fluid_ounces(Volume v) { return v.base() / ml_per_imperial_fluid_ounce; }

constexpr Strength milligrams_per_litre(double x) { return Strength::from_base(x); }
constexpr Strength milligrams_per_millilitre(double x) { return Strength::from_base(x * 1000.0); }
/// x % mass in volume: x g in 100 mL, so 1 % w/v = 10 mg/mL = 10,000 mg/L.
constexpr Strength percent_mass_in_volume(double x) { return Strength::from_base(x * 10000.0); }
constexpr double in_milligrams_per_litre(Strength s) { return s.base(); }
constexpr double in_milligrams_per_millilitre(Strength s) { return s.base() / 1000.0; }
constexpr double in_percent_mass_in_volume(Strength s) { return s.base() / 10000.0; }

constexpr Dose milligrams_per_kilogram(double x) { return Dose::from_base(x); }
constexpr double in_milligrams_per_kilogram(Dose d) { return d.base(); }

constexpr Area square_centimetres(double x) { return Area::from_base(x); }
constexpr Area square_metres(double x) { return Area::from_base(x * 10000.0); }
constexpr double in_square_centimetres(Area a) { return a.base(); }

constexpr Mass operator*(Strength s, Volume v) { return milligrams(s.base() * in_litres(v)); }
constexpr Mass operator*(Volume v, Strength s) { return s * v; }
constexpr Strength operator/(Mass m, Volume v) {
    return milligrams_per_litre(in_milligrams(m) / in_litres(v));
}
constexpr Volume operator/(Mass m, Strength s) { return litres(in_milligrams(m) / s.base()); }

/// Active ingredient over the animal's body mass.
constexpr Dose dose_of(Mass active, Mass body) {
    return milligrams_per_kilogram(in_milligrams(active) / in_kilograms(body));
}

}  // namespace mitefall::units
