#pragma once

#include <optional>
#include <string>

#include "records/facts/fact.h"
#include "records/names.h"
#include "units/amounts.h"
#include "units/day.h"

// Bottles of the ingredient as it was bought, and of spray: had or made once, gone or discarded once.
namespace mitefall::records {

/// A bottle of ivermectin to mix from, as its label says: a clear solution with no other drug in it. Two of
/// different strength are two names.
struct StockKept {
    StockId stock;
    units::Strength strength;
    bool plain = false;                      ///< the keeper has read that it is; nothing else is mixed from
    std::optional<units::Day> expires = {};  ///< last day of use on its label

    static constexpr Kind kind{"stock-kept", Damaged::says_nothing};
    static constexpr std::tuple members{
        Member{"stock", &StockKept::stock}, Member{or_null("strength_mg_per_l"), &StockKept::strength},
        Member{"plain", &StockKept::plain}, later(or_null("expires"), &StockKept::expires)};
    static Applied check(const StockKept& fact);
    static Applied check_amounts(const StockKept& fact);
    static Applied apply(const StockKept& fact, const Effect& effect);
};

/// The bottle is empty, or was disposed of.
struct StockGone {
    StockId stock;

    static constexpr Kind kind{"stock-gone", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"stock", &StockGone::stock}};
    static Applied apply(const StockGone& fact, const Effect& effect);
};

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
    StockId from = {};      ///< the bottle of stock; empty: of none on record

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
        Member{or_null("steps"), &BatchMade::steps},
        later(or_null("from"), &BatchMade::from)};
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

using BatchFacts = KindList<StockKept, StockGone, BatchMade, BatchDiscarded>;

}  // namespace mitefall::records
