#include "records/apply.h"

// Bottles of spray: made once, discarded once.
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

}  // namespace

Applied apply(const BatchMade& fact, const Effect& effect) {
    auto& batches = effect.collection().batches;
    if (const auto known = batches.find(fact.batch); known != batches.end()) {
        return base::fail(taken(known->second, fact.batch));
    }
    if (fact.discard_by < effect.day) return base::fail(too_early(fact, effect.day));
    batches.emplace(fact.batch, BatchOnRecord{effect.dated(fact), std::nullopt});
    return {};
}

Applied apply(const BatchDiscarded& fact, const Effect& effect) {
    auto& batches = effect.collection().batches;
    const auto known = batches.find(fact.batch);
    if (known == batches.end()) return base::fail(unknown(fact.batch));
    if (known->second.discarded) return base::fail(gone(known->second, fact.batch));
    known->second.discarded = effect.dated(fact);
    return {};
}

}  // namespace mitefall::records
