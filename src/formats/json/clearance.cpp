#include <cmath>

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

Json sureness_json(const clearance::Sureness& sure) {
    return {{"clear", band_json(sure.clear)},
            {"risk", band_json(sure.risk)},
            {"effective_draws", number(sure.effective_draws)}};
}

Json day_json(units::Day origin, const std::optional<double>& time) {
    if (!time) return nullptr;
    return date(origin + units::Days(static_cast<int>(std::lround(*time))));
}

Json reached_json(const clearance::Reached& reached, units::Day origin) {
    return {{"level", number(reached.level)},
            {"at_mean", day_json(origin, reached.at_mean)},
            {"at_cautious", day_json(origin, reached.at_cautious)}};
}

Json reached_list(const std::vector<clearance::Reached>& levels, units::Day origin) {
    return list(levels, [&](const auto& reached) { return reached_json(reached, origin); });
}

Json point_json(const clearance::OutlookPoint& point, units::Day origin) {
    return {{"day", day_json(origin, point.time)},
            {"checked", sureness_json(point.checked)},
            {"waited", point.waited ? sureness_json(*point.waited) : Json(nullptr)},
            {"all_clean", number(point.all_clean)}};
}

Json outlook_json(const clearance::Outlook& outlook, units::Day origin) {
    return {{"points", list(outlook.points, [&](const auto& point) { return point_json(point, origin); })},
            {"checked", reached_list(outlook.checked, origin)},
            {"waited", reached_list(outlook.waited, origin)}};
}

Json place_json(const clearance::SureOf& place) {
    return {{"room", name(place.room)},
            {"enclosures", names(place.enclosures)},
            {"sure", sureness_json(place.sure)}};
}

Json check_json(const clearance::NextCheck& check) {
    const clearance::CheckValue& value = check.value;
    return {{"enclosures", names(check.enclosures)},
            {"method", records::to_text(value.candidate.method)},
            {"day", date(check.day)},
            {"finds_if_left", number(value.finds_if_left)},
            {"before", sureness_json(value.before)},
            {"if_clean", sureness_json(value.if_clean)},
            {"animals_in_hand", check.animals_in_hand},
            {"work_hours", number(units::in_hours(check.work))}};
}

Json spot_json(const clearance::SpotCheck& spot) {
    return {{"enclosures", spot.enclosures},
            {"with_mites", spot.with_mites},
            {"confidence", number(spot.confidence)},
            {"to_check", spot.to_check ? Json(*spot.to_check) : Json(nullptr)}};
}

Json release_part(const clearance::Release& release, units::Day arrived) {
    return {
        {"prior", number(release.prior)},
        {"points",
         list(release.points,
              [&](const auto& point) {
                  return Json{{"day", day_json(arrived, point.time)}, {"none", sureness_json(point.none)}};
              })},
        {"by_chance", reached_list(release.by_chance, arrived)},
        {"no_sooner", reached_list(release.no_sooner, arrived)}};
}

}  // namespace

Json clearance_json(const clearance::CollectionAnswer& answer) {
    Json json{{"today", date(answer.today)}};
    json["last_sighting"] = date(answer.last_sighting);
    json["course_goes_on"] = answer.course_goes_on;
    json["looked_at"] = names(answer.looked_at);
    json["method"] = records::to_text(answer.method);
    json["interval_days"] = answer.interval_days;
    json["collection"] = sureness_json(answer.outlook.points.front().checked);
    json["places"] = list(answer.places, place_json);
    json["outlook"] = outlook_json(answer.outlook, answer.origin);
    json["detection_low"] = outlook_json(answer.at_low, answer.origin);
    json["detection_high"] = outlook_json(answer.at_high, answer.origin);
    return json;
}

Json next_check_json(const clearance::NextCheckAnswer& answer) {
    Json json{{"today", date(answer.today)}};
    json["last_sighting"] = date(answer.last_sighting);
    json["checks"] = list(answer.checks, check_json);
    json["spot_check"] = spot_json(answer.spot);
    return json;
}

Json release_json(const clearance::ReleaseAnswer& answer) {
    Json json{{"today", date(answer.today)}};
    json["animal"] = name(answer.animal);
    json["arrived"] = date(answer.arrived);
    json["usual_from"] = date(answer.usual_from);
    json["usual_to"] = date(answer.usual_to);
    json["clean_checks"] = answer.clean_checks;
    json["mites_elsewhere"] = answer.mites_elsewhere;
    json["interval_days"] = answer.interval_days;
    json["outlook"] = release_part(answer.release, answer.arrived);
    json["detection_low"] = release_part(answer.at_low, answer.arrived);
    json["detection_high"] = release_part(answer.at_high, answer.arrived);
    return json;
}

}  // namespace mitefall::formats
