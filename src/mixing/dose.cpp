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

Spread<units::Area> skin_on_paper(units::Mass body, const evidence::Tables& tables) {
    const auto constant = tables.number("body_surface_constant");
    const auto part = tables.part("skin_on_paper");
    const auto skin = [&](units::Count k, auto share) {
        return body_surface(body, k) * units::as_fraction(share);
    };
    return {skin(constant.value, part.value), skin(constant.low, part.low), skin(constant.high, part.high)};
}

Result<Spread<units::Dose>> damp_paper_dose(units::Strength strength, units::Mass body,
                                            const evidence::Tables& tables) {
    if (auto fault = refuse_strength(strength, "strength of the spray")) return fail(*fault);
    if (auto fault = refuse_body_mass(body)) return fail(*fault);
    const auto daily = tables.spray("redampen_per_area");
    const auto dose = [&](auto per_area, units::Area skin) {
        return units::dose_of(strength * (per_area * skin), body);
    };
    const Spread<units::Area> skin = skin_on_paper(body, tables);
    return Spread<units::Dose>{dose(daily.value, skin.likely), dose(daily.low, skin.low),
                               dose(daily.high, skin.high)};
}

}  // namespace mitefall::mixing
