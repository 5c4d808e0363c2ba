#include "worklist/workday.h"

#include <algorithm>

#include "plan/emptied.h"
#include "safety/handling.h"
#include "safety/methods.h"
#include "safety/wet_book.h"
#include "units/whole_days.h"
#include "worklist/watch.h"

namespace mitefall::worklist {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::TaskPart;
using units::Days;

Workday::Workday(const plan::Setting& setting)
    : setting_(setting),
      assignment_(assignment_on_record(setting.with.collection)),
      schedule_(plan::fit(assignment_, setting)),
      limits_(safety::wet_limits(setting.with.tables)) {
    note_dangers();
    note_due();
    ask_for_wettings();
}

void Workday::note_dangers() {
    const units::Day since =
        today() - Days(static_cast<int>(units::in_days(tables().time("look_back").value)));
    for (const auto& sighting : collection().sightings) {
        if (sighting.day >= since) danger_.sighted.insert(sighting.value.enclosure);
    }
    const auto& sighted = setting_.known.sighted;
    for (const auto& [id, place] : setting_.known.enclosures) {
        if (std::find(sighted.begin(), sighted.end(), place) != sighted.end()) danger_.sighted.insert(id);
    }
    danger_.exposed = setting_.exposed;
    for (const auto& [id, animal] : collection().animals) {
        if (animal.quarantine) danger_.quarantined.insert(animal.enclosure);
    }
    for (const auto& [id, thing] : collection().things) {
        if (!thing.gone && !thing.enclosure.empty()) with_things_.insert(thing.enclosure);
    }
    for (const auto& [id, room] : collection().rooms) turns_[id] = danger_.turn_of_room(collection(), id);
}

int Workday::turn_of_room(const records::RoomId& room) const {
    const auto found = turns_.find(room);
    return found == turns_.end() ? 0 : found->second;
}

void Workday::note_due() {
    for (const plan::Round& round : schedule_.rounds) {
        if (round.day != today()) continue;
        for (const plan::ScheduledTreatment& scheduled : round.treatments) {
            due_.push_back({&round, &scheduled});
            if (safety::is_ivermectin_spray(scheduled.treatment.method()))
                spray_is_due_.insert(scheduled.treatment.enclosure());
        }
    }
    for (const Due& one : due_) {
        const auto& treatment = one.scheduled->treatment;
        const auto& emptied = assignment_.choices.emptied_wood;
        if (treatment.method() == Method::fresh_tub && state_of(one.scheduled->key()) != TaskState::skipped &&
            plan::is_tub_for_wood(emptied, treatment.enclosure()))
            emptied_today_.insert(plan::wood_of(emptied, treatment.enclosure())->enclosure);
        if (safety::is_ivermectin_spray(treatment.method()) && !is_held(*one.scheduled) &&
            state_of(one.scheduled->key()) != TaskState::skipped)
            wet_today_.insert(treatment.enclosure());
    }
}

std::string Workday::key(TaskPart part, std::string_view name) const {
    return records::to_text(today(), part, name);
}

TaskState Workday::state_of(const std::string& key) const {
    if (collection().done.contains(key)) return TaskState::done;
    return collection().skipped.contains(key) ? TaskState::skipped : TaskState::open;
}

Task Workday::task(std::string key, TaskKind kind, const EnclosureId& enclosure,
                   statement::Statement what) const {
    Task task;
    task.state = state_of(key);
    if (task.state == TaskState::done) task.entry = collection().done.at(key).entry;
    if (task.state == TaskState::skipped) {
        const auto& skipped = collection().skipped.at(key);
        task.skipped_because = skipped.value.reason;
        task.entry = skipped.entry;
    }
    task.key = std::move(key);
    task.kind = kind;
    task.day = task.planned = today();
    task.enclosure = enclosure;
    if (!enclosure.empty()) {
        task.room = collection().enclosures.at(enclosure).room;
        task.danger = danger_.of(enclosure);
    }
    task.what = std::move(what);
    return task;
}

void Workday::put_in_room(Task& task, const records::RoomId& room) const {
    task.room = room;
    task.danger = danger_.of_room(collection(), room);
}

std::string Workday::name_of(const EnclosureId& id) const {
    const auto found = collection().enclosures.find(id);
    return found == collection().enclosures.end() || found->second.name.empty() ? id.text()
                                                                                : found->second.name;
}

statement::Names Workday::names_of(const std::vector<AnimalId>& animals) const {
    statement::Names names;
    for (const AnimalId& animal : animals)
        names.push_back({animal.text(), collection().animals.at(animal).name});
    return names;
}

safety::Inside Workday::inside(const EnclosureId& enclosure) const {
    const records::EmptiedWood* const wood = plan::wood_of(assignment_.choices.emptied_wood, enclosure);
    if (wood != nullptr && emptied_today_.contains(wood->enclosure)) {
        auto movers = safety::inside_of(collection(), setting_.with.survey, wood->enclosure);
        if (!movers.empty()) return enclosure == wood->tub ? movers : safety::Inside();
    }
    return safety::inside_of(collection(), setting_.with.survey, enclosure);
}

safety::Dish Workday::dish_of(const records::Enclosure& enclosure) const {
    return safety::dish_of(collection(), enclosure, inside(enclosure.id), limits_);
}

bool Workday::got_wet(const records::Enclosure& enclosure, std::optional<Method> by) const {
    return std::any_of(enclosure.treatments.begin(), enclosure.treatments.end(), [&](const auto& given) {
        return given.day == today() && safety::is_ivermectin_spray(given.value.method) &&
               given.value.method == by.value_or(given.value.method);
    });
}

bool Workday::takes_dish_out(const records::Enclosure& enclosure) const {
    const bool is_back = collection().done.contains(key(TaskPart::water_back, enclosure.id.text()));
    if (enclosure.water_is_out || is_back) return false;
    return spray_is_due_.contains(enclosure.id) || got_wet(enclosure);
}

bool Workday::is_held(const plan::ScheduledTreatment& scheduled) const {
    const auto& treatment = scheduled.treatment;
    if (!safety::is_ivermectin_spray(treatment.method()) || state_of(scheduled.key()) != TaskState::open)
        return false;
    return state_of(key(TaskPart::water_out, treatment.enclosure().text())) == TaskState::skipped &&
           takes_dish_out(collection().enclosures.at(treatment.enclosure()));
}

/// Paper sprayed before today that the course still wets: dish out, not for too long (safety/wet_book.h).
bool Workday::is_kept_damp(const records::Enclosure& enclosure) const {
    return !got_wet(enclosure, Method::spray_bedding) && enclosure.water_is_out &&
           safety::damp_until(collection(), enclosure, inside(enclosure.id), limits_) > today();
}

/// An enclosure is kept damp only while its bedding spray stays permitted.
void Workday::ask_for_wettings() {
    if (!has_course() || !assignment_.choices.keep_damp) return;
    std::set<EnclosureId> sprayed_anew;
    for (const Due& one : due()) {
        const auto& treatment = one.scheduled->treatment;
        if (treatment.method() == Method::spray_bedding && !is_held(*one.scheduled))
            sprayed_anew.insert(treatment.enclosure());
    }
    for (const EnclosureId& id : assignment_.enclosures) {
        if (sprayed_anew.contains(id) || !is_kept_damp(collection().enclosures.at(id))) continue;
        wettings_.emplace(id,
                          safety::permit_enclosure(setting_.with, id,
                                                   {Method::spray_bedding, setting_.strength, today()}, {}));
    }
}

const safety::Permit* Workday::wetting_again(const EnclosureId& enclosure) const {
    const auto found = wettings_.find(enclosure);
    return found == wettings_.end() ? nullptr : &found->second;
}

bool Workday::stays_wet(const records::Enclosure& enclosure) const {
    const safety::Permit* const again = wetting_again(enclosure.id);
    const bool is_wetted_again = again != nullptr && again->has_value() &&
                                 state_of(key(TaskPart::redampen, enclosure.id.text())) != TaskState::skipped;
    return got_wet(enclosure) || is_wetted_again || wet_today_.contains(enclosure.id);
}

bool Workday::puts_dish_back(const records::Enclosure& enclosure) const {
    return enclosure.water_is_out &&
           (safety::is_due(dish_of(enclosure), today(), limits_) || !stays_wet(enclosure));
}

bool Workday::is_without_dish(const records::Enclosure& enclosure) const {
    const auto is_done = [&](TaskPart part) {
        return state_of(key(part, enclosure.id.text())) != TaskState::skipped;
    };
    const bool is_out = enclosure.water_is_out || (takes_dish_out(enclosure) && is_done(TaskPart::water_out));
    return is_out && !(puts_dish_back(enclosure) && is_done(TaskPart::water_back));
}

units::Day Workday::end_of_watch() const { return last_treatment() + watch(tables()); }

/// Done or still to be done.
units::Day Workday::last_treatment() const {
    units::Day last = assignment_.rounds.back();
    for (const plan::Round& round : schedule_.rounds) {
        if (!round.treatments.empty()) last = std::max(last, round.day);
    }
    for (const plan::DampSpell& spell : schedule_.damp) last = std::max(last, spell.last);
    for (const EnclosureId& id : assignment_.enclosures) {
        for (const auto& given : collection().enclosures.at(id).treatments) last = std::max(last, given.day);
    }
    for (const auto& [task, done] : collection().done) {
        const auto parts = records::read_task_key(task);
        if (parts && records::row_of(parts->part).treats) last = std::max(last, done.day);
    }
    return last;
}

records::CheckMethod check_method(const Workday& day, const EnclosureId& enclosure) {
    return safety::is_venomous_inside(day.setting().with, enclosure) ? records::CheckMethod::paper_trap
                                                                     : records::CheckMethod::look_over;
}

void set_strength(Task& task, Method method, units::Strength strength) {
    task.strength = strength;
    if (strength > units::Strength{}) task.agent = safety::name_of(safety::agent_of(method));
}

}  // namespace mitefall::worklist
