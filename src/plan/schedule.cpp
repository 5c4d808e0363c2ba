#include "plan/schedule.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "mixing/course.h"
#include "mixing/dose.h"
#include "plan/emptied.h"
#include "records/task_key.h"
#include "safety/methods.h"
#include "safety/wet_book.h"

namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::TaskPart;
using safety::Request;
using units::Day;
using units::Days;

class Fitter {
  public:
    Fitter(const Assignment& assignment, const Setting& setting, PermitBook& permits)
        : assignment_(assignment), setting_(setting), permits_(permits) {
        schedule_.assignment = assignment;
    }

    Schedule fit() {
        for (std::size_t i = 0; i < assignment_.rounds.size(); ++i) {
            const bool overtaken =
                i + 1 < assignment_.rounds.size() && assignment_.rounds[i + 1] <= setting_.today;
            if (overtaken) continue;
            round_.planned = assignment_.rounds[i];
            planned_ = units::format_day(round_.planned);
            round_.day = std::max(round_.planned, setting_.today);
            last_own_date_ = i + 1 < assignment_.rounds.size()
                                 ? assignment_.rounds[i + 1] - Days(shortest_interval)
                                 : round_.day + Days(own_date_window);
            for (const EnclosureId& enclosure : assignment_.enclosures) treat_place(enclosure);
            if (!assignment_.choices.without_spray)
                for (const records::RoomId& room : assignment_.rooms) treat_room(room);
            close_round();
        }
        list_damp_paper();
        count_burden();
        return std::move(schedule_);
    }

  private:
    [[nodiscard]] Day today() const { return round_.day; }
    [[nodiscard]] std::string key(TaskPart part, const std::string& name) const {
        const std::string_view text = records::to_text(part);
        std::string key;
        key.reserve(planned_.size() + text.size() + name.size() + 2);
        return key.append(planned_).append("/").append(text).append("/").append(name);
    }
    [[nodiscard]] bool is_settled(const std::string& task) const {
        return assignment_.settled.contains(task);
    }
    void add(std::string task, const safety::PermittedTreatment& treatment) {
        auto& treatments = treatment.day() == today() ? round_.treatments : own_dates_[treatment.day()];
        treatments.push_back({std::move(task), treatment});
    }

    /// The round, and after it those who had to wait, each day by itself.
    void close_round() {
        schedule_.rounds.push_back(std::move(round_));
        const Day planned = schedule_.rounds.back().planned;
        for (auto& [day, treatments] : own_dates_)
            schedule_.rounds.push_back({planned, day, std::move(treatments), true});
        round_ = {};
        own_dates_.clear();
        emptied_now_.clear();
    }

    /// Where the animals of an enclosure live once wood was emptied.
    [[nodiscard]] const safety::Case& case_of(const EnclosureId& enclosure) const {
        const auto emptied = emptied_.find(enclosure);
        return emptied == emptied_.end() ? setting_.with : emptied->second->with();
    }
    [[nodiscard]] PermitBook& permits_of(const EnclosureId& enclosure) const {
        const auto emptied = emptied_.find(enclosure);
        return emptied == emptied_.end() ? permits_ : emptied->second->permits();
    }

    /// The first day on which all these animals, there, may have it; none if it is not known or too late.
    [[nodiscard]] std::optional<Day> own_date(const EnclosureId& enclosure,
                                              const std::vector<AnimalId>& animals, Request request) {
        for (const AnimalId& animal : animals) {
            const auto from = permits_of(enclosure).free_from(animal, request, course_so_far_);
            if (!from || *from > last_own_date_) return std::nullopt;
            request.day = std::max(request.day, *from);
        }
        return request.day;
    }

    /// The spray on what the dish and the paper of its enclosure allow.
    [[nodiscard]] safety::WetBook& water_of(const EnclosureId& enclosure) {
        const auto known = water_.find(enclosure);
        if (known != water_.end()) return known->second;
        const auto& [collection, tables, survey] = case_of(enclosure);
        safety::WetBook book(collection, collection.enclosures.at(enclosure),
                             safety::inside_of(collection, survey, enclosure), assignment_.rounds,
                             setting_.today, limits_);
        return water_.emplace(enclosure, std::move(book)).first->second;
    }

