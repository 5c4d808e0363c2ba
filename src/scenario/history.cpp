#include "scenario/history.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>
#include <utility>

#include "records/corrections.h"
#include "records/history.h"
#include "records/task_key.h"
#include "safety/water.h"
#include "scenario/actions.h"
#include "scenario/things.h"
#include "units/whole_days.h"

namespace mitefall::scenario {
namespace {

using records::Collection;
using records::EnclosureId;
using records::Entry;
using units::Day;
using units::Days;

constexpr int sightings_last = 3;  // times the days looked back on: older ones are of another outbreak

class HistoryWriter {
  public:
    HistoryWriter(const Collection& collection, const mites::FixedParameters& fixed, RecordedCase& into)
        : collection_(collection), fixed_(fixed), into_(into), inside_(by_enclosure(collection)) {}

    void add_places(const Collection& at_origin) {
        const InsideOf then = by_enclosure(at_origin);
        for (const auto& [id, room] : collection_.rooms) {
            Place place;
            place.name = room.name;
            place.is_room = true;
            place.climate = room.climate;
            add_place(std::move(place), into_.rooms[id]);
        }
        for (const auto& [id, room] : collection_.rooms) {
            for (const records::RoomId& other : room.adjoining) {
                into_.scenario.places[into_.rooms[id]].adjoining.push_back(into_.rooms.at(other));
            }
        }
        for (const auto& [id, enclosure] : collection_.enclosures) {
            Place place;
            place.name = enclosure.name;
            place.room = into_.rooms.at(enclosure.room);
            place.material = enclosure.material;
            place.climate = enclosure.climate;
            place.animals = static_cast<int>(at(then, id).size());
            add_place(std::move(place), into_.enclosures[id]);
        }
        for (const auto& [id, thing] : at_origin.things)
            keep(id, thing.what, place_of_thing(thing.enclosure, thing.room));
        residents_.emplace(into_.scenario);
        for (const auto& [id, enclosure] : collection_.enclosures) {
            const std::vector<Host>& hosts = residents_->of(into_.enclosures.at(id));
            const safety::Inside& animals = at(then, id);
            for (std::size_t i = 0; i < hosts.size(); ++i)
                known_[animals[i]->id] = {hosts[i], into_.enclosures.at(id)};
        }
    }

    /// The facts of one day on or after the origin, in the order of the journal. They mean the same in any
    /// order and in any number of entries (docs/decisions/0030): who came is there, finds come before what
    /// was done about them, clean checks last. Only what is told of one animal's ways keeps its order.
    void add_day(std::span<const Entry* const> entries) {
        day_ = entries.front()->day;
        time_ = into_.time_of(day_);
        std::set<records::AnimalId> on_the_way;
        std::map<Phase, std::vector<const Entry*>> stages;
        for (const Entry* const entry : entries) {
            stages[phase_of(entry->fact, on_the_way)].push_back(entry);
            if (const auto* const handled = std::get_if<records::Handled>(&entry->fact))
                handled_.insert(handled->animals.begin(), handled->animals.end());
        }
        if (!handled_.empty()) stages[Phase::departures];
        for (const auto& [stage, facts] : stages) {
            for (const Entry* const entry : facts) {
                entry_ = entry->id;
                std::visit([&](const auto& fact) { write(fact); }, entry->fact);
            }
            finish(stage);
        }
    }

    void add_living() {
        std::map<Host, records::AnimalId> names;
        for (const auto& [id, known] : known_) names.emplace(known.host, id);
        for (const auto& [id, place] : into_.enclosures) {
            auto& living = into_.living[id];
            for (const Host host : residents_->of(place)) living.push_back(names.at(host));
        }
    }

  private:
    /// Facts of one day in the order in which they are taken to have happened.
    enum class Phase { arrivals, finds, moves, contacts, departures, treatments, looks };

    void finish(Phase phase) {
        switch (phase) {
            case Phase::arrivals: return;
            case Phase::moves: return move_animals();
            case Phase::contacts: return touch();
            case Phase::departures: return depart();
            case Phase::treatments: return treat();
            case Phase::finds:
            case Phase::looks: return look();
        }
    }

