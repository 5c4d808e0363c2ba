#include "plan/schedule.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "forecast/actions.h"
#include "mixing/course.h"
#include "mixing/dose.h"

namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using safety::Request;
using units::Day;
using units::Days;

std::set<EnclosureId> sighted_enclosures(const Setting& setting) {
    std::set<EnclosureId> sighted;
    for (const auto& [id, place] : setting.known.enclosures) {
        for (const forecast::Sighting& sighting : setting.known.start) {
            if (sighting.seen_at == place) sighted.insert(id);
        }
    }
    return sighted;
}

Days damp_days(const Setting& setting) {
    return Days(static_cast<int>(units::in_days(setting.with.tables.time("damp_days").value)));
}

class Fitter {
  public:
    Fitter(const Assignment& assignment, const Setting& setting)
        : assignment_(assignment), setting_(setting) {
        schedule_.assignment = assignment;
    }

    Schedule fit() {
        for (std::size_t i = 0; i < assignment_.rounds.size(); ++i) {
            const bool overtaken =
                i + 1 < assignment_.rounds.size() && assignment_.rounds[i + 1] <= setting_.today;
            if (overtaken) continue;
            const Day planned = assignment_.rounds[i];
            schedule_.rounds.push_back({planned, std::max(planned, setting_.today), {}});
            for (const EnclosureId& enclosure : assignment_.enclosures) treat_enclosure(enclosure);
            for (const records::RoomId& room : assignment_.rooms) treat_room(room);
        }
        count_burden();
        return std::move(schedule_);
    }

  private:
    [[nodiscard]] Day today() const { return schedule_.rounds.back().day; }
    [[nodiscard]] std::string key(std::string_view part, const std::string& name) const {
        return fmt::format("{}/{}/{}", units::format_day(schedule_.rounds.back().planned), part, name);
    }
    [[nodiscard]] bool is_settled(const std::string& task) const {
        return assignment_.settled.contains(task);
    }
    void add(std::string task, safety::PermittedTreatment treatment) {
        schedule_.rounds.back().treatments.push_back({std::move(task), std::move(treatment)});
    }

    void leave_out(const EnclosureId& enclosure, const AnimalId& animal, Method method,
                   const base::Error& why) {
        schedule_.left_out.push_back({today(), enclosure, animal, method, reason_of(why)});
    }

    /// The animal of a room that does not permit its treatment, where the refusal names one.
    [[nodiscard]] AnimalId blamed(const base::Error& refusal) const {
        const AnimalId animal(refusal.where);
        return setting_.with.collection.animals.contains(animal) ? animal : AnimalId();
    }

    void treat_room(const records::RoomId& room) {
        const std::string task = key("room", room.text());
        if (is_settled(task)) return;
        const units::Strength permethrin = setting_.with.tables.strength("permethrin_strength").value;
        auto permit = safety::permit_room(setting_.with, room, {Method::treat_room, permethrin, today()},
                                          course_so_far_);
        if (permit)
            add(task, std::move(*permit));
        else
            leave_out({}, blamed(permit.error()), Method::treat_room, permit.error());
    }

    void treat_enclosure(const EnclosureId& enclosure) {
        for (const AnimalId& animal : animals_in(enclosure)) treat_animal(enclosure, animal);
        if (assignment_.change_substrate) change_substrate(enclosure);
        spray_bedding(enclosure);
    }

    void change_substrate(const EnclosureId& enclosure) {
        const std::string task = key("substrate", enclosure.text());
        if (is_settled(task)) return;
        auto permit = safety::permit_enclosure(setting_.with, enclosure,
                                               {Method::change_substrate, {}, today()}, course_so_far_);
        if (permit)
            add(task, std::move(*permit));
        else
            leave_out(enclosure, {}, Method::change_substrate, permit.error());
    }

    [[nodiscard]] std::vector<AnimalId> animals_in(const EnclosureId& enclosure) const {
        const auto found = setting_.with.survey.inside.find(enclosure);
        return found == setting_.with.survey.inside.end() ? std::vector<AnimalId>{} : found->second;
    }

