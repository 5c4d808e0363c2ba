#pragma once

#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "evidence/taxa.h"
#include "records/collection.h"

namespace mitefall::safety {

/// Life that is not a plain snake and breathes the air of a room.
struct Sharer {
    std::string name;
    std::optional<evidence::Taxon> taxon;  ///< empty: nobody knows what it is
    records::AnimalId animal;              ///< empty for a bystander outside the collection
};

/// Who is what and who shares whose air. Made once for a collection, used for every verdict.
struct Survey {
    std::unordered_map<records::AnimalId, std::optional<evidence::Taxon>> taxa;
    std::map<records::AnimalId, std::vector<std::string>> suggestions;  ///< of those whose species is unknown
    std::map<records::RoomId, std::vector<Sharer>> air;  ///< by room, whole-house bystanders not included
    std::vector<Sharer> whole_house;
    std::map<records::EnclosureId, std::vector<records::AnimalId>>
        inside;  ///< of each enclosure that has any
};

[[nodiscard]] Survey survey(const records::Collection& collection, const evidence::Taxa& taxa);

/// All sharers of a room's air, those of the whole house included.
[[nodiscard]] std::vector<Sharer> sharers_of(const Survey& survey, const records::RoomId& room);

}  // namespace mitefall::safety
