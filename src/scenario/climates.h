#pragma once

#include <cstddef>
#include <vector>

#include "scenario/scenario.h"

// Climates put together: where there are many, hardly two places are alike and each is worked out by itself.
namespace mitefall::scenario {

/// The scenario with each enclosure at the mean of those it is put together with. `width`, per place: of the
/// climates that are put together, degrees Celsius by day and by night, and ten times as many per cent of
/// humidity; 0 leaves it alone. A place whose climate changes later is left alone, too.
[[nodiscard]] Scenario with_rounded_climates(Scenario scenario, const std::vector<double>& width);

/// How many climates enclosures have at the start.
[[nodiscard]] std::size_t climates_in(const Scenario& scenario);

}  // namespace mitefall::scenario
