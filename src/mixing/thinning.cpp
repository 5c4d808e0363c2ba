#include "mixing/thinning.h"

#include <cmath>

namespace mitefall::mixing {
namespace {

/// What two digits are a step of: 10 mL of 340 mL.
units::Volume step_of(units::Volume volume) {
    return units::millilitres(std::pow(10, std::floor(std::log10(units::in_millilitres(volume))) - 1));
}
units::Volume rounded_up(units::Volume volume) {
    const units::Volume step = step_of(volume);
    return step * std::ceil(volume / step);
}
units::Volume rounded_down(units::Volume volume) {
    const units::Volume step = step_of(volume);
    return step * std::floor(volume / step);
}

/// All of it: `error` is how far the water may be off.
Thinned with_water(const MeasuredStrength& strength, units::Volume total, units::Strength limit,
                   double error) {
    const units::Volume water = rounded_up(total * ((strength.high / limit - 1) / (1 - error)));
    const auto with = [&](double part) { return total / (total + water * part); };
    return {ThinWay::all,
            total,
            water,
            total + water,
            {strength.nominal * with(1), strength.low * with(1 + error), strength.high * with(1 - error)}};
}

/// As much as there was: both the part taken and the line filled up to may be off.
Thinned same_amount(const MeasuredStrength& strength, units::Volume total, units::Strength limit,
                    double error) {
    const double most_off = (1 + error) / (1 - error);
    const units::Volume mix = rounded_down(total * (limit / strength.high / most_off));
    const double part = mix / total;
    return {ThinWay::part,
            mix,
            total - mix,
            total,
            {strength.nominal * part, strength.low * (part / most_off), strength.high * (part * most_off)}};
}

}  // namespace

Thinning thin(const MeasuredStrength& strength, units::Volume total, units::Strength limit,
              const evidence::Tables& tables) {
    if (!(strength.high > limit)) return {};
    if (strength.high / limit > most_times_thinned) return {{}, true};
    const double error = units::as_fraction(tables.part("filled_vessel_error").value);
    return {{with_water(strength, total, limit, error), same_amount(strength, total, limit, error)}, false};
}

}  // namespace mitefall::mixing
