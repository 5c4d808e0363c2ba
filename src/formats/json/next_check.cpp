#include "formats/json/next_check.h"

#include "formats/json/parts.h"
#include "formats/json/sure.h"

namespace mitefall::formats {
namespace {

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

}  // namespace

Json next_check_json(const clearance::NextCheckAnswer& answer) {
    Json json{{"today", date(answer.today)}};
    json["last_sighting"] = date(answer.last_sighting);
    json["checks"] = list(answer.checks, check_json);
    json["spot_check"] = spot_json(answer.spot);
    return json;
}

}  // namespace mitefall::formats
