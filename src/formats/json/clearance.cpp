#include "formats/json/clearance.h"

#include "formats/json/parts.h"
#include "formats/json/sure.h"

namespace mitefall::formats {
namespace {

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

}  // namespace mitefall::formats
