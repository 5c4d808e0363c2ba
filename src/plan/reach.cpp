#include "plan/reach.h"

#include <algorithm>

namespace mitefall::plan {

Reach reach_of(const Assignment& assignment, const Setting& setting) {
    const auto& collection = setting.with.collection;
    const std::set<records::EnclosureId> treated(assignment.enclosures.begin(), assignment.enclosures.end());
    const std::vector<records::EnclosureId> sighted = enclosures_of(Scope::sighted, setting);
    std::map<records::RoomId, bool> is_whole;
    Reach reach;
    for (const auto& [id, enclosure] : collection.enclosures) {
        if (is_tub_to_come(id, setting)) continue;
        const bool is_in = treated.contains(id);
        const auto [room, is_first] = is_whole.emplace(enclosure.room, is_in);
        room->second = room->second && is_in;
        const bool has_mites = std::find(sighted.begin(), sighted.end(), id) != sighted.end();
        if (is_in || (!has_mites && !setting.exposed.contains(id))) continue;
        const auto inside = setting.with.survey.inside.find(id);
        reach.outside.push_back(
            {id, enclosure.room,
             inside == setting.with.survey.inside.end() ? std::vector<records::AnimalId>{} : inside->second,
             has_mites});
    }
    for (const auto& [room, whole] : is_whole) {
        if (whole) reach.whole_rooms.push_back(room);
    }
    std::stable_sort(reach.outside.begin(), reach.outside.end(),
                     [](const Outside& a, const Outside& b) { return a.sighted && !b.sighted; });
    return reach;
}

}  // namespace mitefall::plan
