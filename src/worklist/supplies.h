#pragma once

#include <vector>

#include "base/vocabulary.h"
#include "plan/schedule.h"

// What a course uses up or needs at hand, beside the drug.
namespace mitefall::worklist {

enum class SupplyKind {
    gloves,
    paper,
    bags,
    clean_tubs,
    soak_tub,
    cloths,
    cotton_buds,
    spray_bottle,
    syringe
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(SupplyKind) {
    using enum SupplyKind;
    return base::vocabulary("supply", gloves, "gloves", paper, "paper", bags, "bags", clean_tubs,
                            "clean-tubs", soak_tub, "soak-tub", cloths, "cloths", cotton_buds, "cotton-buds",
                            spray_bottle, "spray-bottle", syringe, "syringe");
}

struct Supply {
    SupplyKind what = SupplyKind::gloves;
    int count = 0;       ///< pairs of gloves, floors covered with paper, else pieces
    units::Area area{};  ///< of paper, all floors together; of nothing else
};

/// Counted from the permitted treatments of a schedule; what it does not need is left out. A pair of gloves
/// for each enclosure of a round (practice); a bag for each floor that is emptied (practice); as many clean
/// tubs as stand in for others in one round; a cloth for each wiping and a bud for each head, at least
/// (assumed); one tub to soak in, washed between (assumed).
[[nodiscard]] std::vector<Supply> supplies_for(const plan::Schedule& schedule, const plan::Setting& setting);

}  // namespace mitefall::worklist
