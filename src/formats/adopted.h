#pragma once

#include <string>
#include <vector>

#include "records/collection.h"

// The adopted course as it stands on record: what was decided then, for people and for programs.
namespace mitefall::formats {

/// How one animal differs from what the course was to do with it.
struct CourseException {
    records::AnimalId animal;
    records::EnclosureId enclosure;
    std::vector<records::Method>
        given;             ///< done with it instead, or in some rounds; empty: nothing by itself
    bool bedding = false;  ///< its bedding is sprayed
    std::string reason;    ///< the ruling then
};

/// Of the animals the course was to spray or soak, those refused it in at least one round. In the order of
/// the record; none if the record does not hold the terms.
[[nodiscard]] std::vector<CourseException> exceptions_of(const records::PlanAdopted& course);

/// "soaked", "left to bedding only", "left out"
[[nodiscard]] std::string describe(const CourseException& exception);

/// What is told beside it, everywhere.
inline constexpr const char* said_of_adopted =
    "Decided when the course was adopted. The worklist asks the safety check anew on each day, and a later "
    "\"never\" or \"ask a veterinarian\" wins.";

}  // namespace mitefall::formats
