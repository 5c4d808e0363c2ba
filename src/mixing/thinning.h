#pragma once

#include <vector>

#include "base/vocabulary.h"
#include "evidence/tables.h"
#include "mixing/tools.h"
#include "units/amounts.h"

// What is to be done with a mix that came out too strong.
namespace mitefall::mixing {

enum class ThinWay {
    all,   ///< water is added to all of it
    part,  ///< a part of it is filled up to as much as there was
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(ThinWay) {
    using enum ThinWay;
    return base::vocabulary("way to make a mix weaker", all, "all", part, "part");
}

/// So much of the mix, and so much water to it.
struct Thinned {
    ThinWay way = ThinWay::all;
    units::Volume mix;
    units::Volume water;
    units::Volume total;
    MeasuredStrength resulting;  ///< with the mix, and its measuring, at their strongest and weakest
};

struct Thinning {
    std::vector<Thinned> ways;
    bool mix_anew = false;  ///< it is so much too strong that thinning is no use
};

/// A mix of more times the limit than this is better mixed anew: there would be ten times as much of it, or a
/// tenth of it to be measured. An assumption.
inline constexpr double most_times_thinned = 10;

/// Two ways to bring `total` of a mix down to `limit` at the most, however its measuring fell out and with
/// either volume off by `filled_vessel_error`: all of it with water added, and a part of it filled up with
/// water to as much as there was. C1 V1 = C2 V2, water rounded up and mix rounded down to two digits. None
/// where it is no stronger than that already, or more than `most_times_thinned` times as strong. `total` and
/// `limit` above zero.
[[nodiscard]] Thinning thin(const MeasuredStrength& strength, units::Volume total, units::Strength limit,
                            const evidence::Tables& tables);

}  // namespace mitefall::mixing
