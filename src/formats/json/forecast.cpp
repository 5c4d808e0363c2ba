#include "formats/json/forecast.h"

#include "formats/json/parts.h"

namespace mitefall::formats {

Json forecast_json(const forecast::Forecast& ensemble, double clear_at_mode) {
    Json json{{"clear", band_json(ensemble.clear)}};
    json["clear_at_mode"] = number(clear_at_mode);
    json["clean"] = ensemble.clean ? band_json(*ensemble.clean) : Json(nullptr);
    json["mites_now"] = band_json(ensemble.mites_now);
    json["mites_now_by_place"] = list(ensemble.mites_now_by_place, band_json);
    json["chance_by_draw"] = list(ensemble.chance, number);
    json["class_count"] = ensemble.class_count;
    json["type_count"] = ensemble.type_count;
    json["steps"] = ensemble.steps;
    return json;
}

}  // namespace mitefall::formats
