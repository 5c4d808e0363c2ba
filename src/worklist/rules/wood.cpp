#include <algorithm>

#include "plan/emptied.h"
#include "units/whole_days.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using records::EmptiedWood;
using records::EnclosureId;
using records::TaskPart;
using units::Day;

std::vector<AnimalId> living_in(const Workday& day, const EnclosureId& enclosure) {
    std::vector<AnimalId> animals;
    for (const records::Animal* const animal : day.inside(enclosure)) animals.push_back(animal->id);
    return animals;
}

/// The day on which the first of them moved into the tub, or is to today; none while nobody is.
std::optional<Day> emptied_on(const Workday& day, const EmptiedWood& wood) {
    const auto& enclosures = day.collection().enclosures;
    if (!enclosures.contains(wood.tub) || !enclosures.contains(wood.enclosure)) return std::nullopt;
    if (!day.inside(wood.enclosure).empty()) return std::nullopt;
    std::optional<Day> first;
    for (const records::Animal* const animal : day.inside(wood.tub)) {
        const bool has_moved = animal->enclosure == wood.tub && !animal->stays.empty();
        const Day since = has_moved ? animal->stays.back().from : day.today();
        first = std::min(first.value_or(since), since);
    }
    return first;
}

/// From the day after the last round on, once a week: the day of this one; none before.
std::optional<Day> asked_on(const Workday& day) {
    const Day last = day.assignment().rounds.back();
    if (day.today() <= last) return std::nullopt;
    return last + units::one_day + (day.today() - last - units::one_day) / check_interval * check_interval;
}

void add(const Workday& day, Task task, Day planned, Tasks& tasks) {
    if (planned < day.today() && task.state != TaskState::open) return;
    task.planned = planned;
    tasks.push_back(std::move(task));
}

Task left_empty(const Workday& day, const EmptiedWood& wood, Day since) {
    const auto& tables = day.tables();
    return day.task(records::to_text(since, TaskPart::left_wood, wood.enclosure.text()), TaskKind::wood,
                    wood.enclosure,
                    work::leave_wood_empty(day.name_of(wood.enclosure),
                                           tables.temperature("heat_objects_temperature").value,
                                           tables.time("heat_objects_time").value));
}

/// By the course in force or by one before it.
std::vector<EmptiedWood> all_emptied(const Workday& day) {
    std::vector<EmptiedWood> all = day.assignment().choices.emptied_wood;
    const auto& before = day.collection().emptied_before;
    all.insert(all.end(), before.begin(), before.end());
    return all;
}

}  // namespace

Tasks wood(const Workday& day) {
    Tasks tasks;
    for (const EmptiedWood& wood : all_emptied(day)) {
        const auto since = emptied_on(day, wood);
        if (!since) continue;
        add(day, left_empty(day, wood, *since), *since, tasks);
        const auto asked = asked_on(day);
        if (!asked) continue;
        const std::string key = records::to_text(*asked, TaskPart::wood_back, wood.enclosure.text());
        const auto who = day.names_of(living_in(day, wood.tub));
        add(day,
            day.task(key, TaskKind::wood, wood.enclosure,
                     work::ask_for_wood(who, day.name_of(wood.enclosure))),
            *asked, tasks);
    }
    return tasks;
}

std::optional<Day> next_wood(const Workday& day) {
    const std::vector<EmptiedWood> all = all_emptied(day);
    const bool is_any =
        std::any_of(all.begin(), all.end(), [&](const EmptiedWood& wood) { return emptied_on(day, wood); });
    if (!is_any) return std::nullopt;
    const auto asked = asked_on(day);
    return asked ? *asked + check_interval : day.assignment().rounds.back() + units::one_day;
}

}  // namespace mitefall::worklist::rules
