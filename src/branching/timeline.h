#pragma once

#include <vector>

#include "branching/network.h"

namespace mitefall::branching {

/// The instants of a network between which its slope is smooth, within [from, to], both included, ascending.
[[nodiscard]] std::vector<double> smooth_bounds(const Network& network, double from, double to);

/// What holds on one smooth stretch.
struct Stretch {
    const std::vector<Lanes>* values = nullptr;
    std::vector<const HazardWindow*> hazards;
    std::vector<const Source*> sources;
};

[[nodiscard]] Stretch stretch_between(const Network& network, double begin, double end);

/// Hazard of one window at `time` (days), within it.
[[nodiscard]] Lanes level_of(const HazardWindow& window, double time);

/// The same integrated from `begin` to `end` (days), both within it.
[[nodiscard]] Lanes hazard_through(const HazardWindow& window, double begin, double end);

/// Hazard per run at `time` (days), within the stretch.
void hazards_at(const Stretch& stretch, double time, std::vector<Lanes>& hazard);

/// Throws ContractViolation unless indices, orders and signs are as network.h asks.
void check_network(const Network& network);

}  // namespace mitefall::branching
