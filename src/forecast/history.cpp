#include "forecast/history.h"

#include <algorithm>
#include <cmath>

#include "forecast/actions.h"
#include "records/history.h"
#include "records/task_key.h"

namespace mitefall::forecast {
namespace {

using records::Collection;
using records::EnclosureId;
using records::Entry;
using units::Day;
using units::Days;

Days whole_days(units::TimeSpan span) { return Days(std::llround(units::in_days(span))); }

constexpr int sightings_last = 3;  // times the days looked back on: older ones are of another outbreak

class HistoryWriter {
  public:
    HistoryWriter(const Collection& collection, const FixedParameters& fixed, RecordedCase& into)
        : collection_(collection), fixed_(fixed), into_(into) {}

    void add_places(const Collection& at_origin) {
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
            place.animals = static_cast<int>(at_origin.animals_in(id).size());
            add_place(std::move(place), into_.enclosures[id]);
        }
        animals_ = animals_at(into_.scenario, 0);
    }

    /// `entry` must be on or after the origin.
    void add(const Entry& entry) {
        day_ = entry.day;
        time_ = into_.time_of(entry.day);
        std::visit([&](const auto& fact) { write(fact); }, entry.fact);
        whereabouts_.follow(entry.fact);
    }

    /// Entries before the origin only say where everybody is.
    void skip(const Entry& entry) { whereabouts_.follow(entry.fact); }

  private:
    void add_place(Place place, PlaceIndex& index) {
        index = into_.scenario.places.size();
        into_.scenario.places.push_back(std::move(place));
    }

    void happen(const Happening& what) { into_.scenario.events.push_back({time_, what}); }

    void act(const Action& action) { add_action(into_.scenario, action, fixed_); }

    /// The course in force binds from the day it was adopted; what was sprayed before it dried as it would.
    [[nodiscard]] bool is_kept_damp() const {
        return collection_.plan && collection_.plan->value.keep_damp && day_ >= collection_.plan->day;
    }

    [[nodiscard]] PlaceIndex place_of_animal(const records::AnimalId& animal) const {
        const auto enclosure = whereabouts_.of(animal);
        return enclosure ? into_.enclosures.at(*enclosure) : nowhere;
    }

    void write(const records::AnimalArrived& fact) {
        const PlaceIndex place = into_.enclosures.at(fact.enclosure);
        into_.arrivals.push_back({fact.animal, fact.name.empty() ? fact.animal.text() : fact.name, place,
                                  time_, into_.scenario.events.size()});
        happen(AnimalJoins{place});
        ++animals_[place];
    }

    void write(const records::AnimalMoved& fact) {
        const PlaceIndex from = place_of_animal(fact.animal);
        const PlaceIndex to = into_.enclosures.at(fact.to);
        if (from == nowhere || from == to) return;
        happen(MoveAnimal{from, to});
        --animals_[from];
        ++animals_[to];
    }

    void write(const records::AnimalLeft& fact) {
        const PlaceIndex place = place_of_animal(fact.animal);
        if (place == nowhere) return;
        happen(AnimalLeaves{place});
        --animals_[place];
    }

    /// Hands carry from each animal to all handled later; a bag holds them all, so it carries both ways.
    void write(const records::Handled& fact) {
        for (std::size_t i = 0; i < fact.animals.size(); ++i) {
            for (std::size_t j = i + 1; j < fact.animals.size(); ++j) {
                const PlaceIndex first = place_of_animal(fact.animals[i]);
                const PlaceIndex later = place_of_animal(fact.animals[j]);
                if (!fact.shared_bag) {
                    carry(first, later, &MiteParameters::contact_handled_after);
                    continue;
                }
                carry(first, later, &MiteParameters::contact_shared_bag);
                carry(later, first, &MiteParameters::contact_shared_bag);
            }
        }
    }

    /// The mites of an enclosure sit on its animals alike; one of them gives.
    void carry(PlaceIndex from, PlaceIndex to, ParameterMember chance) {
        if (from == nowhere || to == nowhere || from == to) return;
        Amount carried = Amount::drawn(chance);
        carried.factor = 1.0 / std::max(1, animals_[from]);
        happen(Contact{from, to, Reach::on_animal, carried});
    }

    void write(const records::ItemShared& fact) {
        happen(Contact{into_.enclosures.at(fact.from), into_.enclosures.at(fact.to), Reach::mobile_nest,
                       Amount::drawn(&MiteParameters::contact_shared_item)});
    }

    /// Paper that a course keeps damp. It dries on the first day on which it was not wetted again.
    struct Wetted {
        units::Strength strength;
        Day end;  ///< of the spell in which the course wets it again
        Day dry;
    };

    /// Until today what is on record counts, from today on what the course asks for.
    [[nodiscard]] bool is_wetted(const EnclosureId& enclosure, Day day) const {
        const std::string task = records::to_text(day, "redampen", enclosure.text());
        return day < collection_.day ? collection_.done.contains(task) : !collection_.skipped.contains(task);
    }

    [[nodiscard]] Day first_dry(const EnclosureId& enclosure, Day after, Day end) const {
        Day day = after + Days(1);
        while (day < end && is_wetted(enclosure, day)) day += Days(1);
        return day;
    }

    /// Days until the paper just sprayed is dry.
    [[nodiscard]] double keep_damp(const records::Treated& fact) {
        wetted_.erase(fact.enclosure);
        if (!is_kept_damp()) return 1;
        const Day end = day_ + Days(std::lround(fixed_.damp_days));
        const Day dry = first_dry(fact.enclosure, day_, end);
        wetted_[fact.enclosure] = {fact.strength, end, dry};
        return static_cast<double>((dry - day_).count());
    }

