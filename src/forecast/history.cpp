#include "forecast/history.h"

#include <algorithm>
#include <cmath>

#include "forecast/actions.h"
#include "forecast/seen.h"
#include "records/history.h"

namespace mitefall::forecast {
namespace {

using records::Collection;
using records::EnclosureId;
using records::Entry;
using units::Day;
using units::Days;

Days whole_days(units::TimeSpan span) { return Days(std::llround(units::in_days(span))); }

struct Suspect {
    EnclosureId enclosure;
    Day seen;
    Day entered;
    records::Sighted sighted;
};

/// The latest sighting of each enclosure, and when its mites are taken to have come in.
std::vector<Suspect> find_suspects(const Collection& collection, Day today, units::TimeSpan look_back) {
    std::map<EnclosureId, Suspect> latest;
    for (const auto& sighting : collection.sightings) {
        if (sighting.day + whole_days(look_back) < today) continue;
        Suspect suspect{sighting.value.enclosure, sighting.day, sighting.day - whole_days(look_back),
                        sighting.value};
        for (const records::Animal* const animal : collection.animals_in(suspect.enclosure)) {
            if (animal->arrived > suspect.entered && animal->arrived < suspect.seen)
                suspect.entered = animal->arrived;
        }
        latest.insert_or_assign(suspect.enclosure, suspect);
    }
    std::vector<Suspect> suspects;
    for (auto& [id, suspect] : latest) suspects.push_back(std::move(suspect));
    return suspects;
}

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

    void happen(Happening what) { into_.scenario.events.push_back({time_, std::move(what)}); }

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

    void write(const records::Treated& fact) {
        const PlaceIndex place = into_.enclosures.at(fact.enclosure);
        Action action{fact.method,   place, time_,
                      fact.strength, 1,     time_ + (is_kept_damp() ? fixed_.damp_days : 1)};
        if (!fact.animals.empty() && animals_[place] > 0) {
            action.part = std::min(1.0, static_cast<double>(fact.animals.size()) / animals_[place]);
        }
        act(action);
    }

    void write(const records::RoomTreated& fact) {
        act({records::Method::treat_room, into_.rooms.at(fact.room), time_, fact.strength, 1, 0});
    }

    void write(const records::SubstrateChanged& fact) {
        act({records::Method::change_substrate, into_.enclosures.at(fact.enclosure), time_, {}, 1, 0});
    }

    void write(const records::Checked& fact) {
        if (fact.count != records::SeenCount::none) return;
        happen(clean_check(into_.enclosures.at(fact.enclosure), fact.method));
    }

    template <class Other>
    void write(const Other&) {}

    const Collection& collection_;
    const FixedParameters& fixed_;
    RecordedCase& into_;
    records::Whereabouts whereabouts_;
    std::vector<int> animals_;
    Day day_;
    double time_ = 0;
};

}  // namespace

RecordedCase recorded_since(std::span<const Entry> journal, Day today, Day origin,
                            const FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    RecordedCase result;
    result.origin = origin;
    HistoryWriter writer(collection, fixed, result);
    writer.add_places(records::collection_on(journal, origin - Days(1)));
    for (const Entry& entry : records::in_force(journal)) {
        if (entry.day > today) break;
        if (entry.day < origin)
            writer.skip(entry);
        else
            writer.add(entry);
    }
    return result;
}

base::Result<RecordedCase> case_from_records(std::span<const Entry> journal, Day today,
                                             units::TimeSpan look_back, const FixedParameters& fixed) {
    const Collection collection = records::collection_on(journal, today);
    const std::vector<Suspect> suspects = find_suspects(collection, today, look_back);
    if (suspects.empty()) {
        return base::fail({base::ErrorKind::not_found,
                           "no mite has been reported lately",
                           {},
                           "a forecast starts from a sighting of the last " +
                               std::to_string(whole_days(look_back).count()) + " days",
                           "record what you saw with \"record sighting\"",
                           {}});
    }
    Day origin = suspects.front().entered;
    for (const Suspect& suspect : suspects) origin = std::min(origin, suspect.entered);
    RecordedCase result = recorded_since(journal, today, origin, fixed);
    for (const Suspect& suspect : suspects) {
        const PlaceIndex place = result.enclosures.at(suspect.enclosure);
        const SeenRange range = range_of(suspect.sighted.count);
        result.start.push_back({place, result.time_of(suspect.entered), place, result.time_of(suspect.seen),
                                suspect.sighted.where == records::SeenWhere::on_animal, range.low,
                                range.high});
        result.from = std::max(result.from, result.time_of(suspect.seen));
    }
    if (const auto ok = check_scenario(result.scenario); !ok) return base::fail(ok.error());
    return result;
}

}  // namespace mitefall::forecast
