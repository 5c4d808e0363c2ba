#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "mites/parameters.h"
#include "scenario/scenario.h"

namespace mitefall::simulator {

/// How the starting numbers are meant.
enum class StartingNumbers { exact, poisson_means };

struct SimulationRequest {
    const scenario::Scenario* scenario = nullptr;
    mites::FixedParameters fixed;
    mites::MiteParameters draw;
    std::vector<scenario::MiteCount> start;
    StartingNumbers numbers = StartingNumbers::exact;
    double from = 0;  ///< days
    double to = 0;
    std::uint32_t runs = 1000;
    std::uint64_t seed = 1;
    std::vector<double> report_times;  ///< ascending, within [from, to]
    std::uint64_t most_steps =
        5'000'000;  ///< per run; a run that needs more has grown beyond doubt and is not clear
};

/// A share of runs and its standard error.
struct Estimate {
    double value = 0;
    double standard_error = 0;
};

/// Living mites over the runs at one time.
struct CountBand {
    double time = 0;
    double mean = 0;
    double p10 = 0, p50 = 0, p90 = 0;
    double standard_error = 0;  ///< of the mean
};

struct SimulationResult {
    Estimate clear;  ///< nobody alive at `to`
    Estimate clean;  ///< every check found nothing
    Estimate clear_and_clean;
    Estimate clear_given_clean;  ///< over the clean runs; value NaN when there was none
    std::vector<CountBand> counts;
    std::vector<CountBand> counts_given_clean;  ///< over the clean runs; empty when there was none
    std::uint32_t cut_short = 0;                ///< runs stopped by most_steps
};

/// Follows mite after mite, each an individual, in every place by itself: no classes, no equations. Shares
/// with the sweep only the rates of stages (rates.h) and the meaning of events (scenario.h), so that each
/// proves the other. Gillespie 1976 (J. Comput. Phys. 22:403-434); fading hazards by thinning (Lewis &
/// Shedler 1979). Run r uses random stream (seed, r): the answer does not depend on the number of threads.
[[nodiscard]] SimulationResult simulate(const SimulationRequest& request);

}  // namespace mitefall::simulator
