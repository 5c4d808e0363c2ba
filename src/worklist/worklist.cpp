#include "worklist/worklist.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "mixing/dose.h"
#include "records/task_key.h"
#include "safety/cautions.h"
#include "safety/handling.h"
#include "safety/methods.h"
#include "safety/shed.h"
#include "safety/wet_book.h"
#include "worklist/watch.h"
#include "worklist/wording.h"

namespace mitefall::worklist {
namespace {

using records::AnimalId;
using records::Collection;
using records::EnclosureId;
using records::Method;
using units::Day;
using units::Days;

Days days_of(const plan::Setting& setting, evidence::TimeKey key) {
    return Days(static_cast<int>(units::in_days(setting.with.tables.time(key).value)));
}

std::string name_of(const Collection& collection, const EnclosureId& id) {
    const auto found = collection.enclosures.find(id);
    return found == collection.enclosures.end() || found->second.name.empty() ? id.text()
                                                                              : found->second.name;
}

std::string names_of(const Collection& collection, const std::vector<AnimalId>& animals) {
    std::string names;
    for (const AnimalId& animal : animals)
        names += (names.empty() ? "" : ", ") + collection.animals.at(animal).name;
    return names;
}

class Writer {
  public:
    explicit Writer(const plan::Setting& setting)
        : setting_(setting),
          collection_(setting.with.collection),
          assignment_(assignment_on_record(collection_)),
          schedule_(plan::fit(assignment_, setting)) {
        const Day since = setting.today - days_of(setting, "look_back");
        for (const auto& sighting : collection_.sightings) {
            if (sighting.day >= since) danger_.sighted.insert(sighting.value.enclosure);
        }
        for (const auto& [id, place] : setting.known.enclosures) {
            const auto& sighted = setting.known.sighted;
            if (std::find(sighted.begin(), sighted.end(), place) != sighted.end()) danger_.sighted.insert(id);
        }
        danger_.exposed = setting.exposed;
        for (const auto& [id, animal] : collection_.animals) {
            if (animal.quarantine) danger_.quarantined.insert(animal.enclosure);
        }
        list_.day = setting.today;
    }

    Worklist write() {
        add_treatments();
        add_water_out();
        hold_sprays();
        if (has_course()) {
            add_redampening();
            add_checks();
        }
        add_water_back();
        add_drinks();
        add_settled();
        warn_of_handling();
        sort();
        add_mix();
        add_hygiene();
        collect_cautions();
        list_.next_day = next_day();
        ask_for_sheds();
        return std::move(list_);
    }

  private:
    [[nodiscard]] Day today() const { return setting_.today; }
    [[nodiscard]] bool has_course() const { return !assignment_.rounds.empty(); }
    [[nodiscard]] std::string key(std::string_view part, const std::string& name) const {
        return records::to_text(today(), part, name);
    }

    Task& add(std::string task_key, TaskKind kind, const EnclosureId& enclosure, std::string text) {
        Task task;
        task.key = std::move(task_key);
        task.kind = kind;
        task.day = task.planned = today();
        task.enclosure = enclosure;
        if (!enclosure.empty()) {
            task.room = collection_.enclosures.at(enclosure).room;
            task.danger = danger_.of(enclosure);
        }
        task.text = std::move(text);
        note_state(task);
        list_.tasks.push_back(std::move(task));
        return list_.tasks.back();
    }

    void note_state(Task& task) const {
        const auto done = collection_.done.find(task.key);
        const auto skipped = collection_.skipped.find(task.key);
        if (done != collection_.done.end()) {
            task.state = TaskState::done;
            task.entry = done->second.entry;
        } else if (skipped != collection_.skipped.end()) {
            task.state = TaskState::skipped;
            task.skipped_because = skipped->second.value.reason;
            task.entry = skipped->second.entry;
        }
    }

    /// Of those that are treated or at risk: what waits for a shed waits no longer than it must.
    void ask_for_sheds() {
        std::set<EnclosureId> asked(assignment_.enclosures.begin(), assignment_.enclosures.end());
        asked.insert(danger_.sighted.begin(), danger_.sighted.end());
        asked.insert(danger_.exposed.begin(), danger_.exposed.end());
        for (const auto& [id, animal] : collection_.animals) {
            const auto awaited = safety::shed_awaited(animal, today(), setting_.with.tables);
            if (!awaited || !awaited->ask_from || !asked.contains(animal.enclosure)) continue;
            if (*awaited->ask_from <= today())
                list_.questions.push_back({id, animal.enclosure, awaited->since});
        }
    }

