#pragma once

#include "service/asked_first.h"
#include "tables/reading.h"

// A table and the collection file it goes into.
namespace mitefall::tables {

/// What came of a table.
struct Looked {
    Cells cells;
    Reading reading;
    records::FactId entry = 0;  ///< last of the journal it was held against
};

/// Reads the table against the records, and finds the rows they do not take. Writes nothing. Errors: as
/// read_cells and match_columns, or of the file.
[[nodiscard]] base::Result<Looked> look_at(const service::Keeper& keeper, const service::Knowledge& knowledge,
                                           std::string_view text, const Wishes& wishes,
                                           const service::Now& now);

/// Puts all of it on record or nothing, as one act. Error conflict where something is asked or a row has a
/// problem nobody has seen; invalid_input where there is nothing to add; else as Keeper::record_all.
[[nodiscard]] base::Result<std::vector<records::FactId>> add(service::Keeper& keeper, const Reading& reading,
                                                             const Wishes& wishes, const service::Now& now);

}  // namespace mitefall::tables
