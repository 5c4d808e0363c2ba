#pragma once

#include <vector>

#include "records/collection.h"
#include "records/course.h"

// Treatment tubs for wood: where everybody of a wooden enclosure lives while it stands empty.
namespace mitefall::service {

/// A clean plain tub beside an enclosure, as large as it.
[[nodiscard]] records::EnclosureAdded tub_beside(const records::Enclosure& enclosure,
                                                 const records::EnclosureId& id);

/// What would have to be on record so that a course can empty wood.
struct WoodTubs {
    std::vector<records::EmptiedWood> wood;      ///< each wooden enclosure in which somebody lives, by name
    std::vector<records::EnclosureAdded> added;  ///< the tubs of them that are not on record
};

/// A tub made for the same enclosure before is taken again where it stands empty.
[[nodiscard]] WoodTubs tubs_for_wood(const records::Collection& today);

/// Of the tubs a course moves animals into, those that are not on record.
[[nodiscard]] std::vector<records::EnclosureAdded> tubs_to_add(const records::CourseChoices& choices,
                                                               const records::Collection& today);

/// The same collection with them.
[[nodiscard]] records::Collection with_tubs(records::Collection today,
                                            const std::vector<records::EnclosureAdded>& tubs);

}  // namespace mitefall::service
