#include "exposure/places.h"

#include <algorithm>

#include "records/history.h"

namespace mitefall::exposure {

Places::Places(const records::Collection& collection, std::span<const records::Entry> journal,
               units::Day from) {
    std::unordered_map<records::RoomId, std::size_t> room_index;
    for (const auto& [id, room] : collection.rooms) {
        room_index.emplace(id, rooms.size());
        rooms.push_back(&room);
    }
    enclosures_in.resize(rooms.size());
    for (const records::Room* const room : rooms) {
        auto& list = adjoining.emplace_back();
        for (const records::RoomId& other : room->adjoining) list.push_back(room_index.at(other));
    }
    for (const auto& [id, enclosure] : collection.enclosures) {
        index.emplace(id, enclosures.size());
        room_of.push_back(room_index.at(enclosure.room));
        enclosures_in[room_of.back()].push_back(enclosures.size());
        enclosures.push_back(&enclosure);
    }
    begin.assign(enclosures.size(), 0);
    const auto first = records::first_day(journal);
    for (const records::Entry& entry : records::in_force(journal)) {
        if (entry.day == first) continue;  // there already when the book was opened
        const auto* const added = std::get_if<records::EnclosureAdded>(&entry.fact);
        if (added == nullptr) continue;
        const auto found = index.find(added->enclosure);
        if (found != index.end())
            begin[found->second] = std::max(0, static_cast<int>((entry.day - from).count()));
    }
}

}  // namespace mitefall::exposure
