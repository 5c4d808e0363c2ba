#pragma once

#include "service/keeper.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

// A room with wood in which mites were seen today, and what a test puts beside it.
namespace mitefall::service {

inline const units::Day today = units::parse_day("2026-11-25").value();
inline const units::Day the_beginning = units::parse_day("2026-01-01").value();
inline const Now now{today, "2026-11-25T20:00:00Z"};

inline records::Climate climate_of(double day_c, double night_c) {
    return {units::celsius(day_c), units::celsius(night_c), units::relative_humidity_percent(60)};
}

inline records::EnclosureAdded enclosure(const std::string& id, records::Material material,
                                         const records::Climate& climate = climate_of(28, 26)) {
    return {records::EnclosureId(id),  id,      records::RoomId("den"),         material,
            records::Substrate::paper, climate, units::square_centimetres(2500)};
}

class WithADen : public store::Scratch {
  protected:
    /// "wood" with ivy in it and mites, an empty "tub" beside it, both of that climate; then `more`.
    Keeper den(const std::string& name, const records::Climate& climate, std::vector<DatedFact> more = {}) {
        using namespace records;
        auto keeper = Keeper::create(at(name).string(), knowledge()).value();
        std::vector<DatedFact> facts{
            {the_beginning,
             RoomAdded{RoomId("den"), "den", climate_of(26, 24), {}, units::square_centimetres(90000)}},
            {the_beginning, enclosure("wood", Material::porous, climate)},
            {the_beginning, enclosure("tub", Material::sealed, climate)},
            {the_beginning, AnimalArrived{AnimalId("ivy"), "ivy", "corn snake", "", EnclosureId("wood")}},
            {today, Sighted{EnclosureId("wood"), SeenCount::few, SeenWhere::on_animal}}};
        facts.insert(facts.end(), more.begin(), more.end());
        const auto ids = keeper.record_all(facts, now);
        if (!ids) throw std::runtime_error(ids.error().message());
        return keeper;
    }
};

}  // namespace mitefall::service
