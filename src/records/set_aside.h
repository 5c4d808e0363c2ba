#pragma once

#include <map>
#include <vector>

#include "base/result.h"
#include "records/facts.h"

// A journal read from a file may hold entries that were never accepted: a damaged file, one made by other
// hands, a fault of an earlier version. They stay on record and do not count, and it is said so.
namespace mitefall::records {

/// An entry that does not count, and why.
struct SetAside {
    FactId entry = 0;
    base::Error why;  ///< `where` names the entry: "entry 17 of 2026-03-01"
};

/// Entries whose fact could not be read -> why. Their `fact` stands for nothing.
using Unreadable = std::map<FactId, base::Error>;

/// Puts a mark (`Entry::set_aside`) on every entry that cannot be true on its own or beside those before it,
/// and takes it from all others, so that the rest folds. What such an entry replaced is in force again; one
/// that was itself replaced or withdrawn by an entry that counts is settled and has no mark. Error damaged
/// where even that ends in nothing. `journal`: in order of numbers.
[[nodiscard]] base::Result<std::vector<SetAside>> set_aside(std::vector<Entry>& journal,
                                                            const Unreadable& unreadable);

/// Without it an animal might be given what it must not be given. A withdrawal stands for what could not be
/// read.
[[nodiscard]] bool bears_on_treatment(const Fact& fact);

}  // namespace mitefall::records
