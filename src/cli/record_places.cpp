#include "cli/record_options.h"

namespace mitefall::cli {
namespace {

/// Its name, which is its short name where none is said, its climate and its floor.
template <class Place>
void add_place_options(FactOptions<Place>& options) {
    const auto by_day = [](Place & place) -> auto& { return place.climate.day; };
    const auto by_night = [](Place & place) -> auto& { return place.climate.night; };
    const auto humidity = [](Place & place) -> auto& { return place.climate.humidity; };
    options.may("--name", &Place::name, "What people call it")
        .needs("--temperature", by_day, "Temperature by day, like \"28 C\"")
        .then([=](Place& place) { by_night(place) = by_day(place); })
        .may("--night", by_night, "Temperature by night (default: as by day)")
        .number("--humidity", humidity, units::relative_humidity_percent, "Relative humidity in percent", 50)
        .number("--floor-cm2", &Place::floor, units::square_centimetres, "Floor area in square centimetres");
}

}  // namespace

FactMaker room_options(CLI::App& command) {
    using Room = records::RoomAdded;
    FactOptions<Room> options(command);
    options.needs("ID", &Room::room, "Short name, like snake-room");
    add_place_options(options);
    return options.may("--adjoins", &Room::adjoining, "Rooms next to it").then([](Room& room) {
        if (room.name.empty()) room.name = room.room.text();
    });
}

FactMaker enclosure_options(CLI::App& command) {
    using Enclosure = records::EnclosureAdded;
    FactOptions<Enclosure> options(command);
    options.needs("ID", &Enclosure::enclosure, "Short name, like a-01")
        .needs("--room", &Enclosure::room, "Room it stands in")
        .begins("--material", &Enclosure::material, "sealed (plastic, glass) or porous (wood)")
        .begins("--substrate", &Enclosure::substrate, "paper, loose or none");
    add_place_options(options);
    return options.then([](Enclosure& place) {
        if (place.name.empty()) place.name = place.enclosure.text();
    });
}

FactMaker stand_options(CLI::App& command) {
    using Stand = records::EnclosureStands;
    return FactOptions<Stand>(command)
        .needs("ENCLOSURE", &Stand::enclosure)
        .needs("--rack", &Stand::rack, "What you call the rack or shelf")
        .needs("--level", &Stand::level, "Counted from the top")
        .needs("--position", &Stand::position, "Counted from the left");
}

}  // namespace mitefall::cli
