#include "worklist/worklist.h"

#include <algorithm>
#include <iterator>
#include <tuple>

#include "records/task_key.h"
#include "safety/handling.h"
#include "worklist/rules/rules.h"
#include "worklist/steps.h"

namespace mitefall::worklist {
namespace {

using records::AnimalId;
using records::Collection;
using records::EnclosureId;
using records::Method;

/// Whatever the task is: dish, bedding, substrate, wetting, check.
void warn_of_handling(const Workday& day, std::vector<Task>& tasks) {
    for (Task& task : tasks) {
        if (task.enclosure.empty()) continue;
        auto cautions = safety::handling_cautions(day.setting().with, task.enclosure);
        std::erase_if(task.cautions, [&](const safety::Caution& known) {
            return std::any_of(cautions.begin(), cautions.end(),
                               [&](const safety::Caution& one) { return one.what == known.what; });
        });
        task.cautions.insert(task.cautions.begin(), cautions.begin(), cautions.end());
    }
}

int step_of(const Task& task) {
    switch (task.kind) {
        case TaskKind::hygiene:
        case TaskKind::vet:
        case TaskKind::dry_tub:
        case TaskKind::mix: return 0;
        case TaskKind::check: return 1;
        case TaskKind::water_out: return 2;
        case TaskKind::drink: return 3;
        case TaskKind::treat: return 4;
        case TaskKind::redampen: return 5;
        case TaskKind::water_back: return 6;
        case TaskKind::thing: return 7;
        case TaskKind::old_tub: return 8;
        case TaskKind::wood: return 9;
    }
    return 0;
}

/// Animals first, then the paper out, then the spray, ticked or not.
int turn_of(const Task& task) {
    const auto parts = records::read_task_key(task.key);
    return task.kind == TaskKind::treat && parts ? records::row_of(parts->part).turn : 0;
}

/// A dish that is out too long, an animal that reacted.
bool is_urgent(const Task& task) { return task.overdue || task.kind == TaskKind::dry_tub; }

void put_in_order(const Workday& day, std::vector<Task>& tasks) {
    const auto order = [&](const Task& task) {
        const bool whole_room = task.enclosure.empty();
        return std::tuple(!is_urgent(task), day.turn_of_room(task.room), task.room, whole_room,
                          day.danger().turn_of(task.enclosure), task.enclosure, step_of(task), turn_of(task));
    };
    std::stable_sort(tasks.begin(), tasks.end(),
                     [&](const Task& a, const Task& b) { return order(a) < order(b); });
}

/// Before everything but what is urgent.
void put_mix(std::vector<Task>& tasks, std::optional<Task> mix) {
    if (!mix) return;
    const auto first =
        std::find_if(tasks.begin(), tasks.end(), [](const Task& one) { return !is_urgent(one); });
    tasks.insert(first, std::move(*mix));
}

void add_to(std::vector<Task>& tasks, std::vector<Task> more) {
    std::move(more.begin(), more.end(), std::back_inserter(tasks));
}

std::vector<Task> tasks_of(const Workday& day) {
    std::vector<Task> first = rules::signs(day);
    add_to(first, rules::deaths(day));
    std::vector<Task> tasks;
    const auto add = [&](std::vector<Task> more) { add_to(tasks, std::move(more)); };
    add(rules::dry_tubs(day));
    add(rules::treatments(day));
    add(rules::dishes_out(day));
    add(rules::wettings_again(day));
    add(rules::checks(day));
    add(rules::traps(day));
    add(rules::dishes_back(day));
    add(rules::drinks(day));
    add(rules::things(day));
    add(rules::old_tubs(day));
    add(rules::wood(day));
    add(rules::settled(day, tasks, first));
    warn_of_handling(day, tasks);
    for (Task& task : tasks) task.steps = steps_of(task, day);
    put_in_order(day, tasks);
    put_mix(tasks, rules::mix(day, tasks));
    add_to(first, rules::after_outside(day));
    add_to(first, rules::with_hygiene(day, std::move(tasks)));
    return first;
}

std::vector<safety::Caution> cautions_of(const std::vector<Task>& tasks) {
    std::vector<safety::Caution> all;
    std::set<std::string> seen;
    for (const Task& task : tasks) {
        for (const safety::Caution& caution : task.cautions) {
            if (seen.insert(statement::key_of(caution.what)).second) all.push_back(caution);
        }
    }
    return all;
}

std::set<units::Day> days_of_course(const Workday& day) {
    const auto& rounds = day.assignment().rounds;
    std::set<units::Day> days(rounds.begin(), rounds.end());
    for (const plan::Round& round : day.schedule().rounds) {
        if (!round.treatments.empty()) days.insert(round.day);
    }
    const auto weeks = std::max(units::Days(0), day.today() - rounds.front()) / check_interval + 1;
    const units::Day check = rounds.front() + weeks * check_interval;
    if (check <= day.end_of_watch()) days.insert(check);
    return days;
}

std::optional<units::Day> next_day(const Workday& day, const std::vector<Task>& tasks) {
    std::set<units::Day> days = day.has_course() ? days_of_course(day) : std::set<units::Day>{};
    const auto& enclosures = day.collection().enclosures;
    const bool is_dish_out = std::any_of(enclosures.begin(), enclosures.end(),
                                         [](const auto& one) { return one.second.water_is_out; }) ||
                             std::any_of(tasks.begin(), tasks.end(), [](const Task& task) {
                                 return task.kind == TaskKind::water_out && task.state != TaskState::skipped;
                             });
    const bool is_ill = std::any_of(day.collection().animals.begin(), day.collection().animals.end(),
                                    [](const auto& one) { return !one.second.signs.empty(); });
    if (is_ill) days.insert(day.today() + units::one_day);
    if (is_dish_out) days.insert(day.today() + units::one_day);  // a drink, or the dish back
    if (const auto trap = rules::next_trap(day)) days.insert(*trap);
    if (const auto wood = rules::next_wood(day)) days.insert(*wood);
    const auto next = days.upper_bound(day.today());
    return next == days.end() ? std::nullopt : std::optional(*next);
}

}  // namespace

Danger DangerMap::of(const EnclosureId& enclosure) const {
    return sighted.contains(enclosure)   ? Danger::sighted
           : exposed.contains(enclosure) ? Danger::exposed
                                         : Danger::healthy;
}

Danger DangerMap::of_room(const Collection& collection, const records::RoomId& room) const {
    Danger worst = Danger::healthy;
    for (const records::Enclosure* const enclosure : collection.enclosures_in(room))
        worst = std::max(worst, of(enclosure->id));
    return worst;
}

int DangerMap::turn_of(const EnclosureId& enclosure) const {
    const bool is_new = quarantined.contains(enclosure);
    switch (of(enclosure)) {
        case Danger::healthy: return is_new ? first_shut_off : 0;
        case Danger::exposed: return is_new ? first_shut_off : 1;
        case Danger::sighted: return first_shut_off + (is_new ? 2 : 1);
    }
    return 0;
}

int DangerMap::turn_of_room(const Collection& collection, const records::RoomId& room) const {
    int last = 0;
    for (const records::Enclosure* const enclosure : collection.enclosures_in(room))
        last = std::max(last, turn_of(enclosure->id));
    return last;
}

std::vector<std::string> keys_under(const std::string& task, const std::vector<records::MovedRound>& moved) {
    std::vector<std::string> keys{task};
    const auto key = moved.empty() ? std::nullopt : records::read_task_key(task);
    for (const records::MovedRound& round : moved) {
        if (key && key->day == round.from) keys.push_back(records::to_text(round.to, key->part, key->name));
    }
    return keys;
}

plan::Assignment assignment_on_record(const Collection& collection) {
    plan::Assignment assignment;
    if (!collection.plan) return assignment;
    const records::PlanAdopted& adopted = collection.plan->value;
    assignment.rounds = adopted.rounds;
    assignment.enclosures = adopted.enclosures;
    assignment.rooms = adopted.rooms;
    assignment.choices = adopted.choices;
    const auto settle = [&](const std::string& task) {
        for (std::string& key : keys_under(task, adopted.moved)) assignment.settled.insert(std::move(key));
    };
    for (const auto& [key, done] : collection.done) settle(key);
    for (const auto& [key, skipped] : collection.skipped) settle(key);
    return assignment;
}

Worklist make_worklist(const plan::Setting& setting) {
    const Workday day(setting);
    Worklist list;
    list.day = day.today();
    list.tasks = tasks_of(day);
    list.passed_over = rules::passed_over(day);
    list.cautions = cautions_of(list.tasks);
    list.next_day = next_day(day, list.tasks);
    list.questions = rules::sheds(day);
    list.notes = rules::meals_to_hold(day);
    for (Note& note : rules::breeding(day)) list.notes.push_back(std::move(note));
    for (Note& note : rules::traps_to_lay(day)) list.notes.push_back(std::move(note));
    return list;
}

std::vector<records::Fact> facts_of(const Task& task, const std::optional<CheckAnswer>& answer) {
    switch (task.kind) {
        case TaskKind::hygiene:
        case TaskKind::mix:
        case TaskKind::old_tub:
        case TaskKind::wood:
        case TaskKind::vet:
        case TaskKind::dry_tub:
        case TaskKind::drink: return {};
        case TaskKind::thing:
            if (!task.thing) return {};
            return {records::ThingTreated{task.thing->id, task.thing->method, task.strength}};
        case TaskKind::redampen: return {records::PaperWetted{task.enclosure}};
        case TaskKind::water_out: return {records::WaterMoved{task.enclosure, true}};
        case TaskKind::water_back: return {records::WaterMoved{task.enclosure, false}};
        case TaskKind::check:
            if (!answer) return {};
            return {records::Checked{task.enclosure, task.check, answer->count, answer->where}};
        case TaskKind::treat: break;
    }
    if (!task.treatment) return {};
    if (task.treatment->method() == Method::treat_room)
        return {records::RoomTreated{task.room, task.strength}};
    if (task.enclosure.empty()) return {};
    if (task.treatment->method() == Method::change_substrate) {
        return {records::SubstrateChanged{task.enclosure, records::Substrate::paper}};
    }
    const bool on_animals = records::row_of(task.treatment->method()).target == records::Target::animal;
    std::vector<records::Fact> facts;
    if (!task.from.empty()) {
        for (const AnimalId& animal : task.animals)
            facts.emplace_back(records::AnimalMoved{animal, task.enclosure});
    }
    facts.emplace_back(records::Treated{task.enclosure, on_animals ? task.animals : std::vector<AnimalId>{},
                                        task.treatment->method(), task.strength});
    return facts;
}

}  // namespace mitefall::worklist
