#pragma once

#include <optional>
#include <span>
#include <string>

#include "mixing/dilution.h"
#include "mixing/tools.h"

// How a batch is made with the tools at hand, in one step or in two.
namespace mitefall::mixing {

/// Stock thinned with water first, because it is too strong to be measured as it is.
struct PreDilution {
    Measurement stock;
    Measurement water;
    units::Volume total;  ///< both together; what is not needed is left over
    MeasuredStrength strength;
};

struct Measured {
    std::optional<PreDilution> first;
    Measurement measurement;  ///< of the stock or, after a pre-dilution, of that
    MeasuredStrength resulting;
};

/// The way of fewest measures whose resulting strength stays within `wanted` of the target. If the stock
/// cannot be measured so closely, a tenth (or another simple part) of it in water first, all errors counted
/// together. If that does not do either, one step within `rough`, marked so. The error says which tool would
/// do.
[[nodiscard]] base::Result<Measured> measure_batch(const Recipe& recipe, units::Strength stock,
                                                   std::span<const Tool> tools, const Accuracy& accuracy);

/// The pre-dilution alone; none if no simple one stays within `wanted`. `recipe` and `tools` must be sound.
[[nodiscard]] std::optional<Measured> dilute_first(const Recipe& recipe, units::Strength stock,
                                                   std::span<const Tool> tools, units::Share wanted);

}  // namespace mitefall::mixing
