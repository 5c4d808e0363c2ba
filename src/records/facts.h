#pragma once

#include <optional>
#include <string>

#include "records/facts/animals.h"
#include "records/facts/batches.h"
#include "records/facts/care.h"
#include "records/facts/course.h"
#include "records/facts/places.h"
#include "records/facts/things.h"
#include "records/facts/treatments.h"

// What a keeper can put on record. Facts are dated, appended and never overwritten; a mistake is put right by
// a new entry that corrects the old one. A kind of fact is one struct in records/facts (fact.h says what of).
namespace mitefall::records {

using Fact =
    Joined<PlaceFacts, AnimalFacts, TreatmentFacts, CareFacts, CourseFacts, BatchFacts, ThingFacts>::Variant;

/// "weighed"
[[nodiscard]] std::string_view kind_of(const Fact& fact);

/// One line of the journal.
struct Entry {
    FactId id = 0;
    units::Day day;           ///< the day the fact is about
    std::string recorded_at;  ///< UTC instant of writing, ISO 8601
    Fact fact;
    std::optional<FactId> corrects;  ///< the earlier entry this one replaces
    bool set_aside = false;          ///< damaged: it is on record and does not count (records/set_aside.h)
    friend bool operator==(const Entry&, const Entry&) = default;
};

}  // namespace mitefall::records