    /// `on_the_way`: animals that came, moved or left earlier that day; theirs keep the journal's order.
    static Phase phase_of(const records::Fact& fact, std::set<records::AnimalId>& on_the_way) {
        if (const auto* const arrived = std::get_if<records::AnimalArrived>(&fact))
            return on_the_way.contains(arrived->animal) ? Phase::moves : Phase::arrivals;
        if (const auto* const moved = std::get_if<records::AnimalMoved>(&fact))
            on_the_way.insert(moved->animal);
        else if (const auto* const left = std::get_if<records::AnimalLeft>(&fact))
            on_the_way.insert(left->animal);
        else if (std::holds_alternative<records::Handled>(fact) ||
                 std::holds_alternative<records::ItemShared>(fact))
            return Phase::contacts;
        else if (std::holds_alternative<records::OutsideContact>(fact) ||
                 std::holds_alternative<records::ThingKept>(fact))
            return Phase::arrivals;
        else if (std::holds_alternative<records::Sighted>(fact))
            return Phase::finds;
        else if (const auto* const checked = std::get_if<records::Checked>(&fact))
            return checked->count == records::SeenCount::none ? Phase::looks : Phase::finds;
        else
            return Phase::treatments;
        return Phase::moves;
    }

    /// New paper is laid before it is sprayed, whatever was written down first.
    void treat() {
        std::vector<Residue> residues;
        for (const EnclosureId& enclosure : wetted_again_) wet_again(enclosure, residues);
        wetted_again_.clear();
        for (const records::Treated& fact : sprayed_) {
            const PlaceIndex place = into_.enclosures.at(fact.enclosure);
            actions_.push_back({fact.method, place, time_, fact.strength, 1, time_ + keep_damp(fact), {}});
        }
        sprayed_.clear();
        leave_things_behind();
        add_treatments(into_.scenario, actions_, fixed_, *residents_);
        actions_.clear();
        for (const Residue& residue : residues) happen(residue);
        treat_things();
    }

    /// What stood in the old tub is not in the nest of the new one: the clean tub counts, its things do not.
    void leave_things_behind() {
        for (const Action& action : actions_) {
            const bool is_left = records::row_of(action.method).meets == records::Meets::housed &&
                                 into_.scenario.places[action.place].material == records::Material::sealed;
            if (!is_left) continue;
            std::erase_if(things_done_,
                          [&](const auto& done) { return things_.at(done.first).place == action.place; });
        }
    }

    /// Told twice, it was done once; what is washed and sprayed is free of mites.
    void treat_things() {
        std::map<PlaceIndex, std::map<records::ThingId, ThingDone>> places;
        for (const auto& [id, method] : things_done_) {
            const KnownThing& thing = things_.at(id);
            ThingDone& done =
                places[thing.place].try_emplace(id, ThingDone{thing.harbours, method}).first->second;
            if (method != records::ThingMethod::spray_and_air) done.method = method;
        }
        for (const auto& [place, things] : places) {
            std::vector<ThingDone> all;
            for (const auto& [id, done] : things) all.push_back(done);
            add_things(into_.scenario, time_, place, std::move(all), fixed_);
        }
        things_done_.clear();
    }

    void add_place(Place place, PlaceIndex& index) {
        index = into_.scenario.places.size();
        into_.scenario.places.push_back(std::move(place));
    }

    void happen(const Happening& what) { into_.scenario.events.push_back({time_, what}); }

    /// The course in force binds from the day it was adopted; what was sprayed before it dried as it would.
    [[nodiscard]] bool is_kept_damp() const {
        return collection_.plan && collection_.plan->value.choices.keep_damp &&
               day_ >= *collection_.course_since();
    }

    [[nodiscard]] PlaceIndex place_of_animal(const records::AnimalId& animal) const {
        const auto found = known_.find(animal);
        return found == known_.end() ? nowhere : found->second.place;
    }

