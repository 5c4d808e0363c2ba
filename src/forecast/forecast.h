#pragma once

#include <functional>
#include <optional>
#include <variant>
#include <vector>

#include "forecast/belief.h"
#include "forecast/classes.h"
#include "forecast/compile.h"
#include "forecast/parameters.h"
#include "forecast/scenario.h"
#include "forecast/sweep.h"

namespace mitefall::forecast {

/// Mites known to be there.
using KnownStart = std::vector<MiteCount>;

/// Mites inferred from a sighting: an egg-laying lineage is taken to have entered at `entered_at` on day
/// `entered_on`, and its expected course is scaled so that the expected number to be seen on day `seen_on`
/// equals the number seen (assumption M5 of docs/model.md). The number seen lies between `seen_low` and
/// `seen_high`.
struct Sighting {
    PlaceIndex entered_at = 0;
    double entered_on = 0;  ///< days
    PlaceIndex seen_at = 0;
    double seen_on = 0;     ///< days; entered_on <= seen_on <= start of the forecast
    bool on_animal = true;  ///< else on paper, in water or on hands
    double seen_low = 1;    ///< at least 1
    double seen_high = 1;
};

/// Several sightings are several lineages side by side; what they share is counted twice, on the safe side.
using SightedStart = std::vector<Sighting>;

struct ForecastRequest {
    const Scenario* scenario = nullptr;
    const Ensemble* ensemble = nullptr;
    /// A Belief must have been formed with the same ensemble at `from`, and outlive the request. Clean checks
    /// that follow then weigh its draws and particles too. Not with only_mode: it has no such draw.
    std::variant<KnownStart, SightedStart, const Belief*> start;
    double from = 0;  ///< days; the moment of decision
    double to = 0;    ///< the horizon
    /// Where a mite alive at the horizon counts; empty: anywhere. They are never lumped with other places.
    std::vector<PlaceIndex> counted;
    std::size_t blocks = 0;  ///< blocks of draws used, from the first; 0: all
    bool only_mode = false;  ///< one block, every parameter at its most likely value
    Tolerance tolerance = for_show;
    /// Called after each block with the share done, one call at a time; returning false cancels the forecast.
    std::function<bool(double)> progress;
};

/// Mean and band over the draws of an ensemble.
struct Band {
    double mean = 0;
    double p10 = 0;
    double p90 = 0;
};

struct Forecast {
    /// Of clear at `to`, per draw; given clean checks if there are any. NaN for a draw the records rule out.
    std::vector<double> chance;
    std::vector<double> weight;  ///< per draw, together 1; after the checks, where they weigh draws
    Band clear;
    double clear_at_mode = 0;   ///< NaN unless only_mode
    std::optional<Band> clean;  ///< chance that every check finds nothing, if the scenario has checks
    Band mites_now;             ///< expected mites of all stages at `from`, per draw
    std::vector<Band> mites_now_by_place;
    std::size_t class_count = 0;
    std::size_t type_count = 0;  ///< of the first block
    std::size_t steps = 0;       ///< over all blocks
};

/// The chance that no mite of any stage is alive at the horizon, per draw and over the ensemble. nullopt if
/// cancelled.
[[nodiscard]] std::optional<Forecast> forecast_clear(const ForecastRequest& request);

/// ln of a chance, per draw: that nothing is alive at `to` where it counts and every check from `from` to
/// `to` is clean (no_survivor), or that every one of these checks is clean (any_check_fails). Their
/// difference is ln of the chance of clear given clean checks. nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<double>> log_chances(const ForecastRequest& request,
                                                             Question question);

/// How much each draw counts before the checks of the request are looked at; they sum to 1. All alike, unless
/// the start is a Belief.
[[nodiscard]] std::vector<double> draw_weights(const ForecastRequest& request);

/// Expected numbers at `from` of one block's draws, by type of a network compiled with these classes, all
/// members of a class together. Given a Belief, over the particles of each draw; none for a draw without any.
[[nodiscard]] std::vector<Lanes> expected_numbers(const ForecastRequest& request, const MiteNetwork& compiled,
                                                  const Classes& classes,
                                                  std::span<const MiteParameters> draws, std::size_t block);

/// The scenario as it stands at `from`: what came before is done with, but for residues and drugs that still
/// act. Enclosures that differ only in their past become alike.
[[nodiscard]] Scenario forget_past(const Scenario& scenario, double from);

/// Quantiles are the order statistics nearest to 10 and 90 %.
[[nodiscard]] Band band_of(std::vector<double> values);

/// The same with weights, not negative: quantiles are the smallest values with that share of the weight at or
/// below them. Values of weight 0 do not count, whatever they are.
[[nodiscard]] Band band_of(const std::vector<double>& values, const std::vector<double>& weights);

/// Expected numbers for one draw at `from`, per place, stage and substage: what the simulator starts from.
[[nodiscard]] std::vector<MiteCount> expected_start(const Scenario& scenario, const FixedParameters& fixed,
                                                    const MiteParameters& draw, const SightedStart& start,
                                                    double from);

}  // namespace mitefall::forecast
