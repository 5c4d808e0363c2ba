#pragma once

#include <string>
#include <vector>

#include "records/collection.h"

// What a keeper calls it; the id where it has no name or is not of the collection.
namespace mitefall::formats {

[[nodiscard]] std::string animal_name(const records::Collection& collection, const records::AnimalId& id);
[[nodiscard]] std::string room_name(const records::Collection& collection, const records::RoomId& id);
[[nodiscard]] std::string enclosure_name(const records::Collection& collection,
                                         const records::EnclosureId& id);

/// "Clinic at the bridge, telephone +49 30 1234567"; how to put one on record where there is none.
[[nodiscard]] std::string veterinarian_text(const records::Collection& collection);

/// "a, b, c"
[[nodiscard]] std::string join(const std::vector<std::string>& words);

}  // namespace mitefall::formats
