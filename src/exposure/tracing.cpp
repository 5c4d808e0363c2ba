#include "exposure/tracing.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_map>

#include "exposure/telling.h"
#include "records/outside.h"
#include "units/whole_days.h"

namespace mitefall::exposure {
namespace {

using base::Result;
using records::Entry;

using AnimalNames = std::unordered_map<records::AnimalId, std::string>;

AnimalNames read_names(std::span<const Entry> entries) {
    AnimalNames names;
    for (const Entry& entry : entries) {
        const auto* const arrived = std::get_if<records::AnimalArrived>(&entry.fact);
        if (arrived != nullptr) names.insert_or_assign(arrived->animal, arrived->name);
    }
    return names;
}

Result<std::vector<std::size_t>> find_sighted(const Places& places,
                                              std::span<const records::EnclosureId> sighted, units::Day day) {
    std::vector<std::size_t> found;
    for (const records::EnclosureId& id : sighted) {
        const auto place = places.index.find(id);
        if (place == places.index.end()) {
            return base::fail({base::ErrorKind::not_found,
                               "there is no such enclosure on " + units::show_day(day),
                               id.text(),
                               "an enclosure on record that day",
                               "check the name and the day",
                               {}});
        }
        found.push_back(place->second);
    }
    if (!found.empty()) return found;
    return base::fail(base::invalid("nothing to trace", "", "at least one enclosure with a sighting",
                                    "name the enclosure in which mites were seen"));
}

/// Most exposed first; equal ones by name, so that the order never depends on the search.
void rank(std::vector<Exposed>& list) {
    std::sort(list.begin(), list.end(), [](const Exposed& a, const Exposed& b) {
        return a.chance != b.chance ? a.chance > b.chance : a.enclosure < b.enclosure;
    });
}

/// What the search found, told for people.
class Report {
  public:
    Report(const Places& places, const Paths& paths, const Telling& telling,
           std::span<const std::size_t> sighted)
        : places_(places), paths_(paths), telling_(telling), sighted_(places.enclosures.size()) {
        for (const std::size_t enclosure : sighted) sighted_[enclosure] = true;
    }

    [[nodiscard]] std::vector<Exposed> list_exposed() const {
        std::vector<Exposed> list;
        for (std::size_t i = 0; i < sighted_.size(); ++i) list.push_back(tell(i, paths_.best[i]));
        rank(list);
        return list;
    }

    [[nodiscard]] std::vector<Exposed> list_sources() const {
        std::vector<Exposed> list;
        for (std::size_t i = 0; i < sighted_.size(); ++i) {
            if (!sighted_[i] && !paths_.backward[i].empty())
                list.push_back(tell(i, paths_.backward[i].front()));
        }
        rank(list);
        return list;
    }

    [[nodiscard]] std::vector<Arrival> list_arrivals(const ContactList& contacts, units::Day from) const {
        std::vector<Arrival> list;
        for (const Arrived& arrived : contacts.arrivals) {
            const double chance = chance_after(arrived);
            if (chance <= 0) continue;
            list.push_back({*arrived.animal, places_.enclosures[arrived.enclosure]->id,
                            from + units::Days(arrived.day), chance, telling_.tell_arrival(arrived)});
        }
        std::sort(list.begin(), list.end(), [](const Arrival& a, const Arrival& b) {
            return std::tie(b.chance, b.day, a.animal) < std::tie(a.chance, a.day, b.animal);
        });
        return list;
    }

  private:
    [[nodiscard]] Exposed tell(std::size_t enclosure, std::ptrdiff_t label) const {
        Exposed exposed{
            places_.enclosures[enclosure]->id, 0, {}, sighted_[enclosure], telling_.tell_nothing()};
        if (label < 0) return exposed;
        exposed.chance = paths_.labels[static_cast<std::size_t>(label)].chance;
        exposed.path = telling_.tell_path(paths_, label);
        exposed.what = tell_all(exposed.path);
        return exposed;
    }

    /// The likeliest way back from the sighting to the enclosure at a moment after the arrival; 0 if there is
    /// none.
    [[nodiscard]] double chance_after(const Arrived& arrived) const {
        for (const std::ptrdiff_t at : paths_.backward[arrived.enclosure]) {
            const Label& label = paths_.labels[static_cast<std::size_t>(at)];
            if (-label.clock > arrived.order) return label.chance;
        }
        return 0;
    }

