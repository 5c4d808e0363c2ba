#include "formats/casefile/places.h"

#include <algorithm>

#include "records/limits.h"

namespace mitefall::formats {
namespace {

using scenario::nowhere;
using scenario::Place;
using scenario::PlaceIndex;
using scenario::Scenario;

constexpr Range temperature_range{-10, 60, false, false};
constexpr Range humidity_range{0, 100, false, false};
constexpr Range animals_range{0, 10000, false, true};

std::string read_name(Fields& fields) {
    const std::string name = fields.text("name");
    if (const auto good = records::check_needed_text("name of a place", name); !good) {
        fields.fault().note(good.error(), fields.pointer("name"));
    }
    return name;
}

bool read_is_room(Fields& fields) {
    const std::string kind = fields.text("kind");
    if (kind != "room" && kind != "enclosure")
        fields.refuse("kind", "there is no such choice", kind, "room, enclosure");
    return kind == "room";
}

void add_once(std::vector<PlaceIndex>& places, PlaceIndex place) {
    if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
}

}  // namespace

records::Climate read_climate(Fields& fields) {
    records::Climate climate;
    const Json* const temperature = fields.need("temperature_c");
    if (temperature != nullptr && temperature->is_object()) {
        Fields halves(*temperature, fields.pointer("temperature_c"), fields.fault());
        climate.day = units::celsius(halves.number("day", temperature_range));
        climate.night = units::celsius(halves.number("night", temperature_range));
        halves.finish();
    } else {
        climate.day = climate.night = units::celsius(fields.number("temperature_c", temperature_range));
    }
    climate.humidity = units::relative_humidity_percent(fields.number("humidity_percent", humidity_range));
    return climate;
}

void CasePlaces::read(const Json& array, const std::string& pointer, Fault& fault, Scenario& scenario) {
    for_elements(array, pointer, fault,
                 [&](const Json& place, const std::string& at) { read_place(place, at, fault, scenario); });
    if (scenario.places.empty()) {
        fault.note(base::invalid("there is no place", "", "at least one", "add a room or an enclosure"),
                   pointer);
    }
    if (fault.found()) return;
    for_elements(array, pointer, fault,
                 [&](const Json& place, const std::string& at) { connect(place, at, fault, scenario); });
}

void CasePlaces::read_place(const Json& object, const std::string& pointer, Fault& fault,
                            Scenario& scenario) {
    Fields fields(object, pointer, fault);
    Place place;
    place.name = read_name(fields);
    place.is_room = read_is_room(fields);
    place.climate = read_climate(fields);
    if (place.is_room) {
        static_cast<void>(fields.find("adjoining"));
    } else {
        static_cast<void>(fields.find("room"));
        place.material = fields.word("material", records::Material::sealed);
        place.animals = static_cast<int>(fields.number("animals", animals_range));
    }
    fields.finish();
    if (!by_name_.emplace(place.name, Named{scenario.places.size(), place.is_room}).second) {
        fields.refuse("name", "two places have this name", place.name.substr(0, 60), "each name once");
    }
    if (place.is_room) rooms_.insert(scenario.places.size());
    scenario.places.push_back(std::move(place));
}

void CasePlaces::connect(const Json& object, const std::string& pointer, Fault& fault,
                         Scenario& scenario) const {
    Fields fields(object, pointer, fault);
    const PlaceIndex index = find(fields, "name", PlaceNeed::any);
    if (fault.found()) return;
    if (fields.find("room") != nullptr) {
        scenario.places[index].room = find(fields, "room", PlaceNeed::room);
    }
    if (const Json* const rooms = fields.find("adjoining")) {
        adjoin(*rooms, fields.pointer("adjoining"), fault, index, scenario);
    }
}

void CasePlaces::adjoin(const Json& rooms, const std::string& pointer, Fault& fault, PlaceIndex room,
                        Scenario& scenario) const {
    for_elements(rooms, pointer, fault, [&](const Json& other, const std::string& at) {
        const auto found = other.is_string() ? by_name_.find(other.get<std::string>()) : by_name_.end();
        if (found == by_name_.end() || !found->second.is_room || found->second.index == room) {
            return fault.note(base::invalid("not another room of this case", shown(other),
                                            "the name of a room", "correct the name"),
                              at);
        }
        add_once(scenario.places[room].adjoining, found->second.index);
        add_once(scenario.places[found->second.index].adjoining, room);
    });
}

PlaceIndex CasePlaces::find(Fields& fields, std::string_view key, PlaceNeed need) const {
    const std::string name = fields.text(key);
    const auto found = by_name_.find(name);
    const bool fits = found != by_name_.end() &&
                      (need == PlaceNeed::any || found->second.is_room == (need == PlaceNeed::room));
    if (fits) return found->second.index;
    static constexpr std::string_view wanted[] = {"the name of a place of this case",
                                                  "the name of an enclosure of this case",
                                                  "the name of a room of this case"};
    fields.refuse(key, found == by_name_.end() ? "there is no such place" : "the wrong sort of place",
                  name.substr(0, 60), std::string(wanted[static_cast<std::size_t>(need)]));
    return nowhere;
}

}  // namespace mitefall::formats
