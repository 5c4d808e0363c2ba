#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "base/id.h"
#include "formats/json/json.h"

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

[[nodiscard]] inline Json text_or_null(const std::string& text) {
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

[[nodiscard]] Json course_treatment_json(const records::CourseTreatment& treatment);
[[nodiscard]] Json moved_round_json(const records::MovedRound& round);
[[nodiscard]] Json course_refusal_json(const records::CourseRefusal& refusal);
[[nodiscard]] Json band_json(const base::Band& band);
/// {name: value}; the name of an amount ends in its unit ("weight_g").
[[nodiscard]] Json arguments_json(const statement::Statement& statement);
/// Why something is not done, by rule, and in the two parts of words::Shared, for gathering.
[[nodiscard]] Json why_json(const safety::Reason& reason);
[[nodiscard]] Json caution_json(const safety::Caution& caution);
[[nodiscard]] Json recipe_json(const mixing::Recipe& recipe);
[[nodiscard]] Json measurement_json(const std::optional<mixing::Measurement>& measurement);
[[nodiscard]] Json measured_strength_json(const std::optional<mixing::MeasuredStrength>& strength);

/// The fields of a fact without its kind.
[[nodiscard]] Json fact_json(const records::Fact& fact);

}  // namespace mitefall::formats