    /// Paper wetted again after it had dried; before that the spraying still tells how long it stays damp.
    void write(const records::TaskDone& fact) {
        const auto key = records::read_task_key(fact.task);
        if (!key || key->part != "redampen") return;
        const EnclosureId enclosure(key->name);
        const auto wetted = wetted_.find(enclosure);
        if (wetted == wetted_.end() || day_ < wetted->second.dry || day_ >= wetted->second.end) return;
        wetted->second.dry = first_dry(enclosure, day_, wetted->second.end);
        happen(residue_of_spray(into_.enclosures.at(enclosure), wetted->second.strength,
                                into_.time_of(wetted->second.dry), fixed_));
    }

    void write(const records::Treated& fact) {
        const PlaceIndex place = into_.enclosures.at(fact.enclosure);
        const bool is_bedding = fact.method == records::Method::spray_bedding;
        Action action{fact.method,   place, time_,
                      fact.strength, 1,     time_ + (is_bedding ? keep_damp(fact) : 1)};
        if (!fact.animals.empty() && animals_[place] > 0) {
            action.part = std::min(1.0, static_cast<double>(fact.animals.size()) / animals_[place]);
        }
        act(action);
    }

    void write(const records::RoomTreated& fact) {
        act({records::Method::treat_room, into_.rooms.at(fact.room), time_, fact.strength, 1, 0});
    }

    void write(const records::SubstrateChanged& fact) {
        wetted_.erase(fact.enclosure);
        act({records::Method::change_substrate, into_.enclosures.at(fact.enclosure), time_, {}, 1, 0});
    }

    void write(const records::Checked& fact) {
        const PlaceIndex place = into_.enclosures.at(fact.enclosure);
        note_look(place, LookedAt::both, fact.count, fact.method);
        if (fact.count != records::SeenCount::none) return;
        happen(clean_check(place, fact.method));
    }

    void write(const records::Sighted& fact) {
        const bool on_animal = fact.where == records::SeenWhere::on_animal;
        note_look(into_.enclosures.at(fact.enclosure), on_animal ? LookedAt::animal : LookedAt::nest,
                  fact.count, records::CheckMethod::look_over);
    }

    /// Clean checks on the day of the last sighting and later belong to the sweep that starts there.
    void note_look(PlaceIndex place, LookedAt where, records::SeenCount seen, records::CheckMethod method) {
        const bool is_find = seen != records::SeenCount::none;
        if (time_ < into_.from || (is_find && time_ <= into_.from))
            into_.looks.push_back({place, time_, into_.scenario.events.size(), where, seen, method});
    }

    template <class Other>
    void write(const Other&) {}

    const Collection& collection_;
    const FixedParameters& fixed_;
    RecordedCase& into_;
    records::Whereabouts whereabouts_;
    std::vector<int> animals_;
    std::map<EnclosureId, Wetted> wetted_;
    Day day_;
    double time_ = 0;
};

/// Everything from the origin of `into` to the day of `collection`. Who arrived before `begin` was there from
/// the start.
void write_history(std::span<const Entry> journal, const Collection& collection, Day begin,
                   const FixedParameters& fixed, RecordedCase& into) {
    HistoryWriter writer(collection, fixed, into);
    writer.add_places(records::collection_on(journal, begin - Days(1)));
    for (const Entry& entry : records::in_force(journal)) {
        if (entry.day > collection.day) break;
        const bool was_there = std::holds_alternative<records::AnimalArrived>(entry.fact);
        if (entry.day < into.origin || (entry.day < begin && was_there))
            writer.skip(entry);
        else
            writer.add(entry);
    }
}

}  // namespace

std::optional<LastSeen> last_seen(const Collection& today, units::TimeSpan look_back) {
    const Days window = whole_days(look_back);
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

RecordedCase recorded_since(std::span<const Entry> journal, Day today, Day origin,
                            const FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    RecordedCase result;
    result.origin = origin;
    write_history(journal, collection, origin, fixed, result);
    return result;
}

base::Result<RecordedCase> case_from_records(std::span<const Entry> journal, Day today,
                                             units::TimeSpan look_back, const FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    const Days window = whole_days(look_back);
    const std::optional<LastSeen> seen = last_seen(collection, look_back);
    const Day from = seen ? seen->day : today;
    const std::optional<Day> first = records::first_day(journal);
    RecordedCase result;
    result.origin = from - window;
    result.from = result.time_of(from);
    const bool opened_since = first && *first >= result.origin;
    const Day begin = opened_since ? *first + Days(1) : result.origin;
    write_history(journal, collection, begin, fixed, result);
    if (seen) {
        for (const EnclosureId& id : seen->enclosures) result.sighted.push_back(result.enclosures.at(id));
    }
    if (const auto ok = check_scenario(result.scenario); !ok) return base::fail(ok.error());
    return result;
}

Belief believe_records(const RecordedCase& known, const Ensemble& ensemble, const IntroductionPrior& prior,
                       std::uint64_t seed, const BeliefOptions& options) {
    BeliefRequest request;
    request.scenario = &known.scenario;
    request.ensemble = &ensemble;
    request.looks = known.looks;
    request.arrivals = known.arrivals;
    request.at = known.from;
    request.prior = prior;
    request.seed = seed;
    request.options = options;
    return believe(request);
}

}  // namespace mitefall::forecast
