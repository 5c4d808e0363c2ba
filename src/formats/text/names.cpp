#include "formats/text/names.h"

namespace mitefall::formats {

using records::Collection;

std::string animal_name(const Collection& collection, const records::AnimalId& id) {
    const auto found = collection.animals.find(id);
    return found == collection.animals.end() || found->second.name.empty() ? id.text() : found->second.name;
}

std::string room_name(const Collection& collection, const records::RoomId& id) {
    const auto found = collection.rooms.find(id);
    return found == collection.rooms.end() || found->second.name.empty() ? id.text() : found->second.name;
}

std::string enclosure_name(const Collection& collection, const records::EnclosureId& id) {
    const auto found = collection.enclosures.find(id);
    return found == collection.enclosures.end() || found->second.name.empty() ? id.text()
                                                                              : found->second.name;
}

std::string veterinarian_text(const Collection& collection) {
    if (!collection.veterinarian)
        return "No veterinarian is on record: \"record veterinarian NAME --telephone NUMBER\".";
    const records::VeterinarianNamed& known = collection.veterinarian->value;
    return known.who + ", telephone " + known.telephone;
}

std::string join(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

}  // namespace mitefall::formats
