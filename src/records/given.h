#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "records/collection.h"

// What an animal met before a day: for whoever looks into its illness or its death.
namespace mitefall::records {

/// Of an animal that is here, or that left or died.
struct Given {
    AnimalId animal;
    std::string name, taxon;
    units::Day from, to;  ///< `to`: today, or the day it left or died
    std::optional<units::Day> died{};
    std::vector<Entry> entries{};  ///< in force, oldest first: given to it, done where it lived, seen on it
};

/// `collection`: that of today, for the rooms. Error: not_found for an animal that was never here.
[[nodiscard]] base::Result<Given> given_to(const AnimalId& animal, std::span<const Entry> journal,
                                           const Collection& collection, units::Days look_back);

}  // namespace mitefall::records