    /// The paper may be wetted again on each day on which its spraying would be permitted.
    [[nodiscard]] safety::Wetting wetting_of(const EnclosureId& enclosure, const Request& request) {
        safety::Wetting wetting{request.day, request.method == Method::spray_bedding, std::nullopt};
        if (!wetting.of_paper || !assignment_.choices.keep_damp) return wetting;
        Request again = request;
        do {
            again.day += Days(1);
        } while (again.day < request.day + limits_.dish_out &&
                 permits_of(enclosure).enclosure(enclosure, again, course_so_far_));
        wetting.damp_before = again.day;
        return wetting;
    }

    /// Whether dish and paper allow it as well; says why not.
    bool enter_spray(const EnclosureId& enclosure, const AnimalId& animal, const Request& request) {
        if (!safety::is_ivermectin_spray(request.method)) return true;
        const auto refusal = water_of(enclosure).add(wetting_of(enclosure, request));
        if (refusal) {
            leave_out(enclosure, animal, request.method,
                      safety::reason_of(*refusal, setting_.with.tables, {}));
        }
        return !refusal;
    }

    /// The first day from that of the request on, and in time, on which dish and paper allow it.
    [[nodiscard]] Request when_dish_is_out(const EnclosureId& enclosure, Request request) {
        if (!safety::is_ivermectin_spray(request.method)) return request;
        const Request first = request;
        while (water_of(enclosure).refusal(wetting_of(enclosure, request))) {
            request.day += Days(1);
            if (request.day > last_own_date_) return first;
        }
        return request;
    }

    void leave_out(const EnclosureId& enclosure, const AnimalId& animal, Method method,
                   const safety::Reason& why) {
        schedule_.left_out.push_back({today(), enclosure, animal, method, why});
    }

    void treat_room(const records::RoomId& room) {
        const std::string task = key(TaskPart::room, room.text());
        if (is_settled(task)) return;
        const units::Strength permethrin = setting_.with.tables.strength("permethrin_strength").value;
        const auto& permit = permits_.room(room, {Method::treat_room, permethrin, today()}, course_so_far_);
        if (permit) return add(task, *permit);
        leave_out({}, permit.error().animal, Method::treat_room, permit.error().reason);
        schedule_.left_out.back().room = room;
    }

    /// Wood that is emptied, and beside it the tub everybody moved into.
    void treat_place(const EnclosureId& enclosure) {
        const records::EmptiedWood* const wood = wood_of(assignment_.choices.emptied_wood, enclosure);
        if (wood == nullptr) return treat_enclosure(enclosure);
        if (enclosure == wood->tub) return;
        empty(*wood);
        treat_enclosure(enclosure);
        if (!animals_in(wood->tub).empty()) treat_enclosure(wood->tub);
    }

    /// Everybody into the tub, once. Where that is refused they stay, and the next round asks again.
    void empty(const records::EmptiedWood& wood) {
        const std::string task = key(TaskPart::fresh_tub, wood.tub.text());
        if (is_settled(task) || emptied_.contains(wood.enclosure) || !can_be_emptied(wood, setting_.with))
            return;
        Emptied& emptied = permits_.emptied(wood);
        const auto& permit =
            emptied.permits().enclosure(wood.tub, {Method::fresh_tub, {}, today()}, course_so_far_);
        if (!permit) return leave_out(wood.enclosure, {}, Method::fresh_tub, permit.error().reason);
        emptied_.emplace(wood.enclosure, &emptied);
        emptied_.emplace(wood.tub, &emptied);
        emptied_now_.insert(wood.enclosure);
        add(task, *permit);
    }

    /// It needs no new paper: a tub just moved into, or wood out of which everything came when it was
    /// emptied.
    [[nodiscard]] bool is_bare(const EnclosureId& enclosure) const {
        const records::EmptiedWood* const wood = wood_of(assignment_.choices.emptied_wood, enclosure);
        if (wood == nullptr) return false;
        const bool is_emptied_now =
            emptied_now_.contains(wood->enclosure) || is_settled(key(TaskPart::fresh_tub, wood->tub.text()));
        if (enclosure == wood->tub) return is_emptied_now;
        return !is_emptied_now && animals_in(enclosure).empty();
    }

    void treat_enclosure(const EnclosureId& enclosure) {
        for (const AnimalId& animal : animals_in(enclosure)) {
            treat_animal(enclosure, animal);
            if (assignment_.choices.clear_heads) clear_head(enclosure, animal);
        }
        const bool is_moved = is_given_a_tub(enclosure) &&
                              renew(enclosure, key(TaskPart::fresh_tub, enclosure.text()), Method::fresh_tub);
        if (!is_moved && assignment_.choices.change_substrate && !is_bare(enclosure))
            renew(enclosure, key(TaskPart::substrate, enclosure.text()), Method::change_substrate);
        if (!assignment_.choices.without_spray) spray_bedding(enclosure);
    }

