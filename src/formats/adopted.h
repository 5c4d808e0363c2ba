#pragma once

#include <string>

#include "evidence/tables.h"
#include "formats/json/json.h"
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

[[nodiscard]] std::string adopted_text(const records::DatedValue<records::PlanAdopted>& plan,
                                       const records::Collection& collection);
/// Cautions are those of the methods; those of an animal stand on the worklist of the day.
[[nodiscard]] Json adopted_json(const records::DatedValue<records::PlanAdopted>& plan,
                                const evidence::Tables& tables);

}  // namespace mitefall::formats
