#pragma once

#include <optional>
#include <vector>

#include "records/facts.h"
#include "units/day.h"

namespace mitefall::service {

struct DatedFact {
    units::Day day;
    records::Fact fact;
    std::optional<records::FactId> corrects = {};  ///< the entry it replaces
};

/// An invented collection to try the program on: forty enclosures in three rooms, and mites seen `today` on
/// one animal of the snake room. In order of day, none after `today`; a journal accepts the facts in this
/// order.
[[nodiscard]] std::vector<DatedFact> demo_facts(units::Day today);

}  // namespace mitefall::service