    [[nodiscard]] bool is_given_a_tub(const EnclosureId& enclosure) const {
        const auto& tubs = assignment_.choices.fresh_tubs;
        return !animals_in(enclosure).empty() && std::find(tubs.begin(), tubs.end(), enclosure) != tubs.end();
    }

    /// New paper, in the enclosure or in a clean tub, on a date of its own where somebody there only has to
    /// wait; false if it is not permitted. What is settled stays so.
    bool renew(const EnclosureId& enclosure, const std::string& task, Method method) {
        if (is_settled(task)) return true;
        Request request{method, {}, today()};
        if (try_to_renew(enclosure, task, request)) return true;
        const auto day = own_date(enclosure, animals_in(enclosure), request);
        if (!day || *day == today()) return false;
        request.day = *day;
        return try_to_renew(enclosure, task, request);
    }

    bool try_to_renew(const EnclosureId& enclosure, const std::string& task, const Request& request) {
        const auto& permit = permits_of(enclosure).enclosure(enclosure, request, course_so_far_);
        if (permit)
            add(task, *permit);
        else
            leave_out(enclosure, {}, request.method, permit.error().reason);
        return permit.has_value();
    }

    [[nodiscard]] const std::vector<AnimalId>& animals_in(const EnclosureId& enclosure) const {
        static const std::vector<AnimalId> nobody;
        const auto& inside = case_of(enclosure).survey.inside;
        const auto found = inside.find(enclosure);
        return found == inside.end() ? nobody : found->second;
    }

    void spray_bedding(const EnclosureId& enclosure) {
        const std::string task = key(TaskPart::bedding, enclosure.text());
        if (is_settled(task)) return;
        const std::vector<AnimalId>& animals = animals_in(enclosure);
        Request request{Method::spray_bedding, setting_.strength, today()};
        if (try_on_bedding(enclosure, task, request)) return;
        const auto day = own_date(enclosure, animals, request);
        if (!day) return;
        request.day = *day;
        request = when_dish_is_out(enclosure, request);
        if (request.day != today()) try_on_bedding(enclosure, task, request);
    }

    bool try_on_bedding(const EnclosureId& enclosure, const std::string& task, const Request& request) {
        const auto& permit = permits_of(enclosure).enclosure(enclosure, request, course_so_far_);
        if (!permit) {
            leave_out(enclosure, {}, request.method, permit.error().reason);
            return false;
        }
        if (!enter_spray(enclosure, {}, request)) return false;
        for (const AnimalId& animal : animals_in(enclosure))
            course_so_far_[animal].push_back({request.method, request.day});
        add(task, *permit);
        return true;
    }

    void treat_animal(const EnclosureId& enclosure, const AnimalId& animal) {
        const std::string task = key(TaskPart::animal, animal.text());
        if (is_settled(task)) return;
        const Request meant = assignment_.choices.soak_animals
                                  ? Request{Method::soak, {}, today()}
                                  : Request{Method::spray_animal, setting_.strength, today()};
        if (try_on_animal(enclosure, animal, task, meant)) return;
        if (const auto day = own_date(enclosure, {animal}, meant)) {
            const Request later = when_dish_is_out(enclosure, {meant.method, meant.strength, *day});
            if (later.day != today() && try_on_animal(enclosure, animal, task, later)) return;
        }
        for (const Method method : {Method::soak, Method::wipe}) {
            if (method != meant.method && try_on_animal(enclosure, animal, task, {method, {}, today()}))
                return;
        }
    }

    /// The place every other treatment misses, once the animal has had it.
    void clear_head(const EnclosureId& enclosure, const AnimalId& animal) {
        const std::string task = key(TaskPart::head, animal.text());
        if (is_settled(task)) return;
        const auto& permit =
            permits_of(enclosure).animal(animal, {Method::clear_head, {}, today()}, course_so_far_);
        if (permit)
            add(task, *permit);
        else
            leave_out(enclosure, animal, Method::clear_head, permit.error().reason);
    }

    bool try_on_animal(const EnclosureId& enclosure, const AnimalId& animal, const std::string& task,
                       const Request& request) {
        const auto& permit = permits_of(enclosure).animal(animal, request, course_so_far_);
        if (!permit) {
            leave_out(enclosure, animal, request.method, permit.error().reason);
            return false;
        }
        if (!enter_spray(enclosure, animal, request)) return false;
        course_so_far_[animal].push_back({request.method, request.day});
        add(task, *permit);
        return true;
    }

