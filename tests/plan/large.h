#pragma once

#include "plan/search.h"
#include "safety/scene.h"
#include "shared/large_collection.h"

namespace mitefall::plan {

/// A large collection made ready for a search, with 32 draws.
struct Large {
    explicit Large(int enclosures, Climates climates = Climates::two)
        : large(enclosures, climates),
          collection(records::collection_on(large.journal(), large_today)),
          with(safety::prepare(collection, safety::tables(), safety::taxa())),
          known(scenario::case_from_records(large.journal(), large_today, units::days_long(60),
                                            mites::fixed_parameters(safety::tables()))
                    .value()),
          ensemble(mites::draw_parameters(safety::tables(), 32, 1)),
          belief(belief::believe_records(known, ensemble, belief::introduction_prior(safety::tables()), 1)) {}

    LargeCollection large;
    records::Collection collection;
    safety::Case with;
    scenario::RecordedCase known;
    mites::Ensemble ensemble;
    belief::Belief belief;
    Setting setting{with, known, {}, large_today, units::milligrams_per_litre(10)};
};

}  // namespace mitefall::plan
