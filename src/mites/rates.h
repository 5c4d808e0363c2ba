#pragma once

#include "mites/parameters.h"
#include "mites/stages.h"
#include "records/facts.h"

namespace mitefall::mites {

/// Rates of one stage at one place for one draw, per day and per substage.
struct StageRates {
    int substages = 1;
    double advance = 0;  ///< to the next substage, or out of the stage from the last
    double loss = 0;     ///< background death
};

/// Rate of development through a stage, per day, at `celsius` (1 / mean duration).
[[nodiscard]] double development_rate(const Development& stage, const FixedParameters& fixed, double celsius);

/// Rates of `stage` in `climate`; day and night count half each (degree-day summation). In a room as in an
/// enclosure.
[[nodiscard]] StageRates stage_rates(Stage stage, const FixedParameters& fixed, const MiteParameters& draw,
                                     const records::Climate& climate);

/// Chance per day that a seeking mite finds an animal of its enclosure.
[[nodiscard]] double finding_rate(Stage stage, const MiteParameters& draw);

/// Female eggs per day of a laying female in `climate`.
[[nodiscard]] double laying_rate(const FixedParameters& fixed, const MiteParameters& draw,
                                 const records::Climate& climate);

/// Chance that a female that has laid after meal `meal` seeks another; 0 after the last.
[[nodiscard]] double chance_of_next_meal(int meal, const MiteParameters& draw);

/// Chance that a check shows one mite that is on the animal: from its chance `light` to show a light
/// infestation of several mites, each found or not independently of the others.
[[nodiscard]] double detection_per_mite(const FixedParameters& fixed, double light);

/// The same for one look-over.
[[nodiscard]] double detection_per_mite(const FixedParameters& fixed, const MiteParameters& draw);

}  // namespace mitefall::mites
