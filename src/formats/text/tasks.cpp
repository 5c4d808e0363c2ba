#include "formats/text/tasks.h"

#include <fmt/format.h>

#include <map>
#include <vector>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using records::Collection;

/// "Tub A 01: Ada"
std::string who_is_in(const Collection& collection, const records::EnclosureId& id) {
    std::vector<std::string> animals;
    for (const auto& [animal, state] : collection.animals) {
        if (state.enclosure == id) animals.push_back(animal_name(collection, animal));
    }
    return enclosure_name(collection, id) + (animals.empty() ? "" : ": " + join(animals));
}

/// "Kept here: hide-1 (hide), hook-2 (hook)"
std::string things_in(const Collection& collection, const records::EnclosureId& id) {
    std::vector<std::string> things;
    for (const auto& [name, thing] : collection.things) {
        if (thing.enclosure == id && !thing.gone)
            things.push_back(fmt::format("{} ({})", name.text(), records::row_of(thing.what).name));
    }
    return things.empty() ? std::string() : wrap("Kept here: " + join(things), "      ", "        ");
}

/// Of what is still to be done. `told`: the ways that were told before, each by the task it was told with.
std::string steps_of(const worklist::Task& task, std::map<std::string, std::string>& told) {
    if (task.state != worklist::TaskState::open || task.steps.empty()) return {};
    std::string text, way;
    for (const statement::Statement& step : task.steps) {
        way += step.id;
        text += wrap("- " + words::say(step), "          ", "            ");
    }
    const auto [known, is_new] = told.emplace(std::move(way), task.key);
    return is_new ? text : wrap("- step by step as " + known->second, "          ", "            ");
}

char mark_of(worklist::TaskState state) {
    switch (state) {
        case worklist::TaskState::open: return ' ';
        case worklist::TaskState::done: return 'x';
        case worklist::TaskState::skipped: return '/';
    }
    return ' ';
}

std::string task_line(const worklist::Task& task, units::Display display) {
    std::string line = words::say(task.what);
    if (task.amount) line += fmt::format(", about {}", units::show(*task.amount, display));
    if (!task.agent.empty())
        line += fmt::format("{} {} {}", task.amount ? " of" : ",", task.agent, units::show(task.strength));
    if (task.planned < task.day)
        line += toned(Tone::caution,
                      fmt::format(" (late: planned for {})", units::format_day_short(task.planned)));
    if (!task.skipped_because.empty()) line += " (skipped: " + task.skipped_because + ")";
    return line;
}

}  // namespace

std::string tasks_text(const worklist::Worklist& list, const Collection& collection, units::Display display,
                       bool details) {
    std::string text;
    records::RoomId room;
    records::EnclosureId enclosure;
    int number = 0;
    std::map<std::string, std::string> told;
    for (const worklist::Task& task : list.tasks) {
        if (task.kind == worklist::TaskKind::hygiene) {
            text += wrap("== " + words::say(task.what) + " ==", "      ", "         ");
            enclosure = {};
            continue;
        }
        if (task.room != room && !task.room.empty()) {
            room = task.room;
            text += wrap(toned(Tone::good, room_name(collection, room)), "  ", "  ");
        }
        if (task.enclosure != enclosure && !task.enclosure.empty())
            text += wrap(who_is_in(collection, task.enclosure), "    ", "      ") +
                    (details ? things_in(collection, task.enclosure) : "");
        enclosure = task.enclosure;
        text += wrap(task_line(task, display), fmt::format("{:3} [{}] ", ++number, mark_of(task.state)),
                     "        ");
        text += wrap(toned(Tone::quiet, task.key), "        ", "        ");
        if (details) text += steps_of(task, told);
    }
    return text;
}

}  // namespace mitefall::formats
