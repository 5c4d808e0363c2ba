#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units/text.h"

namespace mitefall::units {

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
