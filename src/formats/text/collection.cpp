#include "formats/text/collection.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/names.h"

namespace mitefall::formats {

using records::Collection;

std::string collection_text(const Collection& collection, units::Display display) {
    std::string text =
        fmt::format("{}: {} rooms, {} enclosures, {} animals\n", units::format_day(collection.day),
                    collection.rooms.size(), collection.enclosures.size(), collection.animals.size());
    if (collection.rooms.empty()) {
        return text +
               "Nothing is on record yet. Begin with \"record room\", then \"record enclosure\" and \"record "
               "arrival\".\n";
    }
    Table table({"ANIMAL", "KIND", "ENCLOSURE", "ROOM", "WEIGHT", "STATE"});
    for (const auto& [id, animal] : collection.animals) {
        std::string state;
        if (animal.quarantine) state += "quarantine ";
        if (animal.shed && animal.shed->value == records::ShedState::cloudy) state += "cloudy ";
        if (!animal.signs.empty()) state += "ILL ";
        for (const auto& condition : animal.conditions)
            state += std::string(records::to_text(condition.value.condition)) + " ";
        table.add({id.text(), animal.taxon.empty() ? "kind unknown" : animal.taxon, animal.enclosure.text(),
                   room_name(collection, collection.enclosures.at(animal.enclosure).room),
                   animal.weight ? units::show(animal.weight->value, display) : "not weighed", state});
    }
    return text + table.text();
}

}  // namespace mitefall::formats
