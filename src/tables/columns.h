#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/vocabulary.h"

// Which column of a table means what.
namespace mitefall::tables {

enum class Field {
    animal,
    kind,
    enclosure,
    room,
    weight,
    arrived,
    origin,
    quarantine,
    material,
    substrate,
    day_c,
    night_c,
    humidity,
    floor
};
[[nodiscard]] constexpr auto vocabulary_of(Field) {
    using enum Field;
    return base::vocabulary("column", animal, "animal", kind, "kind", enclosure, "enclosure", room, "room",
                            weight, "weight", arrived, "arrived", origin, "origin", quarantine, "quarantine",
                            material, "material", substrate, "substrate", day_c, "day_c", night_c, "night_c",
                            humidity, "humidity", floor, "floor");
}
using base::to_text;

/// Column of each field, counted from 0; a field without one is not in the table.
using Matching = std::map<Field, std::size_t>;

/// The likely column of each field, by its heading; no column is taken twice.
[[nodiscard]] Matching guess_columns(const std::vector<std::string>& headings);

/// The guess with what is said otherwise: "weight=Grams" by heading, "weight=5" by number from 1, "weight="
/// not at all. Error invalid_input for a field or a column that is none.
[[nodiscard]] base::Result<Matching> match_columns(const std::vector<std::string>& headings,
                                                   const std::vector<std::string>& said);

}  // namespace mitefall::tables
