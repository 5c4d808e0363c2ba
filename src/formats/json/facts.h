#pragma once

#include <vector>

#include "formats/json/json.h"
#include "records/facts.h"

namespace mitefall::formats {

/// The fields of a fact without its kind.
[[nodiscard]] Json fact_json(const records::Fact& fact);

[[nodiscard]] Json course_treatment_json(const records::CourseTreatment& treatment);

[[nodiscard]] Json emptied_wood_json(const records::EmptiedWood& wood);
[[nodiscard]] Json moved_round_json(const records::MovedRound& round);

[[nodiscard]] Json course_refusal_json(const records::CourseRefusal& refusal);

[[nodiscard]] Json journal_json(const std::vector<records::Entry>& journal);

}  // namespace mitefall::formats