    void write(const records::AnimalArrived& fact) {
        const PlaceIndex place = into_.enclosures.at(fact.enclosure);
        if (known_.contains(fact.animal)) {  // it left that very day and is back
            destination_[fact.animal] = place;
            return;
        }
        into_.arrivals.push_back({fact.animal, fact.name.empty() ? fact.animal.text() : fact.name, place,
                                  time_, into_.scenario.events.size()});
        known_[fact.animal] = {residents_->join(time_, place), place};
    }

    void write(const records::AnimalMoved& fact) { destination_[fact.animal] = into_.enclosures.at(fact.to); }

    void write(const records::AnimalLeft& fact) { destination_[fact.animal] = nowhere; }

    /// Each animal to where it is at the end of the day. Who leaves a place goes before who comes to it.
    void move_animals() {
        std::erase_if(destination_, [&](const auto& way) {
            const PlaceIndex from = place_of_animal(way.first);
            if (way.second == nowhere && handled_.contains(way.first)) departing_.push_back(way.first);
            return from == nowhere || from == way.second ||
                   (way.second == nowhere && handled_.contains(way.first));
        });
        std::map<PlaceIndex, int> to_leave;
        for (const auto& [animal, to] : destination_) ++to_leave[place_of_animal(animal)];
        while (!destination_.empty()) {
            auto next = std::find_if(destination_.begin(), destination_.end(), [&](const auto& way) {
                return way.second == nowhere || to_leave[way.second] == 0;
            });
            if (next == destination_.end()) next = destination_.begin();  // they change places in a ring
            --to_leave[place_of_animal(next->first)];
            go(next->first, next->second);
            destination_.erase(next);
        }
    }

    /// Who was handled on the day it left took part in that.
    void depart() {
        for (const records::AnimalId& animal : departing_) {
            if (place_of_animal(animal) != nowhere) go(animal, nowhere);
        }
        departing_.clear();
        handled_.clear();
    }

    void go(const records::AnimalId& animal, PlaceIndex to) {
        Known& known = known_.at(animal);
        if (to == nowhere) {
            residents_->leave(time_, known.host, known.place);
            known_.erase(animal);
        } else {
            residents_->move(time_, known.host, known.place, to);
            known.place = to;
        }
    }

    /// Hands carry from each animal to all handled later; a bag holds them all, so it carries both ways.
    void write(const records::Handled& fact) {
        for (std::size_t i = 0; i < fact.animals.size(); ++i) {
            for (std::size_t j = i + 1; j < fact.animals.size(); ++j) {
                const PlaceIndex first = place_of_animal(fact.animals[i]);
                const PlaceIndex later = place_of_animal(fact.animals[j]);
                if (!fact.shared_bag) {
                    carry(first, later, &mites::MiteParameters::contact_handled_after);
                    continue;
                }
                carry(first, later, &mites::MiteParameters::contact_shared_bag);
                carry(later, first, &mites::MiteParameters::contact_shared_bag);
            }
        }
    }

    /// The mites of an enclosure sit on its animals alike; one of them gives.
    void carry(PlaceIndex from, PlaceIndex to, mites::ParameterMember chance) {
        if (from == nowhere || to == nowhere || from == to) return;
        Amount carried = Amount::drawn(chance);
        carried.factor = 1.0 / static_cast<double>(residents_->of(from).size());
        contacts_.push_back({from, to, mites::Reach::on_animal, carried});
    }

    void touch() {
        const auto key = [](const Contact& c) { return std::tuple(c.from, c.to, c.reach, c.chance.factor); };
        std::sort(contacts_.begin(), contacts_.end(),
                  [&](const Contact& a, const Contact& b) { return key(a) < key(b); });
        for (const Contact& contact : contacts_) happen(contact);
        contacts_.clear();
    }

    void write(const records::ItemShared& fact) {
        contacts_.push_back({into_.enclosures.at(fact.from), into_.enclosures.at(fact.to),
                             mites::Reach::mobile_nest,
                             Amount::drawn(&mites::MiteParameters::contact_shared_item)});
    }

