#include "safety/water.h"

#include <algorithm>
#include <cmath>

namespace mitefall::safety {
namespace {

units::Days longest_out(const evidence::Tables& tables) {
    return units::Days(std::lround(std::floor(units::in_days(tables.time("water_out_max").value))));
}

}  // namespace

WaterDish water_around(const records::Enclosure& enclosure, units::Day sprayed,
                       const evidence::Tables& tables) {
    const bool is_out = enclosure.water_is_out && enclosure.water_out_since;
    const units::Day out_on = is_out ? std::min(*enclosure.water_out_since, sprayed) : sprayed;
    return {out_on, out_on + longest_out(tables)};
}

bool water_is_overdue(const records::Enclosure& enclosure, units::Day today, const evidence::Tables& tables) {
    if (!enclosure.water_is_out) return false;
    return !enclosure.water_out_since || today - *enclosure.water_out_since > longest_out(tables);
}

bool water_was_overdue(const records::Enclosure& enclosure, units::Day back, const evidence::Tables& tables) {
    if (enclosure.water_is_out || enclosure.dry_spells.empty()) return false;
    const records::DrySpell& last = enclosure.dry_spells.back();
    return last.back == back && last.back - last.out > longest_out(tables);
}

bool water_is_due(const records::Enclosure& enclosure, units::Day today, const evidence::Tables& tables) {
    if (!enclosure.water_is_out) return false;
    // Out since nobody knows when is out too long.
    return !enclosure.water_out_since || today - *enclosure.water_out_since >= longest_out(tables);
}

}  // namespace mitefall::safety
