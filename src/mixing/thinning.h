#pragma once

#include <vector>

#include "evidence/tables.h"
#include "mixing/tools.h"
#include "units/amounts.h"

// What is to be done with a mix that came out too strong.
namespace mitefall::mixing {

/// So much of the mix, and so much water to it.
struct Thinned {
    units::Volume mix;
    units::Volume water;
    units::Volume total;
    MeasuredStrength resulting;  ///< with the mix, and its measuring, at their strongest and weakest
};

/// Two ways to bring `total` of a mix down to `limit` at the most, however its measuring fell out and with
/// either volume off by `filled_vessel_error`: all of it with water added, and a part of it filled up with
/// water to as much as there was. C1 V1 = C2 V2, water rounded up and mix rounded down to two digits. None
/// where it is no stronger than that already. `total` and `limit` above zero.
[[nodiscard]] std::vector<Thinned> thin(const MeasuredStrength& strength, units::Volume total,
                                        units::Strength limit, const evidence::Tables& tables);

}  // namespace mitefall::mixing
