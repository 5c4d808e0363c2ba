
#include "records/task_key.h"
#include "safety/rules.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::NameOf;
using records::TaskPart;

TaskKind kind_of(TaskPart part) {
    switch (part) {
        case TaskPart::redampen: return TaskKind::redampen;
        case TaskPart::water_out: return TaskKind::water_out;
        case TaskPart::water_back: return TaskKind::water_back;
        case TaskPart::thing: return TaskKind::thing;
        case TaskPart::old_tub: return TaskKind::old_tub;
        case TaskPart::drink: return TaskKind::drink;
        case TaskPart::check: return TaskKind::check;
        case TaskPart::mix: return TaskKind::mix;
        case TaskPart::hygiene: return TaskKind::hygiene;
        case TaskPart::sign:
        case TaskPart::death: return TaskKind::vet;
        case TaskPart::dry_tub: return TaskKind::dry_tub;
        case TaskPart::left_wood:
        case TaskPart::wood_back: return TaskKind::wood;
        case TaskPart::animal:
        case TaskPart::head:
        case TaskPart::substrate:
        case TaskPart::fresh_tub:
        case TaskPart::bedding:
        case TaskPart::room: break;
    }
    return TaskKind::treat;
}

statement::Statement treat(Method method, const std::string& where) {
    return work::treat(safety::term(method), {}, where);
}

/// With which method an animal was treated its key does not say.
statement::Statement what_was_done(const Workday& day, const records::TaskKey& parts) {
    const std::string place = day.name_of(EnclosureId(parts.name));
    const auto& [rooms, animals] = std::tie(day.collection().rooms, day.collection().animals);
    const auto animal = animals.find(AnimalId(parts.name));
    const std::string who = animal == animals.end() ? parts.name : animal->second.name;
    switch (kind_of(parts.part)) {
        case TaskKind::water_out: return work::dish_out(place);
        case TaskKind::water_back: return work::dish_back(place);
        case TaskKind::redampen: return work::wetted_again(place);
        case TaskKind::old_tub: return work::old_tub_done(place);
        case TaskKind::wood:
            return parts.part == TaskPart::left_wood ? work::wood_left_empty(place)
                                                     : work::asked_for_wood(place);
        case TaskKind::drink: return work::drink(place);
        case TaskKind::check: return look_in(day, EnclosureId(parts.name));
        case TaskKind::vet: return work::rang_vet(who);
        case TaskKind::dry_tub: return work::dry_tub_done(who);
        case TaskKind::mix:
        case TaskKind::hygiene:
        case TaskKind::thing:
        case TaskKind::treat: break;
    }
    const auto thing = day.collection().things.find(records::ThingId(parts.name));
    if (kind_of(parts.part) == TaskKind::thing && thing != day.collection().things.end())
        return work::thing_done(term_of(thing->second), place_of(day, thing->second));
    const records::PartRow& row = records::row_of(parts.part);
    const auto room = rooms.find(records::RoomId(parts.name));
    if (row.name_of == NameOf::enclosure && row.method) return treat(*row.method, place);
    if (row.name_of == NameOf::room && room != rooms.end()) return treat(*row.method, room->second.name);
    if (row.method && animal != animals.end())
        return work::treat(safety::term(*row.method), day.names_of({animal->first}), {});
    return work::treat_somehow(who);
}

void note_dish_too_late(const Workday& day, Task& task) {
    const safety::Dish dish = day.dish_of(day.collection().enclosures.at(task.enclosure));
    task.overdue = safety::was_overdue(dish, day.today(), day.limits());
    if (task.overdue) task.planned = dish.last->out + day.limits().dish_out;
}

std::optional<Task> task_of(const Workday& day, const std::string& key) {
    const auto& collection = day.collection();
    const auto parts = records::read_task_key(key);
    if (!parts || records::row_of(parts->part).name_of == NameOf::bench)
        return std::nullopt;  // it is always written anew
    EnclosureId enclosure(parts->name);
    const auto animal = collection.animals.find(AnimalId(parts->name));
    const bool is_animal =
        records::row_of(parts->part).name_of == NameOf::animal && animal != collection.animals.end();
    if (is_animal) enclosure = animal->second.enclosure;
    const auto thing = collection.things.find(records::ThingId(parts->name));
    const bool is_thing = kind_of(parts->part) == TaskKind::thing && thing != collection.things.end();
    if (is_thing) enclosure = thing->second.enclosure;
    if (!collection.enclosures.contains(enclosure)) enclosure = EnclosureId();
    Task task = day.task(key, kind_of(parts->part), enclosure, what_was_done(day, *parts));
    task.planned = parts->day;
    if (is_animal) task.animals = {animal->first};
    const records::RoomId room(parts->name);
    if (records::row_of(parts->part).name_of == NameOf::room && collection.rooms.contains(room))
        day.put_in_room(task, room);
    if (is_thing && enclosure.empty()) day.put_in_room(task, thing->second.room);
    if (task.kind == TaskKind::water_back && !enclosure.empty()) note_dish_too_late(day, task);
    return task;
}

}  // namespace

Tasks settled(const Workday& day, const Tasks& open, const Tasks& first) {
    std::set<std::string> listed;
    for (const Tasks* const known : {&open, &first}) {
        for (const Task& task : *known) listed.insert(task.key);
    }
    const std::string prefix = units::format_day(day.today()) + "/";
    Tasks tasks;
    const auto show = [&](const std::string& key, units::Day recorded) {
        if (recorded != day.today() && !key.starts_with(prefix)) return;
        if (!listed.insert(key).second) return;
        if (auto task = task_of(day, key)) tasks.push_back(std::move(*task));
    };
    for (const auto& [key, done] : day.collection().done) show(key, done.day);
    for (const auto& [key, skipped] : day.collection().skipped) show(key, skipped.day);
    return tasks;
}

}  // namespace mitefall::worklist::rules
