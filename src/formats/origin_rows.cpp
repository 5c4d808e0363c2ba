#include "formats/origin_rows.h"

#include <algorithm>
#include <cmath>

namespace mitefall::formats {

using belief::Introduction;

std::vector<OriginRow> origin_rows(const OriginView& view) {
    std::vector<OriginRow> rows;
    for (const Introduction& one : view.belief.introductions)
        rows.push_back({&one, view.belief.sighted ? one.behind : one.posterior});
    std::stable_sort(rows.begin(), rows.end(),
                     [](const OriginRow& a, const OriginRow& b) { return a.chance > b.chance; });
    return rows;
}

std::string key_of(const OriginView& view, scenario::PlaceIndex place) {
    for (const auto& [id, index] : view.known.enclosures) {
        if (index == place) return id.text();
    }
    for (const auto& [id, index] : view.known.rooms) {
        if (index == place) return id.text();
    }
    return view.known.scenario.places.at(place).name;
}

bool is_room(const OriginView& view, scenario::PlaceIndex place) {
    return view.known.scenario.places.at(place).is_room;
}

units::Day day_of(const OriginView& view, double time) {
    return view.known.origin + units::Days(static_cast<int>(std::floor(std::isfinite(time) ? time : 0)));
}

}  // namespace mitefall::formats
