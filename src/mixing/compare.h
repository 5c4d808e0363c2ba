#pragma once

#include "evidence/tables.h"
#include "mixing/tools.h"
#include "units/amounts.h"

namespace mitefall::mixing {

/// Where a strength stands beside the published sprays of ivermectin.
enum class Standing {
    weaker,     ///< below the weakest published
    published,  ///< up to the strongest one in print
    above,      ///< stronger than anything published
};

struct Comparison {
    Standing standing = Standing::above;
    double multiple = 0;  ///< of the strongest of the published range
    units::Strength weakest;
    units::Strength strongest;  ///< of the published range: what `multiple` counts in
    units::Strength limit;      ///< the strongest in print; beyond it a caution
    units::Strength judged;     ///< what all this is said of
    bool perhaps = false;       ///< above only by what its measuring leaves open
};

/// A strength that misses a limit in the last bits of its number is taken to meet it. A strength that is not
/// a number stands above.
[[nodiscard]] Comparison compare_strength(units::Strength strength, const evidence::Tables& tables);

/// A mix is judged by the strongest it may be, not by what it is meant to be.
[[nodiscard]] Comparison compare_strength(const MeasuredStrength& strength, const evidence::Tables& tables);

}  // namespace mitefall::mixing
