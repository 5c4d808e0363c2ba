#include "formats/origin_rows.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace mitefall::formats {

namespace {

using belief::Introduction;

double chance_of(const OriginView& view, const Introduction& one) {
    return view.belief.sighted ? one.behind : one.posterior;
}

/// Ways of one contact, likeliest first, as one. They happen independently of one another, so that together
/// they are as likely as the contact was; after the looks nearly so.
OriginRow row_of(const OriginView& view, const std::vector<const Introduction*>& ways) {
    OriginRow row{*ways.front(), 0, {ways.front()->place}};
    Introduction& all = row.introduction;
    for (std::size_t i = 1; i < ways.size(); ++i) {
        all.prior += (1 - all.prior) * ways[i]->prior;
        all.posterior += (1 - all.posterior) * ways[i]->posterior;
        all.behind = std::min(1.0, all.behind + ways[i]->behind);
        row.places.push_back(ways[i]->place);
    }
    row.chance = chance_of(view, all);
    return row;
}

}  // namespace

std::vector<OriginRow> origin_rows(const OriginView& view) {
    std::vector<OriginRow> rows;
    std::map<records::FactId, std::vector<const Introduction*>> contacts;
    for (const Introduction& one : view.belief.introductions) {
        if (one.kind == belief::IntroductionKind::outside)
            contacts[one.contact].push_back(&one);
        else
            rows.push_back(row_of(view, {&one}));
    }
    const auto by_chance = [&](const Introduction* a, const Introduction* b) {
        return chance_of(view, *a) > chance_of(view, *b);
    };
    for (auto& [entry, ways] : contacts) {
        std::stable_sort(ways.begin(), ways.end(), by_chance);
        rows.push_back(row_of(view, ways));
    }
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