    void add_treatments() {
        for (const plan::Round& round : schedule_.rounds) {
            if (round.day != today()) continue;
            for (const plan::ScheduledTreatment& scheduled : round.treatments)
                add_treatment(round, scheduled);
        }
        for (const plan::LeftOut& left_out : schedule_.left_out) {
            if (left_out.day == today())
                list_.passed_over.push_back(
                    {left_out.enclosure, left_out.animal, left_out.method, left_out.why});
        }
    }

    void add_treatment(const plan::Round& round, const plan::ScheduledTreatment& scheduled) {
        const safety::PermittedTreatment& treatment = scheduled.treatment;
        const std::string who = names_of(collection_, treatment.animals());
        const bool is_room = treatment.enclosure().empty();
        const std::string where = is_room ? collection_.rooms.at(treatment.room()).name
                                          : name_of(collection_, treatment.enclosure());
        Task& task = add(scheduled.key, TaskKind::treat, treatment.enclosure(),
                         sentence(treatment.method(), who, where));
        task.planned = round.planned;
        task.animals = treatment.animals();
        set_strength(task, treatment.method(), treatment.strength());
        task.cautions = treatment.cautions();
        task.treatment = treatment;
        if (is_room) set_room(task, treatment.room());
        task.amount = amount_for(treatment);
    }

    static void set_strength(Task& task, Method method, units::Strength strength) {
        task.strength = strength;
        if (strength > units::Strength{}) task.agent = safety::name_of(safety::agent_of(method));
    }

    void set_room(Task& task, const records::RoomId& room) const {
        task.room = room;
        task.danger = danger_.of_room(collection_, room);
    }

    /// The dish comes out before the spray, in whichever order the two are ticked. One that has only just
    /// been put back stays in for the day: nobody goes from one spell without water straight into the next.
    void add_water_out() {
        for (const auto& [id, enclosure] : collection_.enclosures) {
            const bool is_back = collection_.done.contains(key("water-back", id.text()));
            if (enclosure.water_is_out || is_back) continue;
            if (!gets_wet(id) && !got_wet_today(enclosure)) continue;
            add(key("water-out", id.text()), TaskKind::water_out, id,
                fmt::format("Take the water dish out of {}", name_of(collection_, id)));
        }
    }

    /// Where the dish was left in, nothing is sprayed: an animal drinks from it.
    void hold_sprays() {
        std::set<EnclosureId> dish_left_in;
        for (const Task& task : list_.tasks) {
            if (task.kind == TaskKind::water_out && task.state == TaskState::skipped)
                dish_left_in.insert(task.enclosure);
        }
        const auto is_held = [&](const Task& task) {
            return task.state == TaskState::open && is_spray(task) && dish_left_in.contains(task.enclosure);
        };
        for (const Task& task : list_.tasks) {
            if (!is_held(task)) continue;
            list_.passed_over.push_back(
                {task.enclosure, task.animals.empty() ? AnimalId() : task.animals.front(),
                 task.treatment->method(),
                 safety::reason_of(safety::says::dish_still_in(), setting_.with.tables, {})});
        }
        std::erase_if(list_.tasks, is_held);
    }

    [[nodiscard]] static bool is_spray(const Task& task) {
        return task.treatment && safety::is_ivermectin_spray(task.treatment->method());
    }

    /// The paper or an animal in it is to be sprayed.
    [[nodiscard]] bool gets_wet(const EnclosureId& enclosure) const {
        return std::any_of(list_.tasks.begin(), list_.tasks.end(),
                           [&](const Task& task) { return task.enclosure == enclosure && is_spray(task); });
    }

    [[nodiscard]] bool got_wet_today(const records::Enclosure& enclosure,
                                     std::optional<Method> by = std::nullopt) const {
        return std::any_of(enclosure.treatments.begin(), enclosure.treatments.end(), [&](const auto& given) {
            return given.day == today() && safety::is_ivermectin_spray(given.value.method) &&
                   given.value.method == by.value_or(given.value.method);
        });
    }

