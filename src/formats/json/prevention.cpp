#include "formats/json/prevention.h"

#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {

Json prevention_json(const plan::Prevention& prevention) {
    Json json{{"clear_now", band_json(prevention.clear_now)}};
    json["clear_there"] = band_json(prevention.clear_there);
    json["finds"] = band_json(prevention.finds);
    json["clear_if_clean"] = band_json(prevention.clear_if_clean);
    json["nothing"] = band_json(prevention.nothing);
    json["round"] = band_json(prevention.round);
    json["look"] = band_json(prevention.look);
    json["looks"] = band_json(prevention.looks);
    json["round_gain"] = band_json(prevention.round_gain);
    json["look_gain"] = band_json(prevention.look_gain);
    json["looks_gain"] = band_json(prevention.looks_gain);
    json["looked_at"] = names(prevention.looked_at);
    json["one_round"] = told_json(prevention.one_round_told);
    json["advice"] = told_json(prevention.advice);
    return json;
}

}  // namespace mitefall::formats