    void spray_bedding(const EnclosureId& enclosure) {
        const std::string task = key("bedding", enclosure.text());
        if (is_settled(task)) return;
        auto permit = safety::permit_enclosure(
            setting_.with, enclosure, {Method::spray_bedding, setting_.strength, today()}, course_so_far_);
        if (!permit) return leave_out(enclosure, {}, Method::spray_bedding, permit.error());
        for (const AnimalId& animal : animals_in(enclosure))
            course_so_far_[animal].push_back({Method::spray_bedding, today()});
        add(task, std::move(*permit));
    }

    void treat_animal(const EnclosureId& enclosure, const AnimalId& animal) {
        const std::string task = key("animal", animal.text());
        if (is_settled(task)) return;
        for (const Method method : {Method::spray_animal, Method::soak, Method::wipe}) {
            const units::Strength strength =
                method == Method::spray_animal ? setting_.strength : units::Strength{};
            auto permit = safety::permit(setting_.with, animal, {method, strength, today()}, course_so_far_);
            if (permit) {
                course_so_far_[animal].push_back({method, today()});
                return add(task, std::move(*permit));
            }
            leave_out(enclosure, animal, method, permit.error());
        }
    }

    void count_burden() {
        std::map<AnimalId, int> sprayed;
        for (const Round& round : schedule_.rounds) {
            for (const ScheduledTreatment& scheduled : round.treatments) count(scheduled.treatment, sprayed);
        }
        for (const auto& [animal, times] : sprayed) {
            schedule_.burden.most_on_one_animal = std::max(schedule_.burden.most_on_one_animal, times);
        }
        for (const DampSpell& spell : damp_spells(schedule_, setting_)) count_upkeep(spell);
    }

    void count(const safety::PermittedTreatment& treatment, std::map<AnimalId, int>& sprayed) {
        Burden& burden = schedule_.burden;
        ++burden.tasks;
        switch (treatment.method()) {
            case Method::spray_animal:
                ++burden.on_animal;
                ++sprayed[treatment.animals().front()];
                burden.spray += mist_for(treatment.animals().front());
                [[fallthrough]];
            case Method::soak:
            case Method::wipe: ++burden.handlings; break;
            case Method::spray_bedding:
                burden.days_without_water +=
                    static_cast<int>(units::in_days(setting_.with.tables.time("water_out_max").value));
                burden.spray +=
                    setting_.with.tables.spray("spray_per_area").value * floor_of(treatment.enclosure());
                break;
            case Method::change_substrate:
            case Method::treat_room:
            case Method::permethrin_empty:
            case Method::fipronil_wipe:
            case Method::oral_afoxolaner:
            case Method::oral_fluralaner:
            case Method::injected_ivermectin:
            case Method::oil_wipe:
            case Method::soap_wash:
            case Method::heat_objects:
            case Method::freeze_objects:
            case Method::desiccant_dust:
            case Method::predatory_mites: break;
        }
    }

    void count_upkeep(const DampSpell& spell) {
        const auto days = static_cast<int>((spell.last - spell.first).count()) + 1;
        schedule_.burden.tasks += days;
        schedule_.burden.spray +=
            setting_.with.tables.spray("redampen_per_area").value * floor_of(spell.enclosure) * days;
    }

    [[nodiscard]] units::Volume mist_for(const AnimalId& animal) const {
        const auto& weight = setting_.with.collection.animals.at(animal).weight;
        if (!weight) return {};
        const auto mist = mixing::mist_volume(weight->value, setting_.with.tables);
        return mist ? mist->likely : units::Volume{};
    }

    [[nodiscard]] units::Area floor_of(const EnclosureId& enclosure) const {
        return setting_.with.collection.enclosures.at(enclosure).floor;
    }

    const Assignment& assignment_;
    const Setting& setting_;
    Schedule schedule_;
    safety::CourseSoFar course_so_far_;
};

forecast::Action action_of(const safety::PermittedTreatment& treatment, const Schedule& schedule,
                           const Setting& setting) {
    const auto& known = setting.known;
    forecast::Action action;
    action.method = treatment.method();
    action.time = known.time_of(treatment.day());
    action.strength = treatment.strength();
    action.place = treatment.enclosure().empty() ? known.rooms.at(treatment.room())
                                                 : known.enclosures.at(treatment.enclosure());
    const auto inside = setting.with.survey.inside.find(treatment.enclosure());
    if (inside != setting.with.survey.inside.end() && !inside->second.empty()) {
        action.part =
            static_cast<double>(treatment.animals().size()) / static_cast<double>(inside->second.size());
    }
    action.damp_until =
        action.time + (schedule.assignment.keep_damp ? static_cast<double>(damp_days(setting).count()) : 1.0);
    return action;
}

}  // namespace

