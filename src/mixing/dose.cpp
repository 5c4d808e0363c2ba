#include "mixing/dose.h"

#include <cmath>

#include "mixing/check_amounts.h"

namespace mitefall::mixing {

using base::fail;
using base::Result;

units::Area body_surface(units::Mass body, units::Count constant) {
    return units::square_centimetres(units::as_number(constant) * std::pow(units::in_grams(body), 2.0 / 3.0));
}

Result<Spread<units::Volume>> mist_volume(units::Mass body, const evidence::Tables& tables) {
    if (auto fault = refuse_body_mass(body)) return fail(*fault);
    const auto constant = tables.number("body_surface_constant");
    const auto mist = tables.spray("mist_per_body_surface");
    return Spread<units::Volume>{mist.value * body_surface(body, constant.value),
                                 mist.low * body_surface(body, constant.low),
                                 mist.high * body_surface(body, constant.high)};
}

Result<Spread<units::Dose>> misted_dose(units::Strength strength, units::Mass body,
                                        const evidence::Tables& tables) {
    if (auto fault = refuse_strength(strength, "strength of the spray")) return fail(*fault);
    return mist_volume(body, tables).map([&](const Spread<units::Volume>& mist) {
        const auto dose = [&](units::Volume volume) { return units::dose_of(strength * volume, body); };
        return Spread<units::Dose>{dose(mist.likely), dose(mist.low), dose(mist.high)};
    });
}

}  // namespace mitefall::mixing