    [[nodiscard]] std::vector<PlaceIndex> places_of(const records::OutsideContact& fact) const {
        std::set<PlaceIndex> places;
        for (const records::RoomId& id : fact.rooms) places.insert(into_.rooms.at(id));
        for (const EnclosureId& id : fact.enclosures) places.insert(into_.enclosures.at(id));
        if (places.empty()) {
            for (const auto& [id, place] : into_.rooms) places.insert(place);
        }
        return {places.begin(), places.end()};
    }

    /// Up to the day asked about it is a way in that may explain what was seen; later it may bring more.
    void write(const records::OutsideContact& fact) {
        OutsideOnRecord contact{entry_, fact.what, places_of(fact), time_};
        if (contact.places.empty() || into_.from <= 0) return;  // what is there at the start is not asked
        if (time_ <= into_.from) return into_.outside.push_back(std::move(contact));
        const double chance = fixed_.outside.into_one_of(contact.places.size(), fact.what);
        for (const PlaceIndex place : contact.places) {
            happen(Import{place, mites::Stage::adult_seeking_1, Amount::number(-std::log1p(-chance)),
                          time_ + 1});
        }
    }

    /// Paper that a course keeps damp. It dries on the first day on which it was not wetted again.
    struct Wetted {
        units::Strength strength;
        Day dry;
    };

    /// Until today what is on record counts, from today on what the course asks for.
    [[nodiscard]] bool is_wetted(const EnclosureId& enclosure, Day day) const {
        const records::Enclosure& place = collection_.enclosures.at(enclosure);
        if (day < collection_.day) return safety::was_wetted_again(place, day);
        const auto until = safety::damp_until(collection_, place, at(inside_, enclosure), fixed_.wet);
        return day < until && !collection_.skipped.contains(
                                  records::to_text(day, records::TaskPart::redampen, enclosure.text()));
    }

    [[nodiscard]] bool is_sprayed_anew(const EnclosureId& enclosure, Day day) const {
        const auto& given = collection_.enclosures.at(enclosure).treatments;
        return std::any_of(given.begin(), given.end(), [&](const auto& other) {
            return other.day == day && other.value.method == records::Method::spray_bedding;
        });
    }

    [[nodiscard]] Day first_dry(const EnclosureId& enclosure, Day after) const {
        Day day = after + Days(1);
        while (!is_sprayed_anew(enclosure, day) && is_wetted(enclosure, day)) day += Days(1);
        return day;
    }

    /// Days until the paper just sprayed is dry.
    [[nodiscard]] double keep_damp(const records::Treated& fact) {
        wetted_.erase(fact.enclosure);
        if (!is_kept_damp()) return 1;
        const Day dry = first_dry(fact.enclosure, day_);
        wetted_[fact.enclosure] = {fact.strength, dry};
        return static_cast<double>((dry - day_).count());
    }

    /// Paper wetted again after it had dried; before that the spraying still tells how long it stays damp.
    void write(const records::PaperWetted& fact) { wetted_again_.push_back(fact.enclosure); }
    void write(const records::TaskDone& fact) {
        if (const auto paper = records::paper_wetted_by(fact)) write(*paper);
    }

    void wet_again(const EnclosureId& enclosure, std::vector<Residue>& residues) {
        const auto wetted = wetted_.find(enclosure);
        if (wetted == wetted_.end() || day_ < wetted->second.dry) return;
        wetted->second.dry = first_dry(enclosure, day_);
        residues.push_back(residue_of_spray(into_.enclosures.at(enclosure), wetted->second.strength,
                                            into_.time_of(wetted->second.dry), fixed_));
    }

    void write(const records::Treated& fact) {
        if (fact.method == records::Method::spray_bedding) return sprayed_.push_back(fact);
        if (records::row_of(fact.method).paper == records::Paper::renewed) wetted_.erase(fact.enclosure);
        Action action{fact.method, into_.enclosures.at(fact.enclosure), time_, fact.strength, 1, 0, {}};
        if (fact.animals.empty()) return actions_.push_back(action);
        // Each where it lives now: it may have been moved on the same day.
        for (const records::AnimalId& animal : fact.animals) {
            const auto found = known_.find(animal);
            if (found == known_.end()) continue;
            action.place = found->second.place;
            action.animals = {found->second.host};
            actions_.push_back(action);
        }
    }