    [[nodiscard]] std::optional<units::Volume> amount_for(const safety::PermittedTreatment& treatment) const {
        if (treatment.method() == Method::spray_bedding) {
            return setting_.with.tables.spray("spray_per_area").value *
                   collection_.enclosures.at(treatment.enclosure()).floor;
        }
        if (treatment.method() != Method::spray_animal) return std::nullopt;
        units::Volume total;
        for (const AnimalId& animal : treatment.animals()) {
            const auto mist =
                mixing::mist_volume(collection_.animals.at(animal).weight->value, setting_.with.tables);
            if (mist) total += mist->likely;
        }
        return total;
    }

    /// Tasks of today's list that are done or skipped already, so that they do not vanish when ticked.
    void add_settled() {
        const std::string prefix = units::format_day(today()) + "/";
        const auto show = [&](const std::string& task_key, Day recorded) {
            const bool listed = std::any_of(list_.tasks.begin(), list_.tasks.end(),
                                            [&](const Task& t) { return t.key == task_key; });
            if (listed || (recorded != today() && !task_key.starts_with(prefix))) return;
            add_settled_task(task_key);
        };
        for (const auto& [task_key, done] : collection_.done) show(task_key, done.day);
        for (const auto& [task_key, skipped] : collection_.skipped) show(task_key, skipped.day);
    }

    void add_settled_task(const std::string& task_key) {
        const auto parts = records::read_task_key(task_key);
        if (!parts || kind_of_part(parts->part) == TaskKind::mix) return;  // the mix is always written anew
        EnclosureId enclosure(parts->name);
        const auto animal = collection_.animals.find(AnimalId(parts->name));
        const bool is_animal = parts->part == "animal" && animal != collection_.animals.end();
        if (is_animal) enclosure = animal->second.enclosure;
        if (!collection_.enclosures.contains(enclosure)) enclosure = EnclosureId();
        Task& task = add(task_key, kind_of_part(parts->part), enclosure, settled_text(*parts));
        task.planned = parts->day;
        if (is_animal) task.animals = {animal->first};
        const records::RoomId room(parts->name);
        if (parts->part == "room" && collection_.rooms.contains(room)) set_room(task, room);
        if (task.kind == TaskKind::check && !enclosure.empty()) task.text = check_text(enclosure);
        if (task.kind == TaskKind::water_back && !enclosure.empty()) note_dish_too_late(task);
    }

    void note_dish_too_late(Task& task) const {
        const safety::Dish dish = dish_of(collection_.enclosures.at(task.enclosure));
        task.overdue = safety::was_overdue(dish, today(), limits_);
        if (task.overdue) task.planned = dish.last->out + limits_.dish_out;
    }

    [[nodiscard]] safety::Inside inside(const EnclosureId& enclosure) const {
        return safety::inside_of(collection_, setting_.with.survey, enclosure);
    }
    [[nodiscard]] safety::Dish dish_of(const records::Enclosure& enclosure) const {
        return safety::dish_of(collection_, enclosure, inside(enclosure.id), limits_);
    }

    /// With which method an animal was treated its key does not say.
    [[nodiscard]] std::string settled_text(const records::TaskKey& parts) const {
        const std::string place = name_of(collection_, EnclosureId(parts.name));
        if (parts.part == "bedding") return sentence(Method::spray_bedding, {}, place);
        if (parts.part == "substrate") return sentence(Method::change_substrate, {}, place);
        if (parts.part == "water-out") return fmt::format("Take the water dish out of {}", place);
        if (parts.part == "water-back") return fmt::format("Put the water dish back into {}", place);
        if (parts.part == "redampen") return fmt::format("Wet the paper of {} again", place);
        if (parts.part == "drink") return fmt::format("Offer a drink outside {}", place);
        if (parts.part == "check") return fmt::format("Look for mites in {}", place);
        const auto room = collection_.rooms.find(records::RoomId(parts.name));
        if (parts.part == "room" && room != collection_.rooms.end())
            return sentence(Method::treat_room, {}, room->second.name);
        const auto animal = collection_.animals.find(AnimalId(parts.name));
        return fmt::format("Treat {}",
                           animal == collection_.animals.end() ? parts.name : animal->second.name);
    }

