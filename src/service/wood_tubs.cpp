#include "service/wood_tubs.h"

#include <set>

#include "records/limits.h"

namespace mitefall::service {
namespace {

using records::Collection;
using records::Enclosure;
using records::EnclosureAdded;
using records::EnclosureId;

std::set<EnclosureId> lived_in(const Collection& today) {
    std::set<EnclosureId> all;
    for (const auto& [id, animal] : today.animals) all.insert(animal.enclosure);
    return all;
}

bool is_plain_tub(const Enclosure& enclosure) {
    return enclosure.material == records::Material::sealed &&
           enclosure.substrate == records::Substrate::paper;
}

/// The first such name that nobody has, or that is of an empty tub in the same room.
EnclosureId tub_of(const Enclosure& wood, const Collection& today, const std::set<EnclosureId>& full) {
    constexpr std::string_view begins = "tub-for-";
    constexpr std::size_t room_for_number = 4;
    const std::string stem =
        std::string(begins) +
        wood.id.text().substr(0, records::longest_name - begins.size() - room_for_number);
    for (int i = 1;; ++i) {
        EnclosureId id(i == 1 ? stem : stem + "-" + std::to_string(i));
        const auto found = today.enclosures.find(id);
        if (found == today.enclosures.end()) return id;
        if (!full.contains(id) && found->second.room == wood.room && is_plain_tub(found->second)) return id;
    }
}

}  // namespace

EnclosureAdded tub_beside(const Enclosure& enclosure, const EnclosureId& id) {
    return {id,
            id.text(),
            enclosure.room,
            records::Material::sealed,
            records::Substrate::paper,
            enclosure.climate,
            enclosure.floor};
}

WoodTubs tubs_for_wood(const Collection& today) {
    WoodTubs tubs;
    std::set<EnclosureId> taken = lived_in(today);
    for (const EnclosureId& id : lived_in(today)) {
        const auto wood = today.enclosures.find(id);
        if (wood == today.enclosures.end() || wood->second.material != records::Material::porous) continue;
        const EnclosureId tub = tub_of(wood->second, today, taken);
        if (!taken.insert(tub).second) continue;
        tubs.wood.push_back({id, tub});
        if (!today.enclosures.contains(tub)) tubs.added.push_back(tub_beside(wood->second, tub));
    }
    return tubs;
}

std::vector<EnclosureAdded> tubs_to_add(const records::CourseChoices& choices, const Collection& today) {
    std::vector<EnclosureAdded> tubs;
    for (const records::EmptiedWood& wood : choices.emptied_wood) {
        if (!today.enclosures.contains(wood.tub))
            tubs.push_back(tub_beside(today.enclosures.at(wood.enclosure), wood.tub));
    }
    return tubs;
}

Collection with_tubs(Collection today, const std::vector<EnclosureAdded>& tubs) {
    for (const EnclosureAdded& tub : tubs)
        today.enclosures[tub.enclosure] = {tub.enclosure, tub.name,  tub.room, tub.material, tub.substrate,
                                           tub.climate,   tub.floor, false,    std::nullopt};
    return today;
}

}  // namespace mitefall::service