    void write(const records::RoomTreated& fact) {
        actions_.push_back(
            {records::Method::treat_room, into_.rooms.at(fact.room), time_, fact.strength, 1, 0, {}});
    }

    void write(const records::SubstrateChanged& fact) {
        wetted_.erase(fact.enclosure);
        actions_.push_back(
            {records::Method::change_substrate, into_.enclosures.at(fact.enclosure), time_, {}, 1, 0, {}});
    }

    [[nodiscard]] PlaceIndex place_of_thing(const EnclosureId& enclosure, const records::RoomId& room) const {
        return enclosure.empty() ? into_.rooms.at(room) : into_.enclosures.at(enclosure);
    }

    void keep(const records::ThingId& id, records::ThingKind what, PlaceIndex place) {
        things_.insert_or_assign(id, KnownThing{place, records::row_of(what).harbours});
    }
    void write(const records::ThingKept& fact) {
        keep(fact.thing, fact.what, place_of_thing(fact.enclosure, fact.room));
    }

    void write(const records::ThingTreated& fact) {
        if (things_.contains(fact.thing)) things_done_.insert({fact.thing, fact.method});
    }

    void write(const records::Checked& fact) {
        looks_.insert({into_.enclosures.at(fact.enclosure), LookedAt::both, fact.count, fact.method});
    }

    void write(const records::Sighted& fact) {
        const bool on_animal = fact.where == records::SeenWhere::on_animal;
        looks_.insert({into_.enclosures.at(fact.enclosure), on_animal ? LookedAt::animal : LookedAt::nest,
                       fact.count, records::CheckMethod::look_over});
    }

    /// The same look told twice is one look. Clean checks on the day of the last sighting and later belong to
    /// the sweep that starts there.
    void look() {
        for (const auto& [place, where, seen, method] : looks_) {
            const bool is_find = seen != records::SeenCount::none;
            if (time_ < into_.from || (is_find && time_ <= into_.from))
                into_.looks.push_back({place, time_, into_.scenario.events.size(), where, seen, method});
            if (!is_find) happen(clean_check(place, method));
        }
        looks_.clear();
    }

    template <class Other>
    void write(const Other&) {}

    const Collection& collection_;
    const mites::FixedParameters& fixed_;
    RecordedCase& into_;
    using InsideOf = std::map<EnclosureId, safety::Inside>;
    static InsideOf by_enclosure(const Collection& collection) {
        InsideOf all;
        for (const auto& [id, animal] : collection.animals) all[animal.enclosure].push_back(&animal);
        return all;
    }
    static const safety::Inside& at(const InsideOf& all, const EnclosureId& enclosure) {
        static const safety::Inside nobody;
        const auto found = all.find(enclosure);
        return found == all.end() ? nobody : found->second;
    }