    static TaskKind kind_of_part(std::string_view part) {
        for (const TaskKind kind : {TaskKind::mix, TaskKind::water_out, TaskKind::drink, TaskKind::redampen,
                                    TaskKind::water_back, TaskKind::check}) {
            if (to_text(kind) == part) return kind;
        }
        return TaskKind::treat;
    }

    /// On the last day it may be out whatever the paper is like, before that as soon as nothing is wetted.
    void add_water_back() {
        for (const auto& [id, enclosure] : collection_.enclosures) {
            if (!enclosure.water_is_out) continue;
            const safety::Dish dish = dish_of(enclosure);
            const bool is_due = safety::is_due(dish, today(), limits_);
            if (!is_due && stays_wet(enclosure)) continue;
            const std::string place = name_of(collection_, id);
            Task& task = add(
                key("water-back", id.text()), TaskKind::water_back, id,
                is_due
                    ? fmt::format("Put the water dish back into {}, fresh water, dry paper where it is still "
                                  "wet; look for loose skin folds",
                                  place)
                    : fmt::format(
                          "Put the water dish back into {} once its paper feels dry, fresh water; look "
                          "for loose skin folds",
                          place));
            task.overdue = safety::is_overdue(dish, today(), limits_);
            if (task.overdue) task.planned = safety::back_by(dish, limits_).value_or(task.planned);
        }
    }

    /// Sprayed or wetted today, done or to be done.
    [[nodiscard]] bool stays_wet(const records::Enclosure& enclosure) const {
        const auto wets = [&](const Task& task) {
            const bool is_wetting = task.kind == TaskKind::redampen || is_spray(task);
            return is_wetting && task.enclosure == enclosure.id && task.state != TaskState::skipped;
        };
        return got_wet_today(enclosure) || std::any_of(list_.tasks.begin(), list_.tasks.end(), wets);
    }

    [[nodiscard]] bool has_task(TaskKind kind, const EnclosureId& enclosure) const {
        return std::any_of(list_.tasks.begin(), list_.tasks.end(), [&](const Task& task) {
            return task.kind == kind && task.enclosure == enclosure && task.state != TaskState::skipped;
        });
    }

    /// Where the dish is out, or comes out, for the day.
    [[nodiscard]] bool is_without_dish(const records::Enclosure& enclosure) const {
        const bool is_out = enclosure.water_is_out || has_task(TaskKind::water_out, enclosure.id);
        return is_out && !has_task(TaskKind::water_back, enclosure.id);
    }

    void add_drinks() {
        for (const auto& [id, animals] : setting_.with.survey.inside) {
            const auto enclosure = collection_.enclosures.find(id);
            if (enclosure == collection_.enclosures.end() || !is_without_dish(enclosure->second)) continue;
            Task& task = add(key("drink", id.text()), TaskKind::drink, id, drink_text(id, animals));
            task.animals = animals;
        }
    }

    [[nodiscard]] std::string drink_text(const EnclosureId& id, const std::vector<AnimalId>& animals) const {
        const bool by_hand = std::none_of(animals.begin(), animals.end(), [&](const AnimalId& animal) {
            return safety::may_be_venomous(setting_.with.survey.taxa.at(animal));
        });
        return fmt::format(
            "Offer a drink outside {} to {}, {}: shallow lukewarm water, watched; back when dry",
            name_of(collection_, id), names_of(collection_, animals),
            by_hand ? "in a clean box" : "in its locked shift box");
    }

    [[nodiscard]] bool is_to_be_sprayed(const EnclosureId& enclosure) const {
        return std::any_of(list_.tasks.begin(), list_.tasks.end(), [&](const Task& task) {
            return task.enclosure == enclosure && task.treatment &&
                   task.treatment->method() == Method::spray_bedding;
        });
    }

    /// Paper sprayed before today that the course still wets: dish out, not for too long (safety/wet_book.h).
    [[nodiscard]] bool is_kept_damp(const records::Enclosure& enclosure) const {
        return !got_wet_today(enclosure, Method::spray_bedding) && enclosure.water_is_out &&
               safety::damp_until(collection_, enclosure, inside(enclosure.id), limits_) > today();
    }

