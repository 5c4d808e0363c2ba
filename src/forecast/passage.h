#pragma once

#include <array>
#include <optional>
#include <vector>

#include "forecast/forecast.h"
#include "mites/durations.h"

// What treatments on certain days catch, and what passes under them.
namespace mitefall::forecast {

/// What a mite was on day 0.
enum class Cohort {
    egg,         ///< an egg, of whatever age
    later,       ///< past the egg
    laid_since,  ///< not laid yet
};
inline constexpr std::size_t cohort_total = 3;

struct PassageRequest {
    /// Everything from the start on, with what is done after day 0. `to` and `counted` are not asked.
    ForecastRequest known;
    scenario::PlaceIndex place = 0;  ///< an enclosure
    double day_zero = 0;             ///< days, not before the start
    std::vector<double> times;       ///< ascending, not before day 0
};

/// Per cohort and part of life, as parts of all that was alive in the enclosure on day 0.
using Shares = std::array<std::array<double, mites::life_stage_total>, cohort_total>;

struct Passage {
    std::vector<std::vector<Shares>> draws;  ///< per draw and time, just before what happens then
    std::vector<double> weights;             ///< per draw; 0 for one without a mite there on day 0
};

/// Where what is alive in one enclosure on day 0 is later: of the stages and ages believed for that day, and
/// from then on as if the enclosure stood alone: what would walk out stays, nothing comes in. Looks up to day
/// 0 found nothing, others are not made. nullopt if cancelled. Where no draw has a mite there all weights are
/// 0.
[[nodiscard]] std::optional<Passage> passage_of(const PassageRequest& request);

/// The enclosure by itself from `day_zero` on, with what is done in it: the only place of the answer.
[[nodiscard]] scenario::Scenario alone(const scenario::Scenario& scenario, scenario::PlaceIndex place,
                                       double day_zero);

}  // namespace mitefall::forecast
