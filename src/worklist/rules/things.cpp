#include <algorithm>
#include <set>

#include "safety/things.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::Thing;
using records::ThingMethod;
using statement::Statement;

/// The day the round of today was planned for; none on a day without one, or long after the last.
std::optional<units::Day> round_of_today(const Workday& day) {
    std::optional<units::Day> planned;
    for (const plan::Round& round : day.schedule().rounds) {
        if (round.day == day.today() && !round.own_date) planned = round.planned;
    }
    const bool is_over = planned && day.today() - *planned > units::Days(plan::longest_interval);
    return is_over ? std::nullopt : planned;
}

/// The rooms the course works in.
std::set<records::RoomId> rooms_of(const Workday& day) {
    const auto& assignment = day.assignment();
    std::set<records::RoomId> rooms(assignment.rooms.begin(), assignment.rooms.end());
    for (const auto& id : assignment.enclosures) rooms.insert(day.collection().enclosures.at(id).room);
    return rooms;
}

bool is_treated_there(const Workday& day, const Thing& thing, const std::set<records::RoomId>& rooms) {
    const auto& places = day.assignment().enclosures;
    return thing.enclosure.empty() ? rooms.contains(thing.room)
                                   : std::find(places.begin(), places.end(), thing.enclosure) != places.end();
}

/// Things to be freed of mites in the round of today: not those still in the freezer from the last.
std::vector<const Thing*> due_things(const Workday& day) {
    std::vector<const Thing*> due;
    const auto round = round_of_today(day);
    if (!day.has_course() || !round) return due;
    const std::set<records::RoomId> rooms = rooms_of(day);
    for (const auto& [id, thing] : day.collection().things) {
        const std::string key = records::to_text(*round, records::TaskPart::thing, id.text());
        if (!thing.gone && is_treated_there(day, thing, rooms) && !day.assignment().settled.contains(key) &&
            !safety::is_away(thing, day.today(), day.tables()))
            due.push_back(&thing);
    }
    return due;
}

ThingMethod method_for(const Thing& thing) {
    return thing.by.value_or(records::row_of(thing.what).may.usual());
}

Statement tell(const Workday& day, const Thing& thing, ThingMethod method) {
    const auto& tables = day.tables();
    const statement::Term what = term_of(thing);
    const std::string where = place_of(day, thing);
    const units::Day back = safety::back_from(method, day.today(), tables);
    switch (method) {
        case ThingMethod::wash_hot:
            return work::wash_thing(what, where, tables.temperature("wash_temperature").value);
        case ThingMethod::dry_heat:
            return work::heat_thing(what, where, tables.temperature("heat_objects_temperature").value, back);
        case ThingMethod::freeze: return work::freeze_thing(what, where, back);
        case ThingMethod::throw_away: return work::throw_thing(what, where);
        case ThingMethod::spray_and_air: break;
    }
    return work::air_thing(what, where, back);
}

Task task_of(const Workday& day, const Thing& thing) {
    const ThingMethod method = method_for(thing);
    const units::Day planned = *round_of_today(day);
    Task task = day.task(records::to_text(planned, records::TaskPart::thing, thing.id.text()),
                         TaskKind::thing, thing.enclosure, tell(day, thing, method));
    task.planned = planned;
    task.thing = ThingToDo{thing.id, method};
    if (thing.enclosure.empty()) day.put_in_room(task, thing.room);
    task.cautions = safety::cautions_for(thing.what, method, day.tables());
    return task;
}

}  // namespace

statement::Term term_of(const Thing& thing) { return {"thing", records::to_text(thing.what)}; }

std::string place_of(const Workday& day, const Thing& thing) {
    return thing.enclosure.empty() ? day.collection().rooms.at(thing.room).name
                                   : day.name_of(thing.enclosure);
}

Tasks things(const Workday& day) {
    Tasks tasks;
    for (const Thing* const thing : due_things(day)) {
        if (method_for(*thing) != ThingMethod::spray_and_air) {
            tasks.push_back(task_of(day, *thing));
            continue;
        }
        const safety::Permit permit = safety::permit_spray(day.setting().with, *thing, day.today());
        if (!permit) continue;
        Task& task = tasks.emplace_back(task_of(day, *thing));
        task.treatment = *permit;
        set_strength(task, permit->method(), permit->strength());
        const auto& more = permit->cautions();
        task.cautions.insert(task.cautions.end(), more.begin(), more.end());
    }
    return tasks;
}

std::vector<PassedOver> things_passed_over(const Workday& day) {
    std::vector<PassedOver> all;
    for (const Thing* const thing : due_things(day)) {
        if (method_for(*thing) != ThingMethod::spray_and_air) continue;
        const safety::Permit permit = safety::permit_spray(day.setting().with, *thing, day.today());
        const auto method =
            thing->enclosure.empty() ? records::Method::treat_room : records::Method::permethrin_empty;
        if (!permit) all.push_back({thing->enclosure, permit.error().animal, method, permit.error().reason});
    }
    return all;
}

}  // namespace mitefall::worklist::rules
