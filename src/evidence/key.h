#pragma once

#include <string_view>

#include "evidence/known_keys.h"

namespace mitefall::evidence {

/// What the number of a row is, by its unit.
enum class Measure {
    mass,           ///< g
    strength,       ///< mg/L
    temperature,    ///< C
    time,           ///< h or d
    rate,           ///< 1/d
    share,          ///< share
    number,         ///< 1
    degree_hours,   ///< C h
    spray_on_area,  ///< mL/cm2
    dose,           ///< mg/kg
};

constexpr bool is_measured_in(Measure measure, std::string_view unit) {
    switch (measure) {
        case Measure::mass: return unit == "g";
        case Measure::strength: return unit == "mg/L";
        case Measure::temperature: return unit == "C";
        case Measure::time: return unit == "h" || unit == "d";
        case Measure::rate: return unit == "1/d";
        case Measure::share: return unit == "share";
        case Measure::number: return unit == "1";
        case Measure::degree_hours: return unit == "C h";
        case Measure::spray_on_area: return unit == "mL/cm2";
        case Measure::dose: return unit == "mg/kg";
    }
    return false;
}

/// The key of a number of data/evidence. Written as a text it is looked up while the program is compiled: a
/// key that is not in the tables, or whose number has another unit, does not compile.
template <Measure measure>
class Key {
  public:
    /// None.
    constexpr Key() = default;
    consteval Key(const char* text) : text_(text) {  // NOLINT(google-explicit-constructor)
        for (const KnownKey& known : known_keys) {
            if (known.key == text_ && is_measured_in(measure, known.unit)) return;
        }
        throw "data/evidence has no such number";
    }
    /// Of tables that are not those of the program; looked up when it is used.
    [[nodiscard]] static constexpr Key at_run_time(std::string_view text) {
        Key key;
        key.text_ = text;
        return key;
    }
    [[nodiscard]] constexpr std::string_view text() const { return text_; }
    [[nodiscard]] constexpr bool empty() const { return text_.empty(); }

  private:
    std::string_view text_;
};

using MassKey = Key<Measure::mass>;
using StrengthKey = Key<Measure::strength>;
using TemperatureKey = Key<Measure::temperature>;
using TimeKey = Key<Measure::time>;
using RateKey = Key<Measure::rate>;
using ShareKey = Key<Measure::share>;
using NumberKey = Key<Measure::number>;
using DegreeHoursKey = Key<Measure::degree_hours>;
using SprayKey = Key<Measure::spray_on_area>;
using DoseKey = Key<Measure::dose>;

}  // namespace mitefall::evidence
