#pragma once

#include "formats/json/json.h"
#include "formats/text/layout.h"
#include "tables/adding.h"
#include "units/text.h"

// What came of a table, for pages and for people.
namespace mitefall::tables {

/// docs/schemas/import.schema.json, without `ids` and `asks`.
[[nodiscard]] formats::Json looked_json(const Looked& looked, const evidence::Taxa& taxa);
/// The preview, the questions and the problems.
[[nodiscard]] std::string looked_text(const Looked& looked, const evidence::Taxa& taxa, const Wishes& wishes,
                                      units::Display display);

}  // namespace mitefall::tables
