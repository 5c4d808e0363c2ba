#pragma once

#include "clearance/outlook.h"

namespace mitefall::clearance {

/// A new animal in quarantine, and nothing seen on it so far.
struct ReleaseRequest {
    const scenario::Scenario* scenario = nullptr;  ///< everything since it came, checks included
    const mites::Ensemble* ensemble = nullptr;
    scenario::PlaceIndex place = 0;  ///< its enclosure on the day it came
    double arrived = 0;              ///< days
    double today = 0;
    Rounds rounds;           ///< checks to come, if all are clean
    double least = 60;       ///< days after arrival; the usual minimum of a quarantine
    std::size_t blocks = 0;  ///< as in Standing
    Progress progress;
};

struct ReleasePoint {
    double time = 0;  ///< days
    Sureness none;    ///< chance that the animal brought no mite that lives on, with its descendants
};

struct Release {
    double prior = 0;                  ///< mean chance that it brought none, before anybody looked
    std::vector<ReleasePoint> points;  ///< today, then every round
    std::vector<Reached> by_chance;    ///< per level: when the chance alone would do
    std::vector<Reached> no_sooner;    ///< the same, and never before the usual minimum
};

/// When an arrival may leave quarantine. With chance `arrival_carries` it brought `arrival_founders` females,
/// each feeding on her first meal; given the checks, by Bayes' rule per draw:
///   P(none) = (1 - c + c P(clear and clean | brought)) / (1 - c + c P(clean | brought)).
/// nullopt if cancelled.
[[nodiscard]] std::optional<Release> plan_release(const ReleaseRequest& request,
                                                  std::span<const double> levels);

}  // namespace mitefall::clearance
