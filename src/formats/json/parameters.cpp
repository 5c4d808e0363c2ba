#include "formats/json/parameters.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "formats/json/model.h"
#include "formats/json/parts.h"
#include "formats/json/worked_rates.h"
#include "mites/rates.h"
#include "records/method.h"

namespace mitefall::formats {
namespace {

using mites::Ensemble;
using mites::FixedParameters;
using mites::MiteParameters;
using mites::Stage;

/// Numbers of the treatments that no draw changes.
std::vector<std::string_view> treatment_keys() {
    std::vector<std::string_view> keys{"published_strength_low", "strength_without_caution", "home_strength"};
    for (const records::MethodRow& row : records::method_rows) {
        if (!row.kills.days_in_blood.empty()) keys.push_back(row.kills.days_in_blood.text());
    }
    return keys;
}

const evidence::Tables::Row* find_row(const evidence::Tables& tables, std::string_view key) {
    const auto& rows = tables.rows();
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.cited.key == key; });
    return found == rows.end() ? nullptr : &*found;
}

/// `mode` is the value in force, which a case may have set apart from the tables.
Json parameter_json(const evidence::Tables::Row& row, double mode, bool drawn) {
    return {{"key", row.cited.key},
            {"unit", row.unit},
            {"drawn", drawn},
            {"mode", number(mode)},
            {"low", number(row.cited.low)},
            {"high", number(row.cited.high)},
            {"tag", evidence::to_text(row.cited.tag)},
            {"source", text_or_null(row.cited.source)},
            {"meaning", row.cited.meaning}};
}

Json parameters_list(const Ensemble& ensemble, const evidence::Tables& tables) {
    Json parameters = Json::array();
    const auto add = [&](std::string_view key, double mode, bool drawn) {
        if (const auto* const row = find_row(tables, key))
            parameters.push_back(parameter_json(*row, mode, drawn));
    };
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        add(field.key, ensemble.mode.*field.member, true);
    }
    add("erlang_shape", ensemble.mode.erlang_shape, true);
    const FixedParameters& fixed = ensemble.fixed;
    add("unfed_shape", fixed.unfed_shape, false);
    add("neighbours", fixed.neighbours, false);
    add("detection_light_mites", fixed.light_infestation, false);
    add("plateau_starts", fixed.plateau_starts, false);
    add("plateau_ends", fixed.plateau_ends, false);
    add("development_stops", fixed.development_stops, false);
    add("adult_reference_temperature", fixed.adult_reference, false);
    for (const std::string_view key : treatment_keys()) {
        if (const auto* const row = find_row(tables, key)) add(key, row->cited.value, false);
    }
    return parameters;
}

Json draw_json(const MiteParameters& draw) {
    Json json = Json::object();
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        json[std::string(field.key)] = number(draw.*field.member);
    }
    json["erlang_shape"] = draw.erlang_shape;
    json["sighting_quantile"] = number(draw.sighting_quantile);
    return json;
}

}  // namespace

Json parameters_json(const Ensemble& ensemble, const evidence::Tables& tables, std::uint64_t seed,
                     bool with_draws) {
    Json json{{"seed", seed}};
    json["draw_count"] = ensemble.draws.size();
    json["parameters"] = parameters_list(ensemble, tables);
    json["development"] = development_json(ensemble.fixed);
    json["detection_per_mite_at_mode"] = number(mites::detection_per_mite(ensemble.fixed, ensemble.mode));
    json["rates_at_mode"] = rates_at_mode(ensemble);
    json["model"] = model_json();
    json["draws"] = with_draws ? list(ensemble.draws, draw_json) : Json(nullptr);
    return json;
}

}  // namespace mitefall::formats
