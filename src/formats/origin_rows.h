#pragma once

#include <vector>

#include "formats/origin.h"

namespace mitefall::formats {

/// An introduction worth a line, and the chance to show for it: of being behind what was seen last, or where
/// nothing was seen, of having happened. One contact with the outside is one line, wherever it reached.
struct OriginRow {
    belief::Introduction introduction;  ///< of several the likeliest, with the chances of all together
    double chance = 0;
    std::vector<scenario::PlaceIndex> places{};  ///< it may have reached, likeliest first
};

/// A chance below this is not worth a line of its own.
inline constexpr double least_told = 0.01;

/// Likeliest first.
[[nodiscard]] std::vector<OriginRow> origin_rows(const OriginView& view);

/// Name the keeper uses for a place of the case: the key of the enclosure or room.
[[nodiscard]] std::string key_of(const OriginView& view, scenario::PlaceIndex place);
[[nodiscard]] bool is_room(const OriginView& view, scenario::PlaceIndex place);

[[nodiscard]] units::Day day_of(const OriginView& view, double time);

}  // namespace mitefall::formats
