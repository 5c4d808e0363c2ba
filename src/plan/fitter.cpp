#include "plan/fitter.h"

#include <algorithm>
#include <utility>

#include "plan/burden.h"
#include "plan/emptied.h"
#include "safety/methods.h"

namespace mitefall::plan {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::TaskPart;
using safety::Request;
using units::Day;
using units::Days;

Fitter::Fitter(const Assignment& assignment, const Setting& setting, PermitBook& permits)
    : assignment_(assignment),
      setting_(setting),
      permits_(permits),
      roster_(permits.roster()),
      proposed_(roster_.animal_count()),
      water_(roster_.enclosure_count()),
      permits_of_(roster_.enclosure_count(), &permits) {
    schedule_.assignment = assignment;
}

Schedule Fitter::fit() {
    for (std::size_t i = 0; i < assignment_.rounds.size(); ++i) {
        const bool is_last = i + 1 == assignment_.rounds.size();
        const bool is_overtaken = !is_last && assignment_.rounds[i + 1] <= setting_.today;
        if (!is_overtaken) fit_round(i);
    }
    list_damp_paper();
    schedule_.does.damp = !schedule_.damp.empty();
    schedule_.burden = counted_burden();
    return std::move(schedule_);
}

Burden Fitter::counted_burden() {
    BurdenCounter counter(setting_, roster_);
    counter.count(schedule_, schedule_.does);
    for (std::size_t i = 0; i < water_.size(); ++i) {
        if (water_[i])
            counter.count_dish(!animals_in(EnclosureNumber(i)).empty(), water_[i]->days_without_dish());
    }
    for (const DampSpell& spell : schedule_.damp)
        counter.count_upkeep(spell, animals_in(roster_.number_of(spell.enclosure)).size());
    return counter.burden();
}

void Fitter::fit_round(std::size_t number) {
    const bool is_last = number + 1 == assignment_.rounds.size();
    round_.planned = assignment_.rounds[number];
    round_.day = std::max(round_.planned, setting_.today);
    last_own_date_ = is_last ? round_.day + Days(own_date_window)
                             : assignment_.rounds[number + 1] - Days(shortest_interval);
    for (const EnclosureId& enclosure : assignment_.enclosures) treat_place(enclosure);
    if (!assignment_.choices.without_spray)
        for (const records::RoomId& room : assignment_.rooms) treat_room(room);
    close_round();
}

/// The round, and after it those who had to wait, each day by itself.
void Fitter::close_round() {
    schedule_.rounds.push_back(std::move(round_));
    const Day planned = schedule_.rounds.back().planned;
    for (auto& [day, treatments] : own_dates_)
        schedule_.rounds.push_back({planned, day, std::move(treatments), true});
    round_ = {};
    own_dates_.clear();
    emptied_now_.clear();
}

void Fitter::add(TaskPart part, const safety::PermittedTreatment& treatment) {
    auto& treatments = treatment.day() == today() ? round_.treatments : own_dates_[treatment.day()];
    treatments.push_back({round_.planned, part, treatment});
}

void Fitter::leave_out(const EnclosureId& enclosure, const AnimalId& animal, Method method,
                       const safety::Reason& why) {
    schedule_.left_out.push_back({today(), enclosure, animal, method, why});
}

bool Fitter::is_settled(TaskPart part, const std::string& name) const {
    return !assignment_.settled.empty() &&
           assignment_.settled.contains(records::to_text(round_.planned, part, name));
}

// Rooms and places
// ----------------------------------------------------------------------------------------------------------

void Fitter::treat_room(const records::RoomId& room) {
    if (is_settled(TaskPart::room, room.text())) return;
    const units::Strength permethrin = setting_.with.tables.strength("permethrin_strength").value;
    const auto& permit = permits_.room(room, {Method::treat_room, permethrin, today()}, proposed_);
    if (permit) return add(TaskPart::room, *permit);
    leave_out({}, permit.error().animal, Method::treat_room, permit.error().reason);
    schedule_.left_out.back().room = room;
}

/// Wood that is emptied, and beside it the tub everybody moved into.
void Fitter::treat_place(const EnclosureId& enclosure) {
    const records::EmptiedWood* const wood = wood_of(assignment_.choices.emptied_wood, enclosure);
    const EnclosureNumber place = roster_.number_of(enclosure);
    if (wood == nullptr) return treat_enclosure(place);
    if (enclosure == wood->tub) return;
    empty(*wood);
    treat_enclosure(place);
    if (!setting_.with.collection.enclosures.contains(wood->tub)) return;
    const EnclosureNumber tub = roster_.number_of(wood->tub);
    if (!animals_in(tub).empty()) treat_enclosure(tub);
}

/// Everybody into the tub, once. Where that is refused they stay, and the next round asks again.
void Fitter::empty(const records::EmptiedWood& wood) {
    if (is_settled(TaskPart::fresh_tub, wood.tub.text()) || !can_be_emptied(wood, setting_.with)) return;
    const EnclosureNumber from = roster_.number_of(wood.enclosure);
    const EnclosureNumber tub = roster_.number_of(wood.tub);
    PermitBook& emptied = permits_.emptied(wood).permits();
    if (&permits_of(from) == &emptied) return;
    const auto& permit = emptied.enclosure(tub, {Method::fresh_tub, {}, today()}, proposed_);
    if (!permit) return leave_out(wood.enclosure, {}, Method::fresh_tub, permit.error().reason);
    permits_of_[index_of(from)] = permits_of_[index_of(tub)] = &emptied;
    emptied_now_.insert(wood.enclosure);
    add(TaskPart::fresh_tub, *permit);
}

/// It needs no new paper: a tub just moved into, or wood out of which everything came when it was emptied.
bool Fitter::is_bare(EnclosureNumber place) const {
    const records::EmptiedWood* const wood = wood_of(assignment_.choices.emptied_wood, id_of(place));
    if (wood == nullptr) return false;
    const bool is_emptied_now =
        emptied_now_.contains(wood->enclosure) || is_settled(TaskPart::fresh_tub, wood->tub.text());
    if (id_of(place) == wood->tub) return is_emptied_now;
    return !is_emptied_now && animals_in(place).empty();
}

void Fitter::treat_enclosure(EnclosureNumber place) {
    for (const AnimalNumber animal : animals_in(place)) {
        treat_animal(place, animal);
        if (assignment_.choices.clear_heads) clear_head(place, animal);
    }
    const bool is_moved = is_given_a_tub(place) && renew(place, TaskPart::fresh_tub, Method::fresh_tub);
    if (!is_moved && assignment_.choices.change_substrate && !is_bare(place))
        renew(place, TaskPart::substrate, Method::change_substrate);
    if (!assignment_.choices.without_spray) spray_bedding(place);
}

bool Fitter::is_given_a_tub(EnclosureNumber place) const {
    const auto& tubs = assignment_.choices.fresh_tubs;
    return !tubs.empty() && !animals_in(place).empty() &&
           std::find(tubs.begin(), tubs.end(), id_of(place)) != tubs.end();
}

/// New paper, in the enclosure or in a clean tub, on a date of its own where somebody there only has to wait;
/// false if it is not permitted. What is settled stays so.
bool Fitter::renew(EnclosureNumber place, TaskPart part, Method method) {
    if (is_settled(part, id_of(place).text())) return true;
    Request request{method, {}, today()};
    if (try_to_renew(place, part, request)) return true;
    const auto day = own_date(place, animals_in(place), request);
    if (!day || *day == today()) return false;
    request.day = *day;
    return try_to_renew(place, part, request);
}

bool Fitter::try_to_renew(EnclosureNumber place, TaskPart part, const Request& request) {
    const auto& permit = permits_of(place).enclosure(place, request, proposed_);
    if (permit)
        add(part, *permit);
    else
        leave_out(id_of(place), {}, request.method, permit.error().reason);
    return permit.has_value();
}

void Fitter::spray_bedding(EnclosureNumber place) {
    if (is_settled(TaskPart::bedding, id_of(place).text())) return;
    Request request{Method::spray_bedding, setting_.strength, today()};
    if (try_on_bedding(place, request)) return;
    const auto day = own_date(place, animals_in(place), request);
    if (!day) return;
    request.day = *day;
    request = when_dish_is_out(place, request);
    if (request.day != today()) try_on_bedding(place, request);
}

bool Fitter::try_on_bedding(EnclosureNumber place, const Request& request) {
    const auto& permit = permits_of(place).enclosure(place, request, proposed_);
    if (!permit) {
        leave_out(id_of(place), {}, request.method, permit.error().reason);
        return false;
    }
    if (!enter_spray(place, {}, request)) return false;
    for (const AnimalNumber animal : animals_in(place)) propose(animal, request);
    add(TaskPart::bedding, *permit);
    return true;
}

// Animals
// ----------------------------------------------------------------------------------------------------------

void Fitter::treat_animal(EnclosureNumber place, AnimalNumber animal) {
    if (is_settled(TaskPart::animal, roster_.animal(animal).id.text())) return;
    const Request meant = assignment_.choices.soak_animals
                              ? Request{Method::soak, {}, today()}
                              : Request{Method::spray_animal, setting_.strength, today()};
    if (try_on_animal(place, animal, meant)) return;
    if (const auto day = own_date(place, {animal}, meant)) {
        const Request later = when_dish_is_out(place, {meant.method, meant.strength, *day});
        if (later.day != today() && try_on_animal(place, animal, later)) return;
    }
    for (const Method method : {Method::soak, Method::wipe}) {
        if (method != meant.method && try_on_animal(place, animal, {method, {}, today()})) return;
    }
}

/// The place every other treatment misses, once the animal has had it.
void Fitter::clear_head(EnclosureNumber place, AnimalNumber animal) {
    const AnimalId& id = roster_.animal(animal).id;
    if (is_settled(TaskPart::head, id.text())) return;
    const auto& permit = permits_of(place).animal(animal, {Method::clear_head, {}, today()}, proposed_);
    if (permit)
        add(TaskPart::head, *permit);
    else
        leave_out(id_of(place), id, Method::clear_head, permit.error().reason);
}

bool Fitter::try_on_animal(EnclosureNumber place, AnimalNumber animal, const Request& request) {
    const AnimalId& id = roster_.animal(animal).id;
    const auto& permit = permits_of(place).animal(animal, request, proposed_);
    if (!permit) {
        leave_out(id_of(place), id, request.method, permit.error().reason);
        return false;
    }
    if (!enter_spray(place, id, request)) return false;
    propose(animal, request);
    add(TaskPart::animal, *permit);
    return true;
}

void Fitter::propose(AnimalNumber animal, const Request& request) {
    const Proposed*& so_far = proposed_[index_of(animal)];
    so_far = permits_.after(so_far, {request.method, request.day});
}

/// The first day on which all these animals, there, may have it; none if it is not known or too late.
std::optional<Day> Fitter::own_date(EnclosureNumber place, const std::vector<AnimalNumber>& animals,
                                    Request request) {
    for (const AnimalNumber animal : animals) {
        const auto from = permits_of(place).free_from(animal, request, proposed_);
        if (!from || *from > last_own_date_) return std::nullopt;
        request.day = std::max(request.day, *from);
    }
    return request.day;
}

// Dish and paper
// ----------------------------------------------------------------------------------------------------------

/// The spray on what the dish and the paper of its enclosure allow.
safety::WetBook& Fitter::water_of(EnclosureNumber place) {
    std::optional<safety::WetBook>& water = water_[index_of(place)];
    if (!water) water = permits_of(place).water_of(place, setting_.today).for_rounds(assignment_.rounds);
    return *water;
}

/// The paper may be wetted again on each day on which its spraying would be permitted.
safety::Wetting Fitter::wetting_of(EnclosureNumber place, const Request& request) {
    safety::Wetting wetting{request.day, request.method == Method::spray_bedding, std::nullopt};
    if (!wetting.of_paper || !assignment_.choices.keep_damp) return wetting;
    Request again = request;
    do {
        again.day += Days(1);
    } while (again.day < request.day + setting_.with.wet.dish_out &&
             permits_of(place).enclosure(place, again, proposed_));
    wetting.damp_before = again.day;
    return wetting;
}

/// Whether dish and paper allow it as well; says why not.
bool Fitter::enter_spray(EnclosureNumber place, const AnimalId& animal, const Request& request) {
    if (!safety::is_ivermectin_spray(request.method)) return true;
    const auto refusal = water_of(place).add(wetting_of(place, request));
    if (refusal)
        leave_out(id_of(place), animal, request.method,
                  safety::reason_of(*refusal, setting_.with.tables, {}));
    return !refusal;
}

/// The first day from that of the request on, and in time, on which dish and paper allow it.
Request Fitter::when_dish_is_out(EnclosureNumber place, Request request) {
    if (!safety::is_ivermectin_spray(request.method)) return request;
    const Request first = request;
    while (water_of(place).refusal(wetting_of(place, request))) {
        request.day += Days(1);
        if (request.day > last_own_date_) return first;
    }
    return request;
}

void Fitter::list_damp_paper() {
    for (std::size_t i = 0; i < water_.size(); ++i) {
        if (!water_[i]) continue;
        for (const safety::KeptDamp& kept : water_[i]->kept_damp()) {
            if (kept.dry - kept.sprayed > Days(1))
                schedule_.damp.push_back(
                    {id_of(EnclosureNumber(i)), kept.sprayed + Days(1), kept.dry - Days(1)});
        }
    }
}

}  // namespace mitefall::plan
