#include "safety/gates.h"
#include "safety/methods.h"

// Eggs: never treated, nor what they lie in, nor the room around them.
namespace mitefall::safety {
namespace {

std::string name_of_place(const records::Enclosure& enclosure) {
    return enclosure.name.empty() ? enclosure.id.text() : enclosure.name;
}

}  // namespace

void check_eggs(const Case& with, const records::Enclosure& enclosure, records::Method method,
                Findings& findings) {
    if (target_of(method) == Target::room) {
        for (const auto& [id, other] : with.collection.enclosures) {
            if (other.eggs && other.room == enclosure.room)
                refuse(findings, with.tables, says::eggs_in_the_room(name_of_place(other)),
                       says::eggs_to_another_room());
        }
    } else if (enclosure.eggs && !is_taken_in(method)) {
        refuse(findings, with.tables, says::eggs_inside(name_of_place(enclosure)), says::eggs_out_first());
    }
}

}  // namespace mitefall::safety