    const Places& places_;
    const Paths& paths_;
    const Telling& telling_;
    std::vector<bool> sighted_;
};

/// Where each contact with the outside may have left something, and how likely: the places it may have
/// reached are alike, together as likely as its kind; what is loose in a room walks into an enclosure or
/// dies.
class Entrances {
  public:
    Entrances(const Places& places, const Walking& walking, const evidence::Tables& tables)
        : places_(places), walking_(walking), tables_(tables) {
        for (std::size_t i = 0; i < places.rooms.size(); ++i) rooms_.emplace(places.rooms[i]->id, i);
    }

    [[nodiscard]] std::vector<Label> of(const ContactList& list) {
        for (std::size_t i = 0; i < list.outside.size(); ++i) add(list.outside[i], i);
        return std::move(starts_);
    }

  private:
    void add(const FromOutside& contact, std::size_t index) {
        std::set<std::size_t> rooms, enclosures;
        for (const records::RoomId& id : contact.fact->rooms) rooms.insert(rooms_.at(id));
        for (const records::EnclosureId& id : contact.fact->enclosures)
            enclosures.insert(places_.index.at(id));
        if (rooms.empty() && enclosures.empty()) {
            for (std::size_t room = 0; room < places_.rooms.size(); ++room) rooms.insert(room);
        }
        const double whole = as_fraction(tables_.part(records::outside_row(contact.fact->what)).value);
        const auto number = static_cast<double>(rooms.size() + enclosures.size());
        const double each = -std::expm1(std::log1p(-whole) / number);
        for (const std::size_t enclosure : enclosures) start(contact, index, enclosure, each);
        for (const std::size_t room : rooms) {
            for (const std::size_t other : walking_.rooms_reached(room)) {
                for (const std::size_t enclosure : places_.enclosures_in[other])
                    start(contact, index, enclosure, each * walking_.into_each(room, other));
            }
        }
    }

    void start(const FromOutside& contact, std::size_t index, std::size_t enclosure, double chance) {
        if (places_.begin[enclosure] > contact.day) return;  // it was not there yet
        starts_.push_back({chance, chance, Side::onward, enclosure, contact.order, contact.day, -1, -1, false,
                           static_cast<std::ptrdiff_t>(index)});
    }

    const Places& places_;
    const Walking& walking_;
    const evidence::Tables& tables_;
    std::unordered_map<records::RoomId, std::size_t> rooms_;
    std::vector<Label> starts_;
};

}  // namespace

Result<Tracing> trace(std::span<const Entry> journal, const evidence::Tables& tables,
                      std::span<const records::EnclosureId> sighted, units::Day day) {
    return trace(journal, records::collection_on(journal, day), tables, sighted);
}

Result<Tracing> trace(std::span<const Entry> journal, const records::Collection& collection,
                      const evidence::Tables& tables, std::span<const records::EnclosureId> sighted) {
    const units::Day day = collection.day;
    const units::Days look_back = units::at_least_days(tables.time("look_back").value);
    const units::Day from = day - look_back;
    const Places places(collection, journal, from);
    const auto found = find_sighted(places, sighted, day);
    if (!found) return base::fail(found.error());

    const std::vector<Entry> entries = records::in_force(journal);
    const ContactList contacts = read_contacts(entries, places, ContactChances(tables), from, day);
    const Walking walking(places, tables);
    const Paths paths = find_paths({places, contacts, walking, static_cast<int>(look_back.count())}, *found);

    const AnimalNames names = read_names(entries);
    const Telling telling(places, contacts, names, from, day);
    const Report report(places, paths, telling, *found);
    return Tracing{from, day, report.list_exposed(), report.list_sources(),
                   report.list_arrivals(contacts, from)};
}

Result<Tracing> trace_outside(std::span<const Entry> journal, const records::Collection& collection,
                              const evidence::Tables& tables) {
    const units::Day day = collection.day;
    const units::Days look_back = units::at_least_days(tables.time("look_back").value);
    const units::Day from = day - look_back;
    const Places places(collection, journal, from);
    const std::vector<Entry> entries = records::in_force(journal);
    const ContactList contacts = read_contacts(entries, places, ContactChances(tables), from, day);
    if (contacts.outside.empty() || places.enclosures.empty())
        return base::fail({base::ErrorKind::not_found,
                           "no contact with the outside is on record",
                           {},
                           {},
                           "record a show, a visitor or a borrowed thing with \"record outside\"",
                           {}});
    const Walking walking(places, tables);
    const Paths paths = follow_onward({places, contacts, walking, static_cast<int>(look_back.count())},
                                      Entrances(places, walking, tables).of(contacts));
    const AnimalNames names = read_names(entries);
    const Telling telling(places, contacts, names, from, day);
    return Tracing{from, day, Report(places, paths, telling, {}).list_exposed(), {}, {}};
}

}  // namespace mitefall::exposure
