#pragma once

#include <string>

#include "records/facts/fact.h"
#include "records/names.h"
#include "units/amounts.h"
#include "units/day.h"

// Bottles of spray: made once, discarded once.
namespace mitefall::records {

/// A bottle of spray was mixed. Strengths as measured: the stock may be off by the marks of the tools.
struct BatchMade {
    BatchId batch;
    std::string agent;               ///< active ingredient
    units::Strength stock_strength;  ///< on the label of the stock
    units::Volume stock;             ///< that went in
    units::Volume total;             ///< filled up to
    units::Strength strength;        ///< of the mix
    units::Strength low;
    units::Strength high;
    units::Day discard_by;  ///< last day of use
    std::string steps;      ///< how it was measured, for people

    static constexpr Kind kind{"batch-made", Damaged::says_nothing};
    static constexpr std::tuple members{
        Member{"batch", &BatchMade::batch},
        Member{"agent", &BatchMade::agent},
        Member{or_null("stock_strength_mg_per_l"), &BatchMade::stock_strength},
        Member{"stock_ml", &BatchMade::stock},
        Member{"total_ml", &BatchMade::total},
        Member{or_null("strength_mg_per_l"), &BatchMade::strength},
        Member{or_null("low_mg_per_l"), &BatchMade::low},
        Member{or_null("high_mg_per_l"), &BatchMade::high},
        Member{"discard_by", &BatchMade::discard_by},
        Member{or_null("steps"), &BatchMade::steps}};
    static Applied check(const BatchMade& fact);
    static Applied check_amounts(const BatchMade& fact);
    static Applied apply(const BatchMade& fact, const Effect& effect);
};

/// What was left of a batch was disposed of, or the bottle is empty.
struct BatchDiscarded {
    BatchId batch;
    std::string how;

    static constexpr Kind kind{"batch-discarded", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"batch", &BatchDiscarded::batch},
                                        Member{or_null("how"), &BatchDiscarded::how}};
    static Applied check(const BatchDiscarded& fact);
    static Applied apply(const BatchDiscarded& fact, const Effect& effect);
};

using BatchFacts = KindList<BatchMade, BatchDiscarded>;

}  // namespace mitefall::records
