#include "formats/json/release.h"

#include "formats/json/after.h"
#include "formats/json/parts.h"
#include "formats/json/sure.h"

namespace mitefall::formats {
namespace {

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

Json release_json(const clearance::ReleaseAnswer& answer) {
    Json json{{"today", date(answer.today)}};
    json["animal"] = name(answer.animal);
    json["arrived"] = date(answer.arrived);
    json["usual_from"] = date(answer.usual_from);
    json["usual_to"] = date(answer.usual_to);
    json["clean_checks"] = answer.clean_checks;
    json["others"] = list(answer.others, told_after_json);
    json["mites_elsewhere"] = answer.mites_elsewhere;
    json["interval_days"] = answer.interval_days;
    json["outlook"] = release_part(answer.release, answer.arrived);
    json["detection_low"] = release_part(answer.at_low, answer.arrived);
    json["detection_high"] = release_part(answer.at_high, answer.arrived);
    return json;
}

}  // namespace mitefall::formats
