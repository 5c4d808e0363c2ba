#pragma once

#include "clearance/standing.h"
#include "records/vocabulary.h"

namespace mitefall::clearance {

/// Checks of the same enclosures again and again.
struct Rounds {
    std::vector<scenario::PlaceIndex> places;
    records::CheckMethod method = records::CheckMethod::look_over;
    double first = 0;     ///< days
    double interval = 7;  ///< days, above 0
    int count = 8;
};

struct OutlookPoint {
    double time = 0;                 ///< days; the day of a round, or today for the first point
    Sureness checked;                ///< if every round up to then is clean
    std::optional<Sureness> waited;  ///< if nobody looks again, where it was asked for
    double all_clean = 1;            ///< chance that every round up to then is clean
};

/// The first round after which a level is reached; empty: not within the rounds.
struct Reached {
    double level = 0;
    std::optional<double> at_mean;      ///< day, by the mean
    std::optional<double> at_cautious;  ///< day, by the 10th percentile
};

struct Outlook {
    std::vector<OutlookPoint> points;  ///< today, then the day of every round
    std::vector<Reached> checked;
    std::vector<Reached> waited;  ///< empty unless asked for
};

/// What the next clean rounds would do to the chance that the whole collection is clear. nullopt if
/// cancelled. Throws ContractViolation for rounds without places, before today or without an interval.
[[nodiscard]] std::optional<Outlook> look_ahead(const Standing& standing, const Rounds& rounds,
                                                std::span<const double> levels, bool with_waiting,
                                                const Progress& progress = {});

/// How sure we are today of the whole collection.
[[nodiscard]] std::optional<Sureness> sure_of_collection(const Standing& standing,
                                                         const Progress& progress = {});

/// The same for each of `times` (days, not before `from`), with the checks of the scenario and no others.
[[nodiscard]] std::optional<std::vector<Sureness>> sure_by_day(const Standing& standing,
                                                               std::span<const double> times,
                                                               const Progress& progress = {});

/// The same with mites counted in one place alone: when it may be lived in again.
[[nodiscard]] std::optional<std::vector<Sureness>> sure_of_place_by_day(const Standing& standing,
                                                                        scenario::PlaceIndex place,
                                                                        std::span<const double> times,
                                                                        const Progress& progress = {});

/// Places whose answer is the same, since the same was done to them and the same is believed of them.
using PlaceGroup = std::vector<scenario::PlaceIndex>;

/// How sure we are today of each place by itself, one answer per group.
[[nodiscard]] std::optional<std::vector<Sureness>> sure_of_groups(const Standing& standing,
                                                                  std::span<const PlaceGroup> groups,
                                                                  const Progress& progress = {});

}  // namespace mitefall::clearance