bool operator<(const Burden& a, const Burden& b) {
    const auto key = [](const Burden& x) {
        return std::tuple(x.most_on_one_animal, x.on_animal, x.days_without_water, x.handlings, x.tasks,
                          units::in_millilitres(x.spray));
    };
    return key(a) < key(b);
}

std::string reason_of(const base::Error& refusal) {
    const auto dash = refusal.what.find(" - ");
    const std::string core = dash == std::string::npos ? refusal.what : refusal.what.substr(dash + 3);
    return refusal.remedy.empty() ? core : fmt::format("{}. What to do: {}", core, refusal.remedy);
}

std::vector<records::RoomId> rooms_of(Scope scope, const Setting& setting) {
    std::set<records::RoomId> rooms;
    if (scope == Scope::sighted) return {};
    if (scope == Scope::everything) {
        for (const auto& [id, room] : setting.with.collection.rooms) rooms.insert(id);
    }
    for (const EnclosureId& id : sighted_enclosures(setting))
        rooms.insert(setting.with.collection.enclosures.at(id).room);
    return {rooms.begin(), rooms.end()};
}

std::vector<EnclosureId> enclosures_of(Scope scope, const Setting& setting) {
    const std::set<EnclosureId> sighted = sighted_enclosures(setting);
    const auto rooms = rooms_of(scope, setting);
    std::vector<EnclosureId> chosen;
    for (const auto& [id, enclosure] : setting.with.collection.enclosures) {
        const bool in_room = std::find(rooms.begin(), rooms.end(), enclosure.room) != rooms.end();
        const bool has_contact = scope == Scope::exposed && setting.exposed.contains(id);
        if (sighted.contains(id) || in_room || has_contact) chosen.push_back(id);
    }
    const auto danger = [&](const EnclosureId& id) {
        return sighted.contains(id) ? 2 : setting.exposed.contains(id) ? 1 : 0;
    };
    std::stable_sort(chosen.begin(), chosen.end(),
                     [&](const EnclosureId& a, const EnclosureId& b) { return danger(a) < danger(b); });
    return chosen;
}

Assignment assign(const Course& course, const Setting& setting) {
    Assignment assignment;
    for (int round = 0; round < course.rounds; ++round) {
        assignment.rounds.push_back(setting.today + Days(course.interval_days * round));
    }
    assignment.enclosures = enclosures_of(course.scope, setting);
    assignment.rooms = rooms_of(course.scope, setting);
    assignment.change_substrate = course.change_substrate;
    assignment.keep_damp = course.keep_damp;
    return assignment;
}

std::vector<DampSpell> damp_spells(const Schedule& schedule, const Setting& setting) {
    if (!schedule.assignment.keep_damp) return {};
    std::map<EnclosureId, std::vector<Day>> sprayed;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            if (scheduled.treatment.method() == Method::spray_bedding)
                sprayed[scheduled.treatment.enclosure()].push_back(round.day);
        }
    }
    std::vector<DampSpell> spells;
    for (const auto& [enclosure, days] : sprayed) {
        for (std::size_t i = 0; i < days.size(); ++i) {
            const Day dry = days[i] + damp_days(setting);
            const Day end = i + 1 < days.size() ? std::min(dry, days[i + 1]) : dry;
            if (end - days[i] > Days(1)) spells.push_back({enclosure, days[i] + Days(1), end - Days(1)});
        }
    }
    return spells;
}

Schedule fit(const Assignment& assignment, const Setting& setting) {
    return Fitter(assignment, setting).fit();
}

forecast::Scenario apply(const Schedule& schedule, const Setting& setting, forecast::Scenario scenario) {
    const forecast::FixedParameters fixed = forecast::fixed_parameters(setting.with.tables);
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            forecast::add_action(scenario, action_of(scheduled.treatment, schedule, setting), fixed);
        }
    }
    return scenario;
}

}  // namespace mitefall::plan
