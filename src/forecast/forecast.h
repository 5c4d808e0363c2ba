#pragma once

#include <functional>
#include <optional>
#include <variant>
#include <vector>

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

/// Expected numbers at the start of a forecast, for every block of an ensemble: what SightedStart says,
/// worked out once for many forecasts that share a history.
struct InferredStart {
    struct Block {
        Layout layout;
        std::vector<Lanes> numbers;  ///< per type of the classes below, all members together
    };
    Classes classes;
    std::vector<Block> blocks;
};

struct ForecastRequest {
    const Scenario* scenario = nullptr;
    const Ensemble* ensemble = nullptr;
    /// An InferredStart must come from the same ensemble, and outlive the request.
    std::variant<KnownStart, SightedStart, const InferredStart*> start;
    double from = 0;         ///< days; the moment of decision
    double to = 0;           ///< the horizon
    /// Where a mite alive at the horizon counts; empty: anywhere. They are never lumped with other places.
    std::vector<PlaceIndex> counted;
    std::size_t blocks = 0;  ///< blocks of draws used, from the first; 0: all
    bool only_mode = false;  ///< one block, every parameter at its most likely value
    Tolerance tolerance{};
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
    std::vector<double> chance;  ///< of clear at `to`, per draw; given clean checks if there are any
    Band clear;
    double clear_at_mode = 0;   ///< NaN unless only_mode
    std::optional<Band> clean;  ///< chance that every check finds nothing, if the scenario has checks
    Band mites_now;             ///< expected mites of all stages at `from`
    std::vector<Band> mites_now_by_place;
    std::size_t class_count = 0;
    std::size_t type_count = 0;  ///< of the first block
    std::size_t steps = 0;       ///< over all blocks
};

/// The chance that no mite of any stage is alive at the horizon, per draw and over the ensemble. nullopt if
/// cancelled.
[[nodiscard]] std::optional<Forecast> forecast_clear(const ForecastRequest& request);

/// Works out the start of forecasts that begin at `from` with this history. nullopt if cancelled.
[[nodiscard]] InferredStart infer_start(const Scenario& scenario, const Ensemble& ensemble,
                                        const SightedStart& sightings, double from, Tolerance tolerance = {});

/// The scenario as it stands at `from`: what came before is done with, but for residues and drugs that still
/// act. Enclosures that differ only in their past become alike.
[[nodiscard]] Scenario forget_past(const Scenario& scenario, double from);

/// Quantiles are the order statistics nearest to 10 and 90 %.
[[nodiscard]] Band band_of(std::vector<double> values);

/// Expected numbers for one draw at `from`, per place, stage and substage: what the simulator starts from.
[[nodiscard]] std::vector<MiteCount> expected_start(const Scenario& scenario, const FixedParameters& fixed,
                                                    const MiteParameters& draw, const SightedStart& start,
                                                    double from);

}  // namespace mitefall::forecast
