#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

Json estimate_json(const simulator::Estimate& estimate) {
    return {{"value", number(estimate.value)}, {"standard_error", number(estimate.standard_error)}};
}

Json count_json(const simulator::CountBand& band) {
    return {{"time_days", number(band.time)},
            {"mean", number(band.mean)},
            {"p10", number(band.p10)},
            {"p50", number(band.p50)},
            {"p90", number(band.p90)}};
}

}  // namespace

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

Json simulation_json(const simulator::SimulationResult& result, std::uint32_t runs) {
    return {{"runs", runs},
            {"clear", estimate_json(result.clear)},
            {"clean", estimate_json(result.clean)},
            {"clear_and_clean", estimate_json(result.clear_and_clean)},
            {"clear_given_clean", estimate_json(result.clear_given_clean)},
            {"counts", list(result.counts, count_json)},
            {"cut_short", result.cut_short}};
}

}  // namespace mitefall::formats
