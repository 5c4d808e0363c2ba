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

    static constexpr std::string_view kind = "batch-made";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("batch", fact.batch);
        archive.field("agent", fact.agent);
        archive.field(or_null("stock_strength_mg_per_l"), fact.stock_strength);
        archive.field("stock_ml", fact.stock);
        archive.field("total_ml", fact.total);
        archive.field(or_null("strength_mg_per_l"), fact.strength);
        archive.field(or_null("low_mg_per_l"), fact.low);
        archive.field(or_null("high_mg_per_l"), fact.high);
        archive.field("discard_by", fact.discard_by);
        archive.field(or_null("steps"), fact.steps);
    }
    [[nodiscard]] static Applied check(const BatchMade& fact);
    [[nodiscard]] static Applied check_amounts(const BatchMade& fact);
    [[nodiscard]] static Applied apply(const BatchMade& fact, const Effect& effect);
    friend bool operator==(const BatchMade&, const BatchMade&) = default;
};

/// What was left of a batch was disposed of, or the bottle is empty.
struct BatchDiscarded {
    BatchId batch;
    std::string how;

    static constexpr std::string_view kind = "batch-discarded";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("batch", fact.batch);
        archive.field(or_null("how"), fact.how);
    }
    [[nodiscard]] static Applied check(const BatchDiscarded& fact);
    [[nodiscard]] static Applied apply(const BatchDiscarded& fact, const Effect& effect);
    friend bool operator==(const BatchDiscarded&, const BatchDiscarded&) = default;
};

using BatchFacts = KindList<BatchMade, BatchDiscarded>;

}  // namespace mitefall::records
