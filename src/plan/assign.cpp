#include <algorithm>
#include <set>
#include <vector>

#include "base/contract.h"
#include "plan/emptied.h"
#include "plan/schedule.h"

namespace mitefall::plan {
namespace {

using records::EnclosureId;
using units::Day;
using units::Days;

std::set<EnclosureId> sighted_enclosures(const Setting& setting) {
    std::set<EnclosureId> sighted;
    for (const auto& [id, place] : setting.known.enclosures) {
        for (const scenario::PlaceIndex seen_at : setting.known.sighted) {
            if (seen_at == place) sighted.insert(id);
        }
    }
    return sighted;
}

/// `limits` leave at least one day of the week.
Day next_free(Day day, const Limits& limits) {
    base::expects(limits.free_days.any(), "some day of the week is free");
    while (!limits.is_free(day)) day += Days(1);
    return day;
}

}  // namespace

bool is_tub_to_come(const EnclosureId& enclosure, const Setting& setting) {
    return !setting.known.enclosures.contains(enclosure) && is_tub_for_wood(setting.wood, enclosure);
}

std::vector<records::RoomId> rooms_of(Scope scope, const Setting& setting) {
    std::set<records::RoomId> rooms;
    if (scope == Scope::chosen || scope == Scope::sighted) return {};
    if (scope == Scope::everything) {
        for (const auto& [id, room] : setting.with.collection.rooms) rooms.insert(id);
    }
    for (const EnclosureId& id : sighted_enclosures(setting))
        rooms.insert(setting.with.collection.enclosures.at(id).room);
    return {rooms.begin(), rooms.end()};
}

std::vector<records::RoomId> empty_rooms_of(Scope scope, const Setting& setting) {
    std::vector<records::RoomId> rooms = rooms_of(scope, setting);
    for (const auto& [id, inside] : setting.with.survey.inside) {
        const auto enclosure = setting.with.collection.enclosures.find(id);
        if (enclosure != setting.with.collection.enclosures.end() && !inside.empty())
            std::erase(rooms, enclosure->second.room);
    }
    return rooms;
}

std::vector<EnclosureId> enclosures_of(Scope scope, const Setting& setting) {
    const std::set<EnclosureId> sighted = sighted_enclosures(setting);
    const auto rooms = rooms_of(scope, setting);
    std::vector<EnclosureId> chosen;
    for (const auto& [id, enclosure] : setting.with.collection.enclosures) {
        if (is_tub_to_come(id, setting)) continue;
        if (scope == Scope::chosen) {
            if (setting.limits.only.contains(id)) chosen.push_back(id);
            continue;
        }
        const bool in_room = std::find(rooms.begin(), rooms.end(), enclosure.room) != rooms.end();
        const bool has_contact = scope == Scope::exposed && setting.exposed.contains(id);
        if (sighted.contains(id) || in_room || has_contact) chosen.push_back(id);
    }
    const auto danger = [&](const EnclosureId& id) {
        return sighted.contains(id) ? 2 : setting.exposed.contains(id) ? 1 : 0;
    };
    std::stable_sort(chosen.begin(), chosen.end(),
                     [&](const EnclosureId& a, const EnclosureId& b) { return danger(a) < danger(b); });
    return chosen;
}

std::vector<Scope> scopes_of(const Setting& setting) {
    if (!setting.limits.only.empty()) return {Scope::chosen};
    if (setting.known.sighted.empty()) return {Scope::everything};
    std::vector<Scope> scopes{Scope::sighted};
    for (const Scope scope : {Scope::sighted_rooms, Scope::exposed, Scope::everything}) {
        const bool same_places = enclosures_of(scope, setting) == enclosures_of(scopes.back(), setting);
        if (!same_places || empty_rooms_of(scope, setting) != empty_rooms_of(scopes.back(), setting))
            scopes.push_back(scope);
    }
    return scopes;
}

Assignment assign(const Course& course, const Setting& setting) {
    Assignment assignment;
    Day day = next_free(setting.today, setting.limits);
    for (int round = 0; round < course.rounds; ++round) {
        const Day wanted = next_free(setting.today, setting.limits) + Days(course.interval_days * round);
        if (round > 0) day = next_free(std::max(wanted, day + Days(shortest_interval)), setting.limits);
        assignment.rounds.push_back(day);
    }
    assignment.enclosures = enclosures_of(course.scope, setting);
    if (course.treat_rooms) assignment.rooms = empty_rooms_of(course.scope, setting);
    assignment.choices = course.choices;
    const auto is_outside = [&](const EnclosureId& id) {
        return std::find(assignment.enclosures.begin(), assignment.enclosures.end(), id) ==
               assignment.enclosures.end();
    };
    std::erase_if(assignment.choices.fresh_tubs, is_outside);
    std::erase_if(assignment.choices.emptied_wood,
                  [&](const records::EmptiedWood& wood) { return is_outside(wood.enclosure); });
    return assignment;
}

}  // namespace mitefall::plan
