#include <fmt/format.h>

#include <algorithm>

#include "records/apply.h"
#include "records/limits.h"
#include "units/text.h"

namespace mitefall::records {
namespace {

base::Error taken(const BatchOnRecord& known, const BatchId& id) {
    return {base::ErrorKind::conflict,
            "there is a batch of that name already",
            id.text(),
            "made on " + units::show_day(known.made.day),
            "give the new batch another name",
            {}};
}

base::Error unknown(const BatchId& id) {
    return {base::ErrorKind::not_found,
            "there is no batch of that name",
            id.text(),
            {},
            "look up its name in the list of batches",
            {}};
}

base::Error gone(const BatchOnRecord& known, const BatchId& id) {
    return {base::ErrorKind::conflict,
            "the batch was discarded already",
            id.text(),
            "on " + units::show_day(known.discarded->day),
            "check the name of the batch",
            {}};
}

base::Error too_early(const BatchMade& fact, units::Day made) {
    return base::invalid("the batch would be past its time when it is made", units::show_day(made),
                         "last day of use " + units::show_day(fact.discard_by),
                         "mix from stock that has not expired");
}

Applied check_batch_strength(const BatchMade& fact) {
    const bool in_order = fact.low <= fact.strength && fact.strength <= fact.high;
    if (in_order && fact.strength > units::Strength{} && fact.high <= fact.stock_strength) return {};
    return refuse("the strength of the batch is not possible", units::show(fact.strength),
                  "above 0, within its range, not above the stock", "work it out on the mixing bench");
}

Applied check_batch_volumes(const BatchMade& fact) {
    if (fact.stock > units::Volume{} && fact.stock <= fact.total) return {};
    return refuse("the batch does not hold its stock", units::show(fact.total, {}),
                  "more than the " + units::show(fact.stock, {}) + " of stock in it", "correct the volumes");
}

base::Error not_plain(const StockId& id) {
    return {base::ErrorKind::refused,
            "a spray is mixed from a clear solution with ivermectin as its only drug, and from nothing else",
            id.text(),
            "pour-ons, pastes and combinations with other drugs are for a veterinarian",
            "read the label; if it is that, say that it is plain (--plain)",
            {}};
}

base::Error is_past(const StockKept& fact, units::Day day) {
    return base::invalid("the bottle of stock is past its last day of use", units::show_day(day),
                         "last day of use on its label: " + units::show_day(*fact.expires),
                         "take it to a pharmacy, and mix from another");
}

/// The bottle, if it is there.
base::Result<StockOnRecord*> find_stock(const StockId& id, const Effect& effect) {
    const auto known = effect.collection().stocks.find(id);
    if (known == effect.collection().stocks.end())
        return base::fail({base::ErrorKind::not_found,
                           "there is no bottle of stock of that name",
                           id.text(),
                           {},
                           "look up its name in the list of bottles",
                           {}});
    if (known->second.gone)
        return base::fail({base::ErrorKind::conflict,
                           "the bottle of stock is gone already",
                           id.text(),
                           "since " + units::show_day(*known->second.gone),
                           "check its name",
                           {}});
    return &known->second;
}

}  // namespace

Applied StockKept::check(const StockKept& fact) {
    if (const auto ok = check_amounts(fact); !ok) return ok;
    if (!fact.plain) return base::fail(not_plain(fact.stock));
    return {};
}

Applied StockKept::check_amounts(const StockKept& fact) {
    if (!(fact.strength > units::Strength{}))
        return refuse("the strength of the stock is not possible", units::show(fact.strength), "above 0",
                      "read it on the label of the bottle");
    return first_failure(
        {check_new_name("a bottle of stock", fact.stock.text()), check_strength(fact.strength)});
}

Applied StockKept::apply(const StockKept& fact, const Effect& effect) {
    if (fact.expires && *fact.expires < effect.day) return base::fail(is_past(fact, effect.day));
    const auto [known, is_new] =
        effect.collection().stocks.try_emplace(fact.stock, StockOnRecord{effect.dated(fact), std::nullopt});
    if (is_new) return {};
    return base::fail({base::ErrorKind::conflict,
                       "there is a bottle of stock of that name already",
                       fact.stock.text(),
                       "on record since " + units::show_day(known->second.kept.day),
                       "give the new bottle another name",
                       {}});
}

Applied StockGone::apply(const StockGone& fact, const Effect& effect) {
    const auto known = find_stock(fact.stock, effect);
    if (!known) return base::fail(known.error());
    (*known)->gone = effect.day;
    return {};
}

Applied BatchMade::check(const BatchMade& fact) {
    return first_failure({check_new_name("a batch", fact.batch.text()),
                          check_needed_text("active ingredient", fact.agent),
                          check_label("active ingredient", fact.agent), check_strength(fact.stock_strength),
                          check_batch_strength(fact), check_batch_volumes(fact),
                          check_batch_total(fact.total), check_text("way it was measured", fact.steps)});
}

Applied BatchMade::check_amounts(const BatchMade& fact) {
    return first_failure({check_new_name("a batch", fact.batch.text()), check_strength(fact.stock_strength),
                          check_batch_strength(fact), check_batch_volumes(fact),
                          check_batch_total(fact.total)});
}

Applied BatchMade::apply(const BatchMade& fact, const Effect& effect) {
    auto& batches = effect.collection().batches;
    if (const auto known = batches.find(fact.batch); known != batches.end()) {
        return base::fail(taken(known->second, fact.batch));
    }
    if (fact.discard_by < effect.day) return base::fail(too_early(fact, effect.day));
    if (!fact.from.empty()) {
        if (const auto stock = find_stock(fact.from, effect); !stock) return base::fail(stock.error());
    }
    batches.emplace(fact.batch, BatchOnRecord{effect.dated(fact), std::nullopt});
    return {};
}

Applied BatchDiscarded::check(const BatchDiscarded& fact) { return check_text("way of disposal", fact.how); }

Applied BatchDiscarded::apply(const BatchDiscarded& fact, const Effect& effect) {
    auto& batches = effect.collection().batches;
    const auto known = batches.find(fact.batch);
    if (known == batches.end()) return base::fail(unknown(fact.batch));
    if (known->second.discarded) return base::fail(gone(known->second, fact.batch));
    known->second.discarded = effect.dated(fact);
    return {};
}

}  // namespace mitefall::records
