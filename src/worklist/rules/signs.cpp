#include <algorithm>

#include "safety/check.h"
#include "safety/deaths.h"
#include "safety/rules.h"
#include "units/whole_days.h"
#include "worklist/rules/rules.h"

// Animals that are ill, that reacted, or that died: before everything else.
namespace mitefall::worklist::rules {
namespace {

using records::Animal;
using records::Condition;
using records::TaskPart;

/// Read, and not ticked.
Task note_of(const Workday& day, TaskPart part, const std::string& name, statement::Statement what) {
    Task note;
    note.kind = TaskKind::hygiene;
    note.key = day.key(TaskPart::hygiene, std::string(records::row_of(part).text) + "-" + name);
    note.day = note.planned = day.today();
    note.what = std::move(what);
    return note;
}

units::Day last_seen(const Animal& animal) {
    units::Day last = animal.signs.front().day;
    for (const auto& sign : animal.signs) last = std::max(last, sign.day);
    return last;
}

std::vector<statement::Statement> tell_signs(const Animal& animal) {
    std::vector<statement::Statement> told;
    for (const auto& sign : animal.signs) told.push_back(work::sign_of_illness(safety::term(sign.value)));
    return told;
}

void add_signs_of(const Workday& day, const Animal& animal, Tasks& tasks) {
    const units::Day seen = last_seen(animal);
    const statement::Names who = safety::named(animal);
    Task ring = day.task(records::to_text(seen, TaskPart::sign, animal.id.text()), TaskKind::vet,
                         animal.enclosure, work::ring_vet(who, tell_signs(animal), seen));
    ring.animals = {animal.id};
    const bool is_rung = ring.state != TaskState::open && seen < day.today();
    if (!is_rung) tasks.push_back(std::move(ring));
    tasks.push_back(
        note_of(day, TaskPart::sign, animal.id.text(),
                is_rung ? work::still_ill(who, tell_signs(animal), seen) : work::until_the_vet(who)));
}

/// The day it last reacted, if it is not over yet.
std::optional<units::Day> reacted_on(const Workday& day, const Animal& animal) {
    const units::Days rest = units::at_least_days(day.tables().time("rest_after_reaction").value);
    std::optional<units::Day> last;
    for (const auto& noted : animal.conditions) {
        if (noted.value.condition != Condition::reacted || noted.day + rest < day.today()) continue;
        last = std::max(last.value_or(noted.day), noted.day);
    }
    return last;
}

bool may_live_in_a_tub(const Workday& day, const Animal& animal) {
    const auto verdict =
        safety::judge(day.setting().with, animal, {records::Method::fresh_tub, {}, day.today()}, {});
    return verdict.ruling == safety::Ruling::allowed;
}

}  // namespace

Tasks signs(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, animal] : day.collection().animals) {
        if (!animal.signs.empty()) add_signs_of(day, animal, tasks);
    }
    return tasks;
}

Tasks dry_tubs(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, animal] : day.collection().animals) {
        const auto reacted = reacted_on(day, animal);
        if (!reacted) continue;
        const statement::Names who = safety::named(animal);
        const std::string where = day.name_of(animal.enclosure);
        Task task = day.task(
            records::to_text(*reacted, TaskPart::dry_tub, id.text()), TaskKind::dry_tub, animal.enclosure,
            may_live_in_a_tub(day, animal) ? work::dry_tub(who, where) : work::dry_in_its_own(who, where));
        if (*reacted < day.today() && task.state != TaskState::open) continue;
        task.planned = *reacted;
        task.animals = {id};
        tasks.push_back(std::move(task));
    }
    return tasks;
}

Tasks deaths(const Workday& day) {
    Tasks tasks;
    const units::Days kept = units::at_least_days(day.tables().time("body_kept_for").value);
    for (const records::Death& death : day.collection().deaths) {
        const std::string& name = death.died.value.id.text();
        const statement::Names who = safety::named(death.died.value);
        const units::Day until = death.died.day + kept;
        Task body = day.task(records::to_text(death.died.day, TaskPart::death, name), TaskKind::vet, {},
                             work::body_kept(who, until));
        const bool is_over = body.state != TaskState::open && death.died.day < day.today();
        if (day.today() <= until && !is_over) tasks.push_back(std::move(body));
        const bool has_company = !safety::company_of(death, day.collection(), day.tables()).empty();
        if (has_company)
            tasks.push_back(note_of(day, TaskPart::death, name, work::company_waits(who, death.died.day)));
    }
    return tasks;
}

}  // namespace mitefall::worklist::rules