    /// An enclosure is kept damp only while its bedding spray stays permitted, which is asked anew each day.
    void add_redampening() {
        if (!assignment_.choices.keep_damp) return;
        for (const EnclosureId& id : assignment_.enclosures) {
            if (is_to_be_sprayed(id) || !is_kept_damp(collection_.enclosures.at(id))) continue;
            auto permit = safety::permit_enclosure(setting_.with, id,
                                                   {Method::spray_bedding, setting_.strength, today()}, {});
            if (!permit) {
                list_.passed_over.push_back({id, {}, Method::spray_bedding, permit.error().reason});
                continue;
            }
            Task& task =
                add(key("redampen", id.text()), TaskKind::redampen, id,
                    fmt::format("Wet the paper of {} again where it has dried", name_of(collection_, id)));
            task.amount =
                setting_.with.tables.spray("redampen_per_area").value * collection_.enclosures.at(id).floor;
            set_strength(task, Method::spray_bedding, permit->strength());
            task.cautions = permit->cautions();
        }
    }

    [[nodiscard]] Day end_of_watch() const { return last_treatment() + watch(setting_.with.tables); }

    static bool is_treatment(std::string_view part) {
        return part == "redampen" || part == "substrate" || part == "room" || part == "bedding" ||
               part == "animal";
    }

    /// Done or still to be done.
    [[nodiscard]] Day last_treatment() const {
        Day last = assignment_.rounds.back();
        for (const plan::Round& round : schedule_.rounds) {
            if (!round.treatments.empty()) last = std::max(last, round.day);
        }
        for (const plan::DampSpell& spell : schedule_.damp) last = std::max(last, spell.last);
        for (const EnclosureId& id : assignment_.enclosures) {
            for (const auto& given : collection_.enclosures.at(id).treatments)
                last = std::max(last, given.day);
        }
        for (const auto& [task, done] : collection_.done) {
            const auto parts = records::read_task_key(task);
            if (parts && is_treatment(parts->part)) last = std::max(last, done.day);
        }
        return last;
    }

    /// A check of every treated or exposed enclosure each week from the first round to the end of the watch.
    /// One that was missed stays on the list until the next.
    void add_checks() {
        const Day first = assignment_.rounds.front();
        const auto weeks = (today() - first).count() / check_interval;
        const Day planned = first + Days(weeks * check_interval);
        if (planned <= first || planned > end_of_watch()) return;
        for (const EnclosureId& id : watched_on(planned)) {
            const std::string task_key = records::to_text(planned, "check", id.text());
            if (planned < today() && is_looked_at(id, planned, task_key)) continue;
            Task& task = add(task_key, TaskKind::check, id, check_text(id));
            task.planned = planned;
            task.check = check_method(id);
        }
    }

    /// Whom a later sighting first brought near mites was not to be looked at before it.
    [[nodiscard]] std::set<EnclosureId> watched_on(Day planned) const {
        std::set<EnclosureId> watched(assignment_.enclosures.begin(), assignment_.enclosures.end());
        const bool is_news = std::any_of(collection_.sightings.begin(), collection_.sightings.end(),
                                         [&](const auto& sighting) { return sighting.day > planned; });
        if (planned == today() || !is_news) watched.insert(setting_.exposed.begin(), setting_.exposed.end());
        return watched;
    }

    [[nodiscard]] bool is_looked_at(const EnclosureId& id, Day since, const std::string& task_key) const {
        const auto& looked_at = collection_.enclosures.at(id).looked_at;
        return (looked_at && *looked_at >= since) || assignment_.settled.contains(task_key);
    }

    /// Nobody takes a venomous snake in hand to look for mites.
    [[nodiscard]] records::CheckMethod check_method(const EnclosureId& id) const {
        return safety::is_venomous_inside(setting_.with, id) ? records::CheckMethod::paper_trap
                                                             : records::CheckMethod::look_over;
    }

    [[nodiscard]] std::string check_text(const EnclosureId& id) const {
        const std::string place = name_of(collection_, id);
        if (check_method(id) == records::CheckMethod::paper_trap)
            return fmt::format("Look for mites in {} by a paper trap or through the glass, nothing by hand",
                               place);
        return fmt::format(
            "Look for mites in {}: chin, eyes, heat pits, vent, under the belly scales, water dish", place);
    }

