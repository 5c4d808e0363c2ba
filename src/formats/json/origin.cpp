#include "formats/json/origin.h"

#include <cmath>

#include "formats/json/parts.h"
#include "formats/origin_rows.h"

namespace mitefall::formats {
namespace {

/// Smaller chances are left out of the lists.
constexpr double least_listed = 0.001;

Json date_or_null(const OriginView& view, double time) {
    return std::isfinite(time) ? date(day_of(view, time)) : Json(nullptr);
}

/// Of contact with the outside: what it was, and every place it may have reached.
Json contact_json(const OriginView& view, const OriginRow& row) {
    return {{"what", records::to_text(row.introduction.what)},
            {"entry", row.introduction.contact},
            {"places", list(row.places, [&](scenario::PlaceIndex place) { return key_of(view, place); })}};
}

Json introduction_json(const OriginView& view, const OriginRow& row) {
    const belief::Introduction& one = row.introduction;
    Json json{{"kind", belief::to_text(one.kind)}};
    if (one.kind == belief::IntroductionKind::outside) json["contact"] = contact_json(view, row);
    json["animal"] = name(one.animal);
    json["place"] = key_of(view, one.place);
    json["is_room"] = is_room(view, one.place);
    json["first_day"] = date(day_of(view, one.first_day));
    json["last_day"] = date(day_of(view, one.last_day));
    json["chance_before"] = number(one.prior);
    json["chance"] = number(one.posterior);
    json["behind_last_seen"] = view.belief.sighted ? number(one.behind) : Json(nullptr);
    json["entered_p10"] = date_or_null(view, one.entered_p10);
    json["entered_p50"] = date_or_null(view, one.entered_p50);
    json["entered_p90"] = date_or_null(view, one.entered_p90);
    return json;
}

Json mites_json(const belief::PlaceBelief& mites) {
    return {{"chance_of_any", number(mites.any)},
            {"mean", number(mites.expected)},
            {"p10", number(mites.p10)},
            {"p90", number(mites.p90)}};
}

Json place_json(const OriginView& view, scenario::PlaceIndex place, const belief::PlaceBelief& mites) {
    return {{"place", key_of(view, place)}, {"is_room", is_room(view, place)}, {"mites", mites_json(mites)}};
}

Json doubt_json(const OriginView& view, const belief::Doubt& doubt) {
    const scenario::Look& look = view.known.looks.at(doubt.look);
    return {{"place", key_of(view, look.place)},
            {"day", date(day_of(view, look.time))},
            {"seen", records::to_text(look.seen)},
            {"chance_wrong", number(doubt.chance)}};
}

Json introductions_json(const OriginView& view) {
    Json array = Json::array();
    for (const OriginRow& row : origin_rows(view)) {
        if (row.chance >= least_listed || row.introduction.posterior >= least_listed)
            array.push_back(introduction_json(view, row));
    }
    return array;
}

Json places_json(const OriginView& view) {
    const auto places = belief::mites_by_place(view.belief, view.known.scenario.places.size());
    Json array = Json::array();
    for (scenario::PlaceIndex p = 0; p < places.size(); ++p) {
        if (places[p].any >= least_listed) array.push_back(place_json(view, p, places[p]));
    }
    return array;
}

}  // namespace

Json origin_json(const OriginView& view) {
    const belief::Belief& belief = view.belief;
    Json json{{"day", date(day_of(view, belief.at))}};
    json["looked_back_to"] = date(view.known.origin);
    json["sighted"] = belief.sighted;
    json["looks"] = belief.looks;
    json["nothing_came"] = number(belief.nothing_came);
    json["introductions"] = introductions_json(view);
    json["places"] = places_json(view);
    json["mites"] = mites_json(belief::mites_in_all(belief));
    json["doubts"] = list(belief.doubts, [&](const auto& doubt) { return doubt_json(view, doubt); });
    json["information_bits"] = number(belief.information);
    json["effective_particles"] = number(belief.effective_particles);
    json["effective_draws"] = number(belief.effective_draws);
    json["histories"] = belief.histories;
    return json;
}

}  // namespace mitefall::formats
