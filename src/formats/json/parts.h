#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "base/band.h"
#include "base/id.h"
#include "formats/json/json.h"
#include "units/amounts.h"
#include "units/day.h"

// Pieces the outputs share.
namespace mitefall::formats {

/// JSON has no number that is not finite; such a one is not known.
[[nodiscard]] inline Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

/// A strength of zero stands for "has none".
[[nodiscard]] inline Json strength_or_null(units::Strength strength) {
    return strength > units::Strength() ? number(units::in_milligrams_per_litre(strength)) : Json(nullptr);
}

[[nodiscard]] inline Json millilitres_json(units::Volume volume) {
    return number(units::in_millilitres(volume));
}

[[nodiscard]] inline Json date(units::Day day) { return units::format_day(day); }
[[nodiscard]] inline Json date(const std::optional<units::Day>& day) {
    return day ? date(*day) : Json(nullptr);
}

[[nodiscard]] inline Json text_or_null(std::string_view text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

template <class Kind>
[[nodiscard]] Json name(const base::Id<Kind>& id) {
    return text_or_null(id.text());
}

/// `each` applied to every element.
template <class Range, class F>
[[nodiscard]] Json list(const Range& range, F each) {
    Json array = Json::array();
    for (const auto& element : range) array.push_back(each(element));
    return array;
}

template <class Kind>
[[nodiscard]] Json names(const std::vector<base::Id<Kind>>& ids) {
    return list(ids, [](const base::Id<Kind>& id) { return name(id); });
}

[[nodiscard]] inline Json dates(const std::vector<units::Day>& days) {
    return list(days, [](units::Day day) { return date(day); });
}

[[nodiscard]] inline Json band_json(const base::Band& band) {
    return {{"mean", number(band.mean)}, {"p10", number(band.p10)}, {"p90", number(band.p90)}};
}

}  // namespace mitefall::formats
