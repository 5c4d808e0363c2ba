#include "formats/json/procedure.h"

#include "formats/json/parts.h"

namespace mitefall::formats {

Json procedure_json(const plan::Procedure& told) {
    Json json{{"looks", dates(told.looks)}};
    json["looked_at"] = names(told.looked_at);
    json["by"] = date(told.by);
    json["once"] = band_json(told.once);
    json["found"] = told.found ? band_json(*told.found) : Json(nullptr);
    json["again"] = told.again ? band_json(*told.again) : Json(nullptr);
    json["whole"] = band_json(told.whole);
    return json;
}

}  // namespace mitefall::formats
