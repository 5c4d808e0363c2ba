#pragma once

#include <map>
#include <span>
#include <string>

#include "records/collection.h"
#include "safety/verdict.h"

namespace mitefall::formats {

/// The verdicts on one animal.
using VerdictsByMethod = std::map<records::Method, const safety::Verdict*>;

/// One row per animal, those who may be given least first, one column per method. Without `every_animal`
/// those with the mildest rulings, where they are alike, are told in one paragraph.
[[nodiscard]] std::string verdict_table(const std::map<records::AnimalId, VerdictsByMethod>& by_animal,
                                        const records::Collection& collection,
                                        std::span<const records::Method> columns, bool every_animal);

}  // namespace mitefall::formats
