#pragma once

#include <compare>

#include "units/quantity.h"

namespace mitefall::units {

struct TemperatureSpanDimension;
/// A difference of two temperatures; base unit: kelvin.
using TemperatureSpan = Quantity<TemperatureSpanDimension>;
constexpr TemperatureSpan kelvins(double x) { return TemperatureSpan::from_base(x); }
constexpr double in_kelvins(TemperatureSpan s) { return s.base(); }

/// A point on the temperature scale. Two points subtract to a span; they do not add.
class Temperature {
  public:
    constexpr Temperature() = default;
    static constexpr Temperature from_celsius(double c) { return Temperature(c); }
    [[nodiscard]] constexpr double in_celsius() const { return celsius_; }
    friend constexpr auto operator<=>(Temperature, Temperature) = default;
    friend constexpr bool operator==(Temperature, Temperature) = default;
    friend constexpr TemperatureSpan operator-(Temperature a, Temperature b) {
        return kelvins(a.celsius_ - b.celsius_);
    }
    friend constexpr Temperature operator+(Temperature a, TemperatureSpan b) {
        return Temperature(a.celsius_ + b.base());
    }

  private:
    explicit constexpr Temperature(double celsius) : celsius_(celsius) {}
    double celsius_ = 0;
};

constexpr Temperature celsius(double c) { return Temperature::from_celsius(c); }
constexpr Temperature fahrenheit(double f) { return Temperature::from_celsius((f - 32.0) * 5.0 / 9.0); }
constexpr double in_celsius(Temperature t) { return t.in_celsius(); }
constexpr double in_fahrenheit(Temperature t) { return t.in_celsius() * 9.0 / 5.0 + 32.0; }

struct HumidityDimension;
/// Relative humidity; base unit: percent, 0 to 100.
using Humidity = Quantity<HumidityDimension>;
constexpr Humidity relative_humidity_percent(double x) { return Humidity::from_base(x); }
constexpr double in_percent(Humidity h) { return h.base(); }

struct TimeDimension;
/// An elapsed time of the model; base unit: day. Calendar dates are `Day` (units/day.h).
using TimeSpan = Quantity<TimeDimension>;
constexpr TimeSpan days_long(double x) { return TimeSpan::from_base(x); }
constexpr TimeSpan hours_long(double x) { return TimeSpan::from_base(x / 24.0); }
constexpr double in_days(TimeSpan t) { return t.base(); }
constexpr double in_hours(TimeSpan t) { return t.base() * 24.0; }

struct RateDimension;
/// Events per time; base unit: per day.
using Rate = Quantity<RateDimension>;
constexpr Rate per_day(double x) { return Rate::from_base(x); }
constexpr double in_per_day(Rate r) { return r.base(); }
constexpr double operator*(Rate r, TimeSpan t) { return r.base() * t.base(); }

struct ShareDimension;
/// A part of a whole or a probability; base unit: 1.
using Share = Quantity<ShareDimension>;
constexpr Share share(double x) { return Share::from_base(x); }
constexpr double as_fraction(Share s) { return s.base(); }

struct CountDimension;
/// A plain number of things or a ratio without a unit.
using Count = Quantity<CountDimension>;
constexpr Count count(double x) { return Count::from_base(x); }
constexpr double as_number(Count c) { return c.base(); }

}  // namespace mitefall::units
