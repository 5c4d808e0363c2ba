#include "cli/record_options.h"

#include <string>
#include <vector>

#include "cli/parse.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::EnclosureId;
using records::Fact;
using records::RoomId;

struct PlaceOptions {
    std::string id, name, temperature, night, room, material = "sealed", substrate = "paper";
    double humidity = 50, floor_cm2 = 0;
    std::vector<std::string> adjoining;
};

void add_climate_options(CLI::App& command, PlaceOptions& options) {
    command.add_option("--name", options.name, "What people call it");
    command.add_option("--temperature", options.temperature, "Temperature by day, like \"28 C\"")->required();
    command.add_option("--night", options.night, "Temperature by night (default: as by day)");
    command.add_option("--humidity", options.humidity, "Relative humidity in percent")->capture_default_str();
    command.add_option("--floor-cm2", options.floor_cm2, "Floor area in square centimetres")->required();
}

}  // namespace

FactMaker room_options(CLI::App& command) {
    const auto o = make_options<PlaceOptions>();
    command.add_option("ID", o->id, "Short name, like snake-room")->required();
    add_climate_options(command, *o);
    command.add_option("--adjoins", o->adjoining, "Rooms next to it");
    return [o]() -> Result<Fact> {
        const auto climate = parse_climate(o->temperature, o->night, o->humidity);
        if (!climate) return fail(climate.error());
        std::vector<RoomId> rooms;
        for (const std::string& id : o->adjoining) rooms.emplace_back(id);
        return records::RoomAdded{RoomId(o->id), o->name.empty() ? o->id : o->name, *climate, rooms,
                                  units::square_centimetres(o->floor_cm2)};
    };
}

FactMaker enclosure_options(CLI::App& command) {
    const auto o = make_options<PlaceOptions>();
    command.add_option("ID", o->id, "Short name, like a-01")->required();
    command.add_option("--room", o->room, "Room it stands in")->required();
    command.add_option("--material", o->material, "sealed (plastic, glass) or porous (wood)")
        ->capture_default_str();
    command.add_option("--substrate", o->substrate, "paper, loose or none")->capture_default_str();
    add_climate_options(command, *o);
    return [o]() -> Result<Fact> {
        const auto climate = parse_climate(o->temperature, o->night, o->humidity);
        if (!climate) return fail(climate.error());
        const auto material = parse_choice<records::Material>("--material", o->material);
        if (!material) return fail(material.error());
        const auto substrate = parse_choice<records::Substrate>("--substrate", o->substrate);
        if (!substrate) return fail(substrate.error());
        return records::EnclosureAdded{EnclosureId(o->id),
                                       o->name.empty() ? o->id : o->name,
                                       RoomId(o->room),
                                       *material,
                                       *substrate,
                                       *climate,
                                       units::square_centimetres(o->floor_cm2)};
    };
}

FactMaker stand_options(CLI::App& command) {
    const auto o = make_options<records::EnclosureStands>();
    const auto id = make_options<std::string>();
    command.add_option("ENCLOSURE", *id)->required();
    command.add_option("--rack", o->rack, "What you call the rack or shelf")->required();
    command.add_option("--level", o->level, "Counted from the top")->required();
    command.add_option("--position", o->position, "Counted from the left")->required();
    return [o, id]() -> Result<Fact> {
        return records::EnclosureStands{EnclosureId(*id), o->rack, o->level, o->position};
    };
}

}  // namespace mitefall::cli
