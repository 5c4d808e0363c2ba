#pragma once

#include "base/result.h"
#include "mites/parameters.h"
#include "scenario/scenario.h"

namespace mitefall::scenario {

/// Changes of one mite a day (substages, meals, eggs, steps) up to which its course can be followed: some two
/// hundred times as fast as within the ranges of the evidence.
inline constexpr double fastest_pace = 1000;

/// Whether no mite of any draw, at its most likely parameters or not, changes faster than `fastest_pace` in a
/// climate of the scenario. Error invalid: which stage, how fast, and which parameters make it so.
[[nodiscard]] base::Result<void> check_pace(const Scenario& scenario, const mites::Ensemble& ensemble);

}  // namespace mitefall::scenario
