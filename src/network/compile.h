#pragma once

#include <span>

#include "branching/network.h"
#include "mites/parameters.h"
#include "network/classes.h"

namespace mitefall::network {

/// Where each stage of each class stands among the types of a network.
struct Layout {
    int erlang_shape = 0;
    int unfed_shape = 0;
    std::vector<std::array<branching::TypeIndex, mites::stage_total>>
        first;  ///< per class; no_type where the stage cannot live

    [[nodiscard]] std::uint32_t substages(mites::Stage stage) const {
        return static_cast<std::uint32_t>(mites::is_seeking(mites::activity_of(stage)) ? unfed_shape
                                                                                       : erlang_shape);
    }
};

struct MiteNetwork {
    branching::Network network;
    Layout layout;
};

/// Writes the scenario, for one block of draws, as a branching process over classes of places.
/// `draws` holds lane_count draws of one Erlang shape; the scenario must pass check_scenario.
[[nodiscard]] MiteNetwork compile(const scenario::Scenario& scenario, const Classes& classes,
                                  const mites::FixedParameters& fixed,
                                  std::span<const mites::MiteParameters> draws);

}  // namespace mitefall::network
