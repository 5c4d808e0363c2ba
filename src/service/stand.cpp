#include "service/stand.h"

#include <algorithm>
#include <cmath>

#include "service/course_to_come.h"
#include "worklist/worklist.h"

namespace mitefall::service {

using records::EnclosureId;
using scenario::PlaceIndex;
using scenario::Scenario;

Stand::Stand(const plan::Setting& setting)
    : setting_(setting), known_(setting.known), scenario_(scenario_from_today(setting)) {
    const records::Collection& collection = setting.with.collection;
    Scenario told = known_.scenario;
    for (const PlaceIndex seen_at : known_.sighted) told.places[seen_at].set_apart = true;
    for (const scenario::OutsideOnRecord& contact : known_.outside) {
        // What came in there came nowhere else.
        for (const PlaceIndex place : contact.places) told.places[place].set_apart = true;
    }
    if (collection.plan) {
        const auto course = plan::fit(worklist::assignment_on_record(collection), setting);
        scenario_ = scenario_from_today(setting, course);
        told = plan::apply(course, setting, std::move(told));
        for (const plan::Round& round : course.rounds)
            course_goes_on_ = course_goes_on_ || !round.treatments.empty();
    }
    groups_ = network::lump(told).members;
    for (const auto& [id, place] : known_.enclosures) enclosure_at_[place] = id;
    for (const auto& [id, place] : known_.rooms) room_at_[place] = id;
}

std::optional<units::Day> Stand::last_sighting() const {
    if (known_.sighted.empty()) return std::nullopt;
    return known_.origin + units::Days(static_cast<int>(std::lround(known_.from)));
}

std::vector<EnclosureId> Stand::enclosures_in(const clearance::PlaceGroup& group) const {
    std::vector<EnclosureId> ids;
    for (const PlaceIndex place : group) {
        if (const auto found = enclosure_at_.find(place); found != enclosure_at_.end())
            ids.push_back(found->second);
    }
    return ids;
}

records::RoomId Stand::room_in(const clearance::PlaceGroup& group) const {
    const auto found = room_at_.find(group.front());
    return found == room_at_.end() ? records::RoomId() : found->second;
}

std::set<EnclosureId> Stand::ways_in() const {
    std::set<EnclosureId> ids, all;
    std::set<PlaceIndex> reached;
    for (const scenario::OutsideOnRecord& contact : known_.outside)
        reached.insert(contact.places.begin(), contact.places.end());
    for (const auto& [id, place] : known_.enclosures) {
        const auto& living = known_.living.at(id);
        if (!living.empty()) all.insert(id);
        if (reached.contains(place) ||
            (!living.empty() && reached.contains(known_.scenario.places[place].room)))
            ids.insert(id);
        for (const scenario::ArrivalOnRecord& arrival : known_.arrivals) {
            if (std::find(living.begin(), living.end(), arrival.animal) != living.end()) ids.insert(id);
        }
    }
    return ids.empty() ? all : ids;
}

std::vector<EnclosureId> Stand::watched() const {
    std::set<EnclosureId> ids = known_.sighted.empty() ? ways_in() : setting_.exposed;
    for (const PlaceIndex seen_at : known_.sighted) ids.insert(enclosure_at_.at(seen_at));
    if (const auto& plan = setting_.with.collection.plan)
        ids.insert(plan->value.enclosures.begin(), plan->value.enclosures.end());
    std::erase_if(ids, [&](const EnclosureId& id) { return !known_.enclosures.contains(id); });
    return {ids.begin(), ids.end()};
}

}  // namespace mitefall::service
