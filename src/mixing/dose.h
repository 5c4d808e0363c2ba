#pragma once

#include "base/result.h"
#include "evidence/tables.h"
#include "units/amounts.h"

namespace mitefall::mixing {

/// Body surface in cm2 = constant x (mass in g)^(2/3) (Meeh 1879 form; constant from the evidence tables).
[[nodiscard]] units::Area body_surface(units::Mass body, units::Count constant);

/// A likely value and the range the evidence rows leave.
template <class T>
struct Spread {
    T likely{};
    T low{};
    T high{};
};

/// Spray a light misting leaves on one animal.
[[nodiscard]] base::Result<Spread<units::Volume>> mist_volume(units::Mass body,
                                                              const evidence::Tables& tables);

/// Active ingredient a light misting leaves on one animal, per body mass. What is absorbed is unknown.
[[nodiscard]] base::Result<Spread<units::Dose>> misted_dose(units::Strength strength, units::Mass body,
                                                            const evidence::Tables& tables);

/// Skin that lies on the paper: belly and coil.
[[nodiscard]] Spread<units::Area> skin_on_paper(units::Mass body, const evidence::Tables& tables);

/// Active ingredient that meets this skin in one day on paper kept damp, per body mass: all that wets the
/// paper under it in a day. What is absorbed is unknown.
[[nodiscard]] base::Result<Spread<units::Dose>> damp_paper_dose(units::Strength strength, units::Mass body,
                                                                const evidence::Tables& tables);

}  // namespace mitefall::mixing