    /// Whatever the task is: dish, bedding, substrate, wetting, check.
    void warn_of_handling() {
        for (Task& task : list_.tasks) {
            if (task.enclosure.empty()) continue;
            auto cautions = safety::handling_cautions(setting_.with, task.enclosure);
            std::erase_if(task.cautions, [&](const safety::Caution& known) {
                return std::any_of(cautions.begin(), cautions.end(),
                                   [&](const safety::Caution& one) { return one.what == known.what; });
            });
            task.cautions.insert(task.cautions.begin(), cautions.begin(), cautions.end());
        }
    }

    void sort() {
        std::map<records::RoomId, int> rooms;
        for (const auto& [id, room] : collection_.rooms) rooms[id] = danger_.turn_of_room(collection_, id);
        const auto order = [&](const Task& task) {
            const bool whole_room = task.enclosure.empty();
            return std::tuple(!task.overdue, rooms[task.room], task.room, whole_room,
                              danger_.turn_of(task.enclosure), task.enclosure, step_of(task), part_of(task));
        };
        std::stable_sort(list_.tasks.begin(), list_.tasks.end(),
                         [&](const Task& a, const Task& b) { return order(a) < order(b); });
    }

    static int step_of(const Task& task) {
        switch (task.kind) {
            case TaskKind::hygiene:
            case TaskKind::mix: return 0;
            case TaskKind::check: return 1;
            case TaskKind::water_out: return 2;
            case TaskKind::drink: return 3;
            case TaskKind::treat: return 4;
            case TaskKind::redampen: return 5;
            case TaskKind::water_back: return 6;
        }
        return 0;
    }

    /// Animals first, then the paper out, then the spray, ticked or not.
    static int part_of(const Task& task) {
        const auto parts = records::read_task_key(task.key);
        if (task.kind != TaskKind::treat || !parts || parts->part == "animal") return 0;
        return parts->part == "substrate" ? 1 : 2;
    }

    void add_mix() {
        units::Volume volume;
        units::Strength strength;
        for (const Task& task : list_.tasks) {
            if (!task.amount || task.state != TaskState::open) continue;
            volume += *task.amount;
            strength = task.strength;
        }
        const std::string mix = key("mix", "spray");
        const bool is_needed = volume > units::Volume{};
        if (!is_needed && !collection_.done.contains(mix) && !collection_.skipped.contains(mix)) return;
        Task& task =
            add(mix, TaskKind::mix, {},
                "Mix today's spray, or use the batch in hand if it is in date; shake before every use");
        if (is_needed)
            task.amount = volume * (1 + units::as_fraction(setting_.with.tables.part("spare").value));
        set_strength(task, Method::spray_bedding, strength);
        task.cautions = safety::cautions_for(Method::spray_bedding, setting_.with.tables);
        const auto first = std::find_if(list_.tasks.begin(), list_.tasks.end(),
                                        [](const Task& one) { return !one.overdue; });
        std::rotate(first, std::prev(list_.tasks.end()), list_.tasks.end());
    }

    /// What gloves may touch without being changed: a room and a risk; above the least risk one enclosure.
    struct Gloves {
        records::RoomId room;
        Danger danger;
        EnclosureId enclosure;
        friend bool operator==(const Gloves&, const Gloves&) = default;
    };
    [[nodiscard]] Gloves gloves_for(const Task& task) const {
        const bool is_risky =
            danger_.turn_of_room(collection_, task.room) > 0 &&
            (task.danger != Danger::healthy || danger_.quarantined.contains(task.enclosure));
        return {task.room, task.danger, is_risky ? task.enclosure : EnclosureId()};
    }

    /// Between risks, and after the last infested or quarantine room.
    void add_hygiene() {
        std::vector<Task> with_notes;
        std::optional<Gloves> last;
        int number = 0;
        for (Task& task : list_.tasks) {
            const Gloves gloves = gloves_for(task);
            if (task.kind != TaskKind::mix && last && *last != gloves)
                with_notes.push_back(
                    hygiene_note(++number, goes_back(last->room, task.room)
                                               ? clothes_note
                                               : "Change gloves, wash hands; tools stay in their room"));
            if (task.kind != TaskKind::mix) last = gloves;
            with_notes.push_back(std::move(task));
        }
        if (last && danger_.turn_of_room(collection_, last->room) >= DangerMap::first_shut_off) {
            with_notes.push_back(hygiene_note(++number, clothes_note));
        }
        list_.tasks = std::move(with_notes);
    }

