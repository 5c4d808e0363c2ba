#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

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
inline constexpr std::array<std::string_view, 14> field_names{
    "animal",     "kind",     "enclosure", "room",  "weight",  "arrived",  "origin",
    "quarantine", "material", "substrate", "day_c", "night_c", "humidity", "floor"};

[[nodiscard]] constexpr std::string_view to_text(Field field) {
    return field_names[static_cast<std::size_t>(field)];
}
[[nodiscard]] std::optional<Field> field_of(std::string_view text);

/// Column of each field, counted from 0; a field without one is not in the table.
using Matching = std::map<Field, std::size_t>;

/// The likely column of each field, by its heading; no column is taken twice.
[[nodiscard]] Matching guess_columns(const std::vector<std::string>& headings);

/// The guess with what is said otherwise: "weight=Grams" by heading, "weight=5" by number from 1, "weight="
/// not at all. Error invalid_input for a field or a column that is none.
[[nodiscard]] base::Result<Matching> match_columns(const std::vector<std::string>& headings,
                                                   const std::vector<std::string>& said);

}  // namespace mitefall::tables
