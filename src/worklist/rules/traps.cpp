#include <algorithm>

#include "worklist/rules/rules.h"

// Paper traps that are read as a routine while nothing else asks for looks.
namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::TaskPart;
using units::Day;
using units::Days;

/// A course asks for looks of its own until the end of its watch.
bool is_kept(const Workday& day) {
    return day.collection().trap_routine && (!day.has_course() || day.today() > day.end_of_watch());
}

/// How a routine stands in one enclosure with animals.
struct Trap {
    EnclosureId enclosure;
    Day laid;  ///< at the beginning of today: since then it lies there
    Day due;   ///< to be read
    std::string key;
};

/// Since the routine began, since the course before it was over, since somebody lives there, or since the
/// last reading.
Day laid(const Workday& day, const records::Enclosure& enclosure, const std::vector<AnimalId>& inside) {
    const auto& animals = day.collection().animals;
    const auto came = [&](const AnimalId& id) { return animals.at(id).stays.back().from; };
    Day lived_in = came(inside.front());
    for (const AnimalId& id : inside) lived_in = std::min(lived_in, came(id));
    Day since = std::max(day.collection().trap_routine->day, lived_in);
    if (day.has_course()) since = std::max(since, day.end_of_watch());
    for (const Day read : enclosure.traps_read) {
        if (read < day.today()) since = std::max(since, read);
    }
    return since;
}

/// A reading that was passed over on an earlier day comes up again when the next is due.
Trap trap_in(const Workday& day, const records::Enclosure& enclosure, const std::vector<AnimalId>& inside) {
    const Days every(day.collection().trap_routine->value.every_days);
    Trap trap{enclosure.id, laid(day, enclosure, inside), {}, {}};
    trap.due = trap.laid;
    const auto& skipped = day.collection().skipped;
    auto passed_over = skipped.end();
    do {
        trap.due += every;
        trap.key = records::to_text(trap.due, TaskPart::check, enclosure.id.text());
        passed_over = skipped.find(trap.key);
    } while (passed_over != skipped.end() && passed_over->second.day < day.today());
    return trap;
}

std::vector<Trap> traps_of(const Workday& day) {
    std::vector<Trap> traps;
    if (!is_kept(day)) return traps;
    for (const auto& [id, inside] : day.setting().with.survey.inside) {
        const auto found = day.collection().enclosures.find(id);
        if (found != day.collection().enclosures.end()) traps.push_back(trap_in(day, found->second, inside));
    }
    return traps;
}

}  // namespace

Tasks traps(const Workday& day) {
    Tasks tasks;
    for (Trap& trap : traps_of(day)) {
        if (trap.due > day.today()) continue;
        Task& task = tasks.emplace_back(day.task(std::move(trap.key), TaskKind::check, trap.enclosure,
                                                 work::read_trap(day.name_of(trap.enclosure))));
        task.planned = trap.due;
        task.check = records::CheckMethod::paper_trap;
    }
    return tasks;
}

std::vector<Note> traps_to_lay(const Workday& day) {
    std::map<Day, statement::Names> by_day;
    for (const Trap& trap : traps_of(day)) {
        if (trap.laid == day.today())
            by_day[trap.due].push_back({trap.enclosure.text(), day.name_of(trap.enclosure)});
    }
    std::vector<Note> notes;
    for (auto& [read, where] : by_day) notes.push_back({work::lay_traps(std::move(where), read), {}});
    return notes;
}

std::optional<Day> next_trap(const Workday& day) {
    std::optional<Day> next;
    for (const Trap& trap : traps_of(day)) {
        const bool is_listed = trap.due <= day.today();
        const Day due =
            is_listed ? day.today() + Days(day.collection().trap_routine->value.every_days) : trap.due;
        next = std::min(next.value_or(due), due);
    }
    return next;
}

}  // namespace mitefall::worklist::rules
