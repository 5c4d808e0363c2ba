#include "worklist/overview.h"

#include <algorithm>
#include <map>

#include "plan/course.h"
#include "plan/told.h"
#include "worklist/work.h"

namespace mitefall::worklist {
namespace {

using records::Collection;
using records::EnclosureId;
using statement::Statement;

std::map<EnclosureId, units::Day> last_checks(std::span<const records::Entry> journal, units::Day today) {
    std::map<EnclosureId, units::Day> last;
    const auto looked = [&](const EnclosureId& enclosure, units::Day day) {
        const auto place = last.try_emplace(enclosure, day).first;
        place->second = std::max(place->second, day);
    };
    for (const records::Entry& entry : records::in_force(journal)) {
        if (entry.day > today) break;
        if (const auto* const check = std::get_if<records::Checked>(&entry.fact))
            looked(check->enclosure, entry.day);
        if (const auto* const seen = std::get_if<records::Sighted>(&entry.fact))
            looked(seen->enclosure, entry.day);
    }
    return last;
}

bool counts(const Task& task, TaskState state) {
    return task.kind != TaskKind::hygiene && task.state == state;
}

int number_of(const Worklist& list, TaskState state) {
    return static_cast<int>(
        std::count_if(list.tasks.begin(), list.tasks.end(), [&](const Task& t) { return counts(t, state); }));
}

/// Its day is gone by and none of it is late, or it is today and all of it is done or skipped.
bool is_over(units::Day round, units::Day today, const Worklist& list) {
    const auto is_of_it = [&](const auto& one) { return one.planned == round; };
    const bool is_late = std::any_of(list.late.rounds.begin(), list.late.rounds.end(), is_of_it);
    const bool is_open = std::any_of(list.tasks.begin(), list.tasks.end(), [&](const Task& task) {
        return is_of_it(task) && counts(task, TaskState::open);
    });
    return round < today ? !is_late : round == today && !is_open;
}

int rounds_over(const Collection& collection, const Worklist& list) {
    if (!collection.plan) return 0;
    const auto& rounds = collection.plan->value.rounds;
    return static_cast<int>(std::count_if(rounds.begin(), rounds.end(), [&](units::Day round) {
        return is_over(round, collection.day, list);
    }));
}

using Glances = std::map<EnclosureId, EnclosureAtAGlance>;

Glances glances_at(const Collection& collection) {
    Glances glances;
    for (const auto& [id, enclosure] : collection.enclosures) {
        EnclosureAtAGlance& glance = glances[id];
        glance.enclosure = id;
        glance.name = enclosure.name;
        glance.water_out_since = enclosure.water_out_since;
    }
    for (const auto& [id, animal] : collection.animals) {
        const auto glance = glances.find(animal.enclosure);
        if (glance == glances.end()) continue;
        glance->second.animals.push_back(animal.name);
        glance->second.quarantine |= animal.quarantine;
    }
    return glances;
}

void add_exposure(const exposure::Tracing& tracing, double exposed_from, Glances& glances) {
    for (const exposure::Exposed& row : tracing.exposed) {
        const auto glance = glances.find(row.enclosure);
        if (glance == glances.end()) continue;
        glance->second.exposure = row.chance;
        glance->second.exposed_by = row.what;
        glance->second.danger = row.sighted                  ? Danger::sighted
                                : row.chance >= exposed_from ? Danger::exposed
                                                             : Danger::healthy;
    }
}

void add_tasks(const Worklist& list, Glances& glances) {
    for (const Task& task : list.tasks) {
        const auto glance = glances.find(task.enclosure);
        if (glance == glances.end()) continue;
        glance->second.due += counts(task, TaskState::open) ? 1 : 0;
        glance->second.done += counts(task, TaskState::done) ? 1 : 0;
    }
}

Statement tell_days(const std::vector<units::Day>& rounds) {
    if (rounds.empty()) return work::no_rounds();
    const auto number = static_cast<double>(rounds.size());
    const auto [first, last] = std::minmax_element(rounds.begin(), rounds.end());
    return *first == *last ? work::rounds_on(number, *first) : work::rounds_from_to(number, *first, *last);
}

/// As it was asked for: of a course adopted before its terms were on record.
void tell_choices(const records::PlanAdopted& plan, std::vector<Statement>& parts) {
    if (!plan.rooms.empty()) parts.push_back(work::floors_of_rooms(static_cast<double>(plan.rooms.size())));
    if (plan.choices.change_substrate) parts.push_back(plan::told::substrate_changed());
    if (!plan.choices.fresh_tubs.empty()) parts.push_back(plan::told::clean_tubs());
    if (!plan.choices.emptied_wood.empty()) parts.push_back(plan::told::wood_emptied());
    if (plan.choices.clear_heads) parts.push_back(plan::told::heads_cleared());
    if (plan.choices.soak_animals) parts.push_back(work::soaked_not_sprayed());
    if (plan.choices.keep_damp) parts.push_back(work::kept_damp());
}

}  // namespace

Statement tell(const records::PlanAdopted& plan) {
    std::vector<Statement> parts{tell_days(plan.rounds),
                                 work::of_enclosures(static_cast<double>(plan.enclosures.size()))};
    if (plan.terms.are_known()) {
        for (Statement& part : plan::tell(plan::doings_of(plan))) parts.push_back(std::move(part));
    } else {
        tell_choices(plan, parts);
    }
    return work::adopted(std::move(parts));
}

std::vector<WorkAhead> sum_up(const Worklist& list) {
    std::vector<WorkAhead> kinds;
    for (const Task& task : list.tasks) {
        if (!counts(task, TaskState::open)) continue;
        const auto method =
            task.treatment ? std::optional(task.treatment->method()) : std::optional<records::Method>{};
        const auto same = std::find_if(kinds.begin(), kinds.end(), [&](const WorkAhead& one) {
            return one.kind == task.kind && one.method == method;
        });
        if (same != kinds.end())
            ++same->tasks;
        else
            kinds.push_back({task.kind, method, 1});
    }
    return kinds;
}

Overview look_over(std::span<const records::Entry> journal, const Collection& collection,
                   const exposure::Tracing& tracing, const Worklist& list, double exposed_from) {
    Glances glances = glances_at(collection);
    add_exposure(tracing, exposed_from, glances);
    add_tasks(list, glances);
    for (const auto& [enclosure, day] : last_checks(journal, collection.day)) {
        const auto glance = glances.find(enclosure);
        if (glance != glances.end()) glance->second.last_checked = day;
    }
    Overview overview;
    overview.day = collection.day;
    overview.plan = collection.plan;
    overview.rounds_over = rounds_over(collection, list);
    overview.due = number_of(list, TaskState::open);
    overview.done = number_of(list, TaskState::done);
    overview.next_day = list.next_day;
    overview.late = list.late;
    for (const auto& sighting : collection.sightings)
        overview.last_sighting = std::max(overview.last_sighting.value_or(sighting.day), sighting.day);
    for (const auto& [id, room] : collection.rooms) {
        RoomAtAGlance& view = overview.rooms.emplace_back();
        view.room = id;
        view.name = room.name;
        for (const records::Enclosure* const enclosure : collection.enclosures_in(id))
            view.enclosures.push_back(std::move(glances.at(enclosure->id)));
    }
    return overview;
}

}  // namespace mitefall::worklist