    struct Known {
        Host host = 0;
        PlaceIndex place = nowhere;
    };
    InsideOf inside_;  ///< today
    std::optional<Residents> residents_;
    std::map<records::AnimalId, Known> known_;             ///< those that live here
    std::vector<records::Treated> sprayed_;                ///< beddings, of the day
    std::vector<Action> actions_;                          ///< everything else of the day
    std::vector<EnclosureId> wetted_again_;                ///< of the day
    std::map<records::AnimalId, PlaceIndex> destination_;  ///< at the end of the day; nowhere: it left
    std::vector<Contact> contacts_;                        ///< of the day
    std::set<records::AnimalId> handled_;                  ///< on the day
    std::vector<records::AnimalId> departing_;             ///< of them, those that leave that day
    std::set<std::tuple<PlaceIndex, LookedAt, records::SeenCount, records::CheckMethod>> looks_;
    std::map<EnclosureId, Wetted> wetted_;
    struct KnownThing {
        PlaceIndex place = nowhere;
        bool harbours = true;
    };
    std::map<records::ThingId, KnownThing> things_;
    std::set<std::pair<records::ThingId, records::ThingMethod>> things_done_;  ///< of the day
    Day day_;
    double time_ = 0;
    records::FactId entry_ = 0;
};

/// Everything from the origin of `into` to today. Who arrived up to the day `journal.before` tells of was
/// there from the start.
void write_history(const FoldedJournal& journal, const mites::FixedParameters& fixed, RecordedCase& into) {
    HistoryWriter writer(journal.today, fixed, into);
    writer.add_places(journal.before);
    std::map<Day, std::vector<const Entry*>> days;
    for (const Entry* const entry : records::pick_in_force(journal.entries)) {
        const bool was_there =
            entry->day <= journal.before.day && std::holds_alternative<records::AnimalArrived>(entry->fact);
        if (entry->day >= into.origin && entry->day <= journal.today.day && !was_there)
            days[entry->day].push_back(entry);
    }
    for (const auto& [day, entries] : days) writer.add_day(entries);
    writer.add_living();
}

/// Day 0 of the case of an outbreak last seen on `from`.
Day origin_of(Day from, units::TimeSpan look_back) { return from - units::at_least_days(look_back); }

}  // namespace

std::optional<LastSeen> last_seen(const Collection& today, units::TimeSpan look_back) {
    const Days window = units::at_least_days(look_back);
    std::optional<LastSeen> last;
    for (const auto& sighting : today.sightings) {
        if (sighting.day + sightings_last * window < today.day) continue;
        if (!last) last.emplace();
        last->day = std::max(last->day, sighting.day);
    }
    if (!last) return std::nullopt;
    last->reaches = std::min(today.day, last->day + window);
    for (const auto& sighting : today.sightings) {
        const EnclosureId& id = sighting.value.enclosure;
        const bool known =
            std::find(last->enclosures.begin(), last->enclosures.end(), id) != last->enclosures.end();
        if (!known && sighting.day + window >= last->reaches) last->enclosures.push_back(id);
    }
    return last;
}

Day day_before_case(std::span<const Entry> journal, const Collection& today, units::TimeSpan look_back) {
    const std::optional<LastSeen> seen = last_seen(today, look_back);
    const Day origin = origin_of(seen ? seen->day : today.day, look_back);
    const std::optional<Day> first = records::first_day(journal);
    return first && *first >= origin ? *first : origin - Days(1);
}

RecordedCase recorded_since(std::span<const Entry> journal, Day today, Day origin,
                            const mites::FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    return recorded_since({journal, collection, records::collection_on(journal, origin - Days(1))}, origin,
                          fixed);
}

RecordedCase recorded_since(const FoldedJournal& journal, Day origin, const mites::FixedParameters& fixed) {
    RecordedCase result;
    result.origin = origin;
    write_history(journal, fixed, result);
    return result;
}

base::Result<RecordedCase> case_from_records(std::span<const Entry> journal, Day today,
                                             units::TimeSpan look_back, const mites::FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    const Collection before =
        records::collection_on(journal, day_before_case(journal, collection, look_back));
    return case_from_records({journal, collection, before}, look_back, fixed);
}

base::Result<RecordedCase> case_from_records(const FoldedJournal& journal, units::TimeSpan look_back,
                                             const mites::FixedParameters& fixed) {
    const std::optional<LastSeen> seen = last_seen(journal.today, look_back);
    const Day from = seen ? seen->day : journal.today.day;
    RecordedCase result;
    result.origin = origin_of(from, look_back);
    result.from = result.time_of(from);
    write_history(journal, fixed, result);
    if (seen) {
        for (const EnclosureId& id : seen->enclosures) result.sighted.push_back(result.enclosures.at(id));
    }
    if (const auto ok = check_scenario(result.scenario); !ok) return base::fail(ok.error());
    return result;
}

}  // namespace mitefall::scenario
