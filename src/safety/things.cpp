#include "safety/things.h"

#include "safety/gates.h"
#include "units/whole_days.h"

namespace mitefall::safety {
namespace {

using records::ThingMethod;

units::Days away_for(ThingMethod method, const evidence::Tables& tables) {
    switch (method) {
        case ThingMethod::dry_heat: return units::at_least_days(tables.time("heat_objects_time").value);
        case ThingMethod::freeze: return units::at_least_days(tables.time("freeze_time").value);
        case ThingMethod::spray_and_air: return units::at_least_days(tables.time("pyrethroid_airing").value);
        case ThingMethod::wash_hot:
        case ThingMethod::throw_away: break;
    }
    return units::Days(0);
}

void heed_method(ThingMethod method, const evidence::Tables& tables, std::vector<Caution>& cautions) {
    switch (method) {
        case ThingMethod::wash_hot: heed(cautions, tables, says::dry_before_it_goes_back()); break;
        case ThingMethod::dry_heat:
            heed(cautions, tables,
                 says::heat_all_through(tables.temperature("heat_objects_temperature").value,
                                        tables.time("heat_objects_time").value));
            heed(cautions, tables, says::fire());
            break;
        case ThingMethod::freeze:
            heed(cautions, tables,
                 says::cold_all_through(tables.temperature("freeze_temperature").value,
                                        tables.time("freeze_time").value));
            break;
        case ThingMethod::throw_away:
        case ThingMethod::spray_and_air: break;
    }
}

}  // namespace

units::Day back_from(ThingMethod method, units::Day day, const evidence::Tables& tables) {
    return day + away_for(method, tables);
}

bool is_away(const records::Thing& thing, units::Day day, const evidence::Tables& tables) {
    return !thing.treated.empty() &&
           day < back_from(thing.treated.back().value, thing.treated.back().day, tables);
}

std::vector<Caution> cautions_for(records::ThingKind kind, ThingMethod method,
                                  const evidence::Tables& tables) {
    std::vector<Caution> cautions;
    heed(cautions, tables, says::out_in_a_bag());
    if (records::row_of(kind).is_electric) heed(cautions, tables, says::unplug_first());
    heed_method(method, tables, cautions);
    return cautions;
}

Permit permit_spray(const Case& with, const records::Thing& thing, units::Day day) {
    const units::Strength permethrin = with.tables.strength("permethrin_strength").value;
    if (thing.enclosure.empty())
        return permit_room(with, thing.room, {records::Method::treat_room, permethrin, day}, {});
    return permit_enclosure(with, thing.enclosure, {records::Method::permethrin_empty, permethrin, day}, {});
}

}  // namespace mitefall::safety
