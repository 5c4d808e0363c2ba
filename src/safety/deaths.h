#pragma once

#include <vector>

#include "evidence/tables.h"
#include "records/collection.h"

namespace mitefall::safety {

/// Of one that died, the animals that are given nothing against mites until somebody says on: those it shares
/// or shared its place with and, where it was treated itself shortly before, all of its room. Empty once that
/// was said, or where it had no company.
[[nodiscard]] std::vector<records::AnimalId> company_of(const records::Death& death,
                                                        const records::Collection& collection,
                                                        const evidence::Tables& tables);

}  // namespace mitefall::safety
