#include <algorithm>

#include "records/apply.h"
#include "records/limits.h"

namespace mitefall::records {
namespace {

base::Error taken(std::string_view noun, const std::string& id) {
    return {base::ErrorKind::already_exists,
            "the name is taken by another " + std::string(noun),
            id,
            "every " + std::string(noun) + " has a name of its own",
            "choose another name",
            {}};
}

void join(Room& room, const RoomId& other) {
    auto& list = room.adjoining;
    const auto place = std::lower_bound(list.begin(), list.end(), other);
    if (place == list.end() || *place != other) list.insert(place, other);
}

}  // namespace

Applied apply(const RoomAdded& fact, const Effect& effect) {
    auto& rooms = effect.collection().rooms;
    if (rooms.contains(fact.room)) return base::fail(taken("room", fact.room.text()));
    for (const RoomId& other : fact.adjoining) {
        if (const auto found = find_room(other, effect); !found) return base::fail(found.error());
    }
    Room& room = rooms[fact.room];
    room = {fact.room, on_one_line(fact.name), fact.climate, {}, fact.floor};
    for (const RoomId& other : fact.adjoining) {
        join(room, other);
        join(rooms.at(other), fact.room);
    }
    return {};
}

Applied apply(const EnclosureAdded& fact, const Effect& effect) {
    auto& enclosures = effect.collection().enclosures;
    if (enclosures.contains(fact.enclosure)) return base::fail(taken("enclosure", fact.enclosure.text()));
    if (const auto room = find_room(fact.room, effect); !room) return base::fail(room.error());
    enclosures[fact.enclosure] = {fact.enclosure, on_one_line(fact.name), fact.room,  fact.material,
                                  fact.substrate, fact.climate,           fact.floor, false,
                                  std::nullopt};
    return {};
}

Applied apply(const BystanderNoted& fact, const Effect& effect) {
    if (!fact.room.empty()) {
        if (const auto room = find_room(fact.room, effect); !room) return base::fail(room.error());
    }
    effect.collection().bystanders.push_back({on_one_line(fact.name), on_one_line(fact.taxon), fact.room});
    return {};
}

Applied apply(const ItemShared& fact, const Effect& effect) {
    if (const auto from = find_enclosure(fact.from, effect); !from) return base::fail(from.error());
    if (const auto to = find_enclosure(fact.to, effect); !to) return base::fail(to.error());
    return {};
}

Applied apply(const SubstrateChanged& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    (*enclosure)->substrate = fact.to;
    (*enclosure)->substrate_changed = effect.day;
    return {};
}

Applied apply(const WaterMoved& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    Enclosure& place = **enclosure;
    if (!fact.out) {
        if (place.water_out_since) place.dry_spells.push_back({*place.water_out_since, effect.day});
        place.water_out_since.reset();
    } else if (!place.water_is_out) {
        place.water_out_since = effect.day;
    }
    place.water_is_out = fact.out;
    return {};
}

}  // namespace mitefall::records
