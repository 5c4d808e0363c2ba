#include <algorithm>
#include <array>

#include "records/task_key.h"
#include "safety/rules.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;

TaskKind kind_of_part(std::string_view part) {
    constexpr std::array kinds{TaskKind::mix,      TaskKind::water_out,  TaskKind::drink,
                               TaskKind::redampen, TaskKind::water_back, TaskKind::check};
    const auto* const found =
        std::find_if(kinds.begin(), kinds.end(), [&](TaskKind kind) { return to_text(kind) == part; });
    return found == kinds.end() ? TaskKind::treat : *found;
}

statement::Statement treat(Method method, const std::string& where) {
    return work::treat(safety::term(method), {}, where);
}

/// With which method an animal was treated its key does not say.
statement::Statement what_was_done(const Workday& day, const records::TaskKey& parts) {
    const std::string place = day.name_of(EnclosureId(parts.name));
    if (parts.part == "bedding") return treat(Method::spray_bedding, place);
    if (parts.part == "substrate") return treat(Method::change_substrate, place);
    if (parts.part == "water-out") return work::dish_out(place);
    if (parts.part == "water-back") return work::dish_back(place);
    if (parts.part == "redampen") return work::wetted_again(place);
    if (parts.part == "drink") return work::drink(place);
    if (parts.part == "check") return look_in(day, EnclosureId(parts.name));
    const auto& [rooms, animals] = std::tie(day.collection().rooms, day.collection().animals);
    const auto room = rooms.find(records::RoomId(parts.name));
    if (parts.part == "room" && room != rooms.end()) return treat(Method::treat_room, room->second.name);
    const auto animal = animals.find(AnimalId(parts.name));
    return work::treat_somehow(animal == animals.end() ? parts.name : animal->second.name);
}

void note_dish_too_late(const Workday& day, Task& task) {
    const safety::Dish dish = day.dish_of(day.collection().enclosures.at(task.enclosure));
    task.overdue = safety::was_overdue(dish, day.today(), day.limits());
    if (task.overdue) task.planned = dish.last->out + day.limits().dish_out;
}

std::optional<Task> task_of(const Workday& day, const std::string& key) {
    const auto& collection = day.collection();
    const auto parts = records::read_task_key(key);
    if (!parts || kind_of_part(parts->part) == TaskKind::mix)
        return std::nullopt;  // it is always written anew
    EnclosureId enclosure(parts->name);
    const auto animal = collection.animals.find(AnimalId(parts->name));
    const bool is_animal = parts->part == "animal" && animal != collection.animals.end();
    if (is_animal) enclosure = animal->second.enclosure;
    if (!collection.enclosures.contains(enclosure)) enclosure = EnclosureId();
    Task task = day.task(key, kind_of_part(parts->part), enclosure, what_was_done(day, *parts));
    task.planned = parts->day;
    if (is_animal) task.animals = {animal->first};
    const records::RoomId room(parts->name);
    if (parts->part == "room" && collection.rooms.contains(room)) day.put_in_room(task, room);
    if (task.kind == TaskKind::water_back && !enclosure.empty()) note_dish_too_late(day, task);
    return task;
}

}  // namespace

Tasks settled(const Workday& day, const Tasks& open) {
    std::set<std::string> listed;
    for (const Task& task : open) listed.insert(task.key);
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
