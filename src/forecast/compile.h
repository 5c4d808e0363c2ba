#pragma once

#include <span>

#include "forecast/classes.h"
#include "forecast/network.h"
#include "forecast/parameters.h"

namespace mitefall::forecast {

/// Where each stage of each class stands among the types of a network.
struct Layout {
    int erlang_shape = 0;
    int unfed_shape = 0;
    std::vector<std::array<TypeIndex, stage_total>>
        first;  ///< per class; no_type where the stage cannot live

    [[nodiscard]] std::uint32_t substages(Stage stage) const {
        return static_cast<std::uint32_t>(is_seeking(activity_of(stage)) ? unfed_shape : erlang_shape);
    }
};

struct MiteNetwork {
    Network network;
    Layout layout;
};

/// Writes the scenario, for one block of draws, as a branching process over classes of places.
/// `draws` holds lane_count draws of one Erlang shape; the scenario must pass check_scenario.
[[nodiscard]] MiteNetwork compile(const Scenario& scenario, const Classes& classes,
                                  const FixedParameters& fixed, std::span<const MiteParameters> draws);

}  // namespace mitefall::forecast