    void list_damp_paper() {
        for (const auto& [enclosure, water] : water_) {
            for (const safety::KeptDamp& kept : water.kept_damp()) {
                if (kept.dry - kept.sprayed > Days(1))
                    schedule_.damp.push_back({enclosure, kept.sprayed + Days(1), kept.dry - Days(1)});
            }
        }
    }

    void count_burden() {
        std::map<AnimalId, int> sprayed;
        for (const Round& round : schedule_.rounds) {
            in_hand_.clear();
            for (const ScheduledTreatment& scheduled : round.treatments) count(scheduled.treatment, sprayed);
        }
        for (const auto& [enclosure, water] : water_) count_dish(enclosure, water.days_without_dish());
        for (const auto& [animal, times] : sprayed) {
            schedule_.burden.most_on_one_animal = std::max(schedule_.burden.most_on_one_animal, times);
        }
        schedule_.does.damp = !schedule_.damp.empty();
        for (const DampSpell& spell : schedule_.damp) count_upkeep(spell);
    }

    void count(const safety::PermittedTreatment& treatment, std::map<AnimalId, int>& sprayed) {
        Burden& burden = schedule_.burden;
        ++burden.tasks;
        note(treatment.method(), treatment.enclosure(), assignment_.choices, schedule_.does);
        const records::MethodRow& row = records::row_of(treatment.method());
        // Its head is gone over while it is out anyway.
        if (safety::is_by_hand(row.method) && in_hand_.insert(treatment.animals().front()).second)
            ++burden.handlings;
        if (row.method == Method::soak) ++burden.soaks;
        if (row.method == Method::fresh_tub) ++burden.tasks;  // the old one is washed
        if (safety::is_on_animal_acaricide(row.method)) {
            ++burden.on_animal;
            ++sprayed[treatment.animals().front()];
        }
        if (row.paper == records::Paper::sprayed)
            burden.damp_days += static_cast<int>(treatment.animals().size());
        if (row.is_spray) burden.spray += spray_for(treatment);
    }

    [[nodiscard]] units::Volume spray_for(const safety::PermittedTreatment& treatment) const {
        if (records::row_of(treatment.method()).target == records::Target::animal)
            return mist_for(treatment.animals().front());
        return setting_.with.tables.spray("spray_per_area").value * floor_of(treatment.enclosure());
    }

    /// A drink outside the enclosure on each day without the dish.
    void count_dish(const EnclosureId& enclosure, int days) {
        schedule_.burden.days_without_water += days;
        if (!animals_in(enclosure).empty()) schedule_.burden.tasks += days;
    }

    void count_upkeep(const DampSpell& spell) {
        const auto days = static_cast<int>((spell.last - spell.first).count()) + 1;
        schedule_.burden.tasks += days;
        schedule_.burden.damp_days += days * static_cast<int>(animals_in(spell.enclosure).size());
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
    PermitBook& permits_;
    Schedule schedule_;
    Round round_;          ///< being filled
    std::string planned_;  ///< its day as keys name it
    std::map<Day, std::vector<ScheduledTreatment>> own_dates_;
    Day last_own_date_;
    std::set<AnimalId> in_hand_;  ///< of the round that is counted
    safety::CourseSoFar course_so_far_;
    safety::WetLimits limits_ = safety::wet_limits(setting_.with.tables);
    std::map<EnclosureId, safety::WetBook> water_;
    std::map<EnclosureId, Emptied*> emptied_;  ///< wood and tub, from the round in which it is emptied on
    std::set<EnclosureId> emptied_now_;        ///< wood, of the round
};

}  // namespace

bool operator<(const Burden& a, const Burden& b) {
    const auto key = [](const Burden& x) {
        return std::tuple(x.most_on_one_animal, x.on_animal, x.damp_days, x.days_without_water, x.handlings,
                          x.tasks, units::in_millilitres(x.spray));
    };
    return key(a) < key(b);
}

Schedule fit(const Assignment& assignment, const Setting& setting) {
    PermitBook permits(setting.with);
    return fit(assignment, setting, permits);
}

Schedule fit(const Assignment& assignment, const Setting& setting, PermitBook& permits) {
    return Fitter(assignment, setting, permits).fit();
}

}  // namespace mitefall::plan
