#pragma once

#include "service/asked_first.h"
#include "web/jobs.h"

// What is asked before something goes on record, as the pages read it.
namespace mitefall::web {

/// What a finished release job keeps.
struct KeptRelease {
    records::AnimalId animal;
    double chance = 0;  ///< that it brought no mites
};

/// The facts of a body; a day left out is `today`. Errors say which fact.
[[nodiscard]] base::Result<std::vector<service::DatedFact>> read_facts(const formats::Json& list,
                                                                       units::Day today);

/// What the latest finished release job says of the animal, if it is of these records and this day.
[[nodiscard]] std::optional<double> release_chance(const Jobs& jobs, const records::AnimalId& animal,
                                                   records::FactId entry, units::Day today);

[[nodiscard]] formats::Json asks_json(const std::vector<service::Ask>& asks);
[[nodiscard]] formats::Json consequence_json(const service::Consequence& consequence);

}  // namespace mitefall::web
