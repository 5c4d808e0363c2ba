#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "base/band.h"
#include "branching/sweep.h"
#include "forecast/start.h"
#include "forecast/tails.h"
#include "mites/parameters.h"
#include "scenario/scenario.h"

namespace mitefall::forecast {

struct ForecastRequest {
    const scenario::Scenario* scenario = nullptr;
    const mites::Ensemble* ensemble = nullptr;
    /// Not a Belief with only_mode: it has no such draw.
    Start start;
    double from = 0;  ///< days; the moment of decision
    double to = 0;    ///< the horizon
    /// Where a mite alive at the horizon counts; empty: anywhere. They are never lumped with other places.
    std::vector<scenario::PlaceIndex> counted;
    std::size_t blocks = 0;  ///< blocks of draws used, from the first; 0: all
    bool only_mode = false;  ///< one block, every parameter at its most likely value
    branching::Tolerance tolerance = branching::for_show;
    bool counts = true;         ///< whether mites now are wanted, too: a search has no use for them
    TailBook* tails = nullptr;  ///< remembers what forecasts with this ensemble and tolerance share
    /// Called after each block with the share done, one call at a time; returning false cancels the forecast.
    std::function<bool(double)> progress;
};

struct Forecast {
    /// Of clear at `to`, per draw; given clean checks if there are any. NaN for a draw the records rule out.
    std::vector<double> chance;
    std::vector<double>
        weight;  ///< per draw, together 1: as much as before times its chance of the clean checks
    /// Whether the checks can be clean at all, as far as numbers go: else `clear` is not a number, and the
    /// draws weigh as they did before the checks.
    bool checks_can_be_clean = true;
    base::Band clear;
    double clear_at_mode = 0;         ///< NaN unless only_mode
    std::optional<base::Band> clean;  ///< chance that every check finds nothing, if the scenario has checks
    base::Band mites_now;             ///< expected mites of all stages at `from`, given the clean checks; 0
                                      ///< where no counts were asked for
    std::vector<base::Band> mites_now_by_place;  ///< empty where no counts were asked for
    std::size_t class_count = 0;
    std::size_t type_count = 0;  ///< of the first block
    std::size_t steps = 0;       ///< over all blocks
};

/// The chance that no mite of any stage is alive at the horizon, per draw and over the ensemble. nullopt if
/// cancelled.
[[nodiscard]] std::optional<Forecast> forecast_clear(const ForecastRequest& request);

/// ln of a chance, per draw: that nothing is alive at `to` where it counts and every check from `from` to
/// `to` is clean (no_survivor), or that every one of these checks is clean (any_check_fails). Their
/// difference is ln of the chance of clear given clean checks. In single precision, if the tolerance says so:
/// enough where the checks are not all but certain to find mites (docs/decisions/0078). nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<double>> log_chances(const ForecastRequest& request,
                                                             branching::Question question);

/// How much each draw counts before the checks of the request are looked at; they sum to 1. All alike, unless
/// the start is a Belief.
[[nodiscard]] std::vector<double> draw_weights(const ForecastRequest& request);

}  // namespace mitefall::forecast
