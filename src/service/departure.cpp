#include "service/departure.h"

#include <algorithm>

#include "service/asked.h"
#include "worklist/watch.h"

namespace mitefall::service {
namespace {

using records::Collection;
using records::EnclosureId;
using statement::Names;
using statement::Statement;
using units::Day;
using worklist::Danger;

template <class One>
Names called(const One& one) {
    return {{one.id.text(), one.name.empty() ? one.id.text() : one.name}};
}

bool is_in(const Collection& today, const EnclosureId& enclosure, const records::RoomId& room) {
    const auto found = today.enclosures.find(enclosure);
    return found != today.enclosures.end() && found->second.room == room;
}

/// Not before `seen`: done in the room, or still to be done there by a course that was adopted since.
Day last_treatment(const Collection& today, const records::RoomId& room, Day seen) {
    Day last = seen;
    for (const auto& [id, enclosure] : today.enclosures) {
        if (enclosure.room != room) continue;
        for (const auto& given : enclosure.treatments) last = std::max(last, given.day);
    }
    if (!today.plan || today.plan->day < seen) return last;
    const records::PlanAdopted& course = today.plan->value;
    const bool treats_it = std::any_of(course.enclosures.begin(), course.enclosures.end(),
                                       [&](const EnclosureId& id) { return is_in(today, id, room); });
    if (!treats_it) return last;
    for (const Day round : course.rounds) last = std::max(last, round);
    return last;
}

}  // namespace

std::optional<Day> mites_in_room(const records::Animal& animal, const Collection& today,
                                 const evidence::Tables& tables) {
    const auto home = today.enclosures.find(animal.enclosure);
    if (home == today.enclosures.end()) return std::nullopt;
    const records::RoomId& room = home->second.room;
    std::optional<Day> seen;
    for (const auto& sighting : today.sightings) {
        if (is_in(today, sighting.value.enclosure, room))
            seen = std::max(seen.value_or(sighting.day), sighting.day);
    }
    if (!seen) return std::nullopt;
    const bool is_over = today.day > last_treatment(today, room, *seen) + worklist::watch(tables);
    return is_over ? std::nullopt : seen;
}

std::vector<Statement> tell_danger(const Names& place, Danger danger) {
    switch (danger) {
        case Danger::sighted: return {asked::mites_were_seen_in(place)};
        case Danger::exposed: return {asked::mites_may_have_reached(place)};
        case Danger::healthy: return {asked::no_mites_are_known_in(place)};
    }
    return {};
}

std::vector<Statement> risk_of_leaving(const records::Animal& animal, const EnclosureId& from, Danger danger,
                                       const Collection& today, const evidence::Tables& tables) {
    const auto seen = danger == Danger::healthy ? mites_in_room(animal, today, tables) : std::nullopt;
    if (danger == Danger::healthy && !seen && !animal.quarantine) return {};
    const Names who = called(animal);
    const auto place = today.enclosures.find(from);
    const Names where =
        place == today.enclosures.end() ? Names{{from.text(), from.text()}} : called(place->second);
    std::vector<Statement> says{asked::leaves_from(who, tell_danger(where, danger))};
    if (seen) says.push_back(asked::watch_not_over(who, *seen));
    if (seen || danger > Danger::healthy) says.push_back(asked::can_take_them_to_others());
    if (animal.quarantine) says.push_back(asked::not_settled_what_it_brought());
    return says;
}

}  // namespace mitefall::service