    static constexpr const char* clothes_note =
        "Take off gloves, wash hands and arms, change clothes and wash them hot";

    /// From a room with mites or in quarantine to one without: for a dish that could not wait its turn.
    [[nodiscard]] bool goes_back(const records::RoomId& from, const records::RoomId& to) const {
        return danger_.turn_of_room(collection_, from) >= DangerMap::first_shut_off &&
               danger_.turn_of_room(collection_, to) < DangerMap::first_shut_off;
    }

    [[nodiscard]] Task hygiene_note(int number, std::string text) const {
        Task task;
        task.kind = TaskKind::hygiene;
        task.key = key("hygiene", std::to_string(number));
        task.day = task.planned = today();
        task.text = std::move(text);
        return task;
    }

    void collect_cautions() {
        std::set<std::string> seen;
        for (const Task& task : list_.tasks) {
            for (const safety::Caution& caution : task.cautions) {
                if (seen.insert(statement::key_of(caution.what)).second) list_.cautions.push_back(caution);
            }
        }
    }

    [[nodiscard]] std::optional<Day> next_day() const {
        std::set<Day> days;
        if (has_course()) add_course_days(days);
        const bool is_dish_out =
            std::any_of(collection_.enclosures.begin(), collection_.enclosures.end(), [&](const auto& one) {
                return one.second.water_is_out || has_task(TaskKind::water_out, one.first);
            });
        if (is_dish_out) days.insert(today() + Days(1));  // a drink, or the dish back
        const auto next = days.upper_bound(today());
        return next == days.end() ? std::nullopt : std::optional(*next);
    }

    void add_course_days(std::set<Day>& days) const {
        days.insert(assignment_.rounds.begin(), assignment_.rounds.end());
        for (const plan::Round& round : schedule_.rounds) {
            if (!round.treatments.empty()) days.insert(round.day);
        }
        const Day first = assignment_.rounds.front();
        const Day end = end_of_watch();
        const auto weeks = std::max<Days::rep>(0, (today() - first).count()) / check_interval + 1;
        const Day check = first + Days(weeks * check_interval);
        if (check <= end) days.insert(check);
    }

    static constexpr int check_interval = 7;  // days; common practice, a look a week

    const plan::Setting& setting_;
    const Collection& collection_;
    plan::Assignment assignment_;
    plan::Schedule schedule_;
    safety::WetLimits limits_ = safety::wet_limits(setting_.with.tables);
    DangerMap danger_;
    Worklist list_;
};

}  // namespace

std::string_view to_text(TaskKind kind) {
    switch (kind) {
        case TaskKind::hygiene: return "hygiene";
        case TaskKind::mix: return "mix";
        case TaskKind::water_out: return "water-out";
        case TaskKind::drink: return "drink";
        case TaskKind::treat: return "treat";
        case TaskKind::redampen: return "redampen";
        case TaskKind::water_back: return "water-back";
        case TaskKind::check: return "check";
    }
    return {};
}

std::string_view to_text(TaskState state) {
    switch (state) {
        case TaskState::open: return "open";
        case TaskState::done: return "done";
        case TaskState::skipped: return "skipped";
    }
    return {};
}

std::string_view to_text(Danger danger) {
    switch (danger) {
        case Danger::healthy: return "healthy";
        case Danger::exposed: return "exposed";
        case Danger::sighted: return "sighted";
    }
    return {};
}

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

Worklist make_worklist(const plan::Setting& setting) { return Writer(setting).write(); }

std::vector<records::Fact> facts_of(const Task& task, const std::optional<CheckAnswer>& answer) {
    switch (task.kind) {
        case TaskKind::hygiene:
        case TaskKind::mix:
        case TaskKind::drink:
        case TaskKind::redampen: return {};  // keeps a spraying going, is not another one
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
    const bool on_animals = task.treatment->method() != Method::spray_bedding;
    return {records::Treated{task.enclosure, on_animals ? task.animals : std::vector<AnimalId>{},
                             task.treatment->method(), task.strength}};
}

}  // namespace mitefall::worklist
