#include "formats/json_parts.h"

namespace mitefall::formats {
namespace {

Json money_json(const std::optional<mixing::Money>& money) {
    if (!money) return nullptr;
    return {{"minor_units", money->minor_units()}, {"currency", money->currency()}};
}

Json tool_json(const mixing::Tool& tool) {
    return {{"name", tool.name},
            {"capacity_ml", millilitres_json(tool.capacity)},
            {"graduation_ml", millilitres_json(tool.graduation)},
            {"reading_error_ml", millilitres_json(tool.reading_error)}};
}

Json package_json(const mixing::Package& package) {
    return {{"volume_ml", millilitres_json(package.volume)}, {"price", money_json(package.price)}};
}

Json purchase_json(const std::optional<mixing::Purchase>& purchase) {
    if (!purchase) return nullptr;
    return {{"package", package_json(purchase->package)},
            {"number", purchase->number},
            {"cost", money_json(purchase->cost)}};
}

Json need_json(const mixing::DayNeed& need) {
    return {{"day", date(need.day)}, {"volume_ml", millilitres_json(need.volume)}};
}

Json sheet_json(const worklist::BatchSheet& sheet) {
    return {{"made_on", date(sheet.batch.made_on)},
            {"discard_by", date(sheet.batch.discard_by)},
            {"wetting_drops", sheet.batch.wetting_drops},
            {"recipe", recipe_json(sheet.batch.recipe)},
            {"measurement", measurement_json(sheet.measurement)},
            {"resulting", measured_strength_json(sheet.resulting)},
            {"cannot_measure", text_or_null(sheet.cannot_measure)}};
}

Json measure_json(const mixing::Measure& measure) {
    return {{"tool", measure.tool.name},
            {"amount_ml", millilitres_json(measure.amount)},
            {"times", measure.times}};
}

Json stock_json(const mixing::Stock& stock) {
    return {{"strength_mg_per_l", strength_or_null(stock.strength)}, {"expires", date(stock.expires)}};
}

}  // namespace

Json recipe_json(const mixing::Recipe& recipe) {
    return {{"stock_ml", millilitres_json(recipe.stock)},
            {"diluent_ml", millilitres_json(recipe.diluent)},
            {"total_ml", millilitres_json(recipe.total)},
            {"strength_mg_per_l", strength_or_null(recipe.strength)}};
}

Json measurement_json(const std::optional<mixing::Measurement>& measurement) {
    if (!measurement) return nullptr;
    return {{"measures", list(measurement->measures, measure_json)},
            {"steps", measurement->steps},
            {"total_ml", millilitres_json(measurement->total)},
            {"low_ml", millilitres_json(measurement->low)},
            {"high_ml", millilitres_json(measurement->high)},
            {"deviation", number(units::as_fraction(measurement->deviation))},
            {"rough", measurement->rough}};
}

Json measured_strength_json(const std::optional<mixing::MeasuredStrength>& strength) {
    if (!strength) return nullptr;
    return {{"nominal_mg_per_l", number(units::in_milligrams_per_litre(strength->nominal))},
            {"low_mg_per_l", number(units::in_milligrams_per_litre(strength->low))},
            {"high_mg_per_l", number(units::in_milligrams_per_litre(strength->high))}};
}

Json mixed_json(const mixing::Recipe& recipe, const std::optional<mixing::Measurement>& measurement,
                const std::optional<mixing::MeasuredStrength>& resulting, const std::string& cannot_measure) {
    return {{"recipe", recipe_json(recipe)},
            {"measurement", measurement_json(measurement)},
            {"resulting", measured_strength_json(resulting)},
            {"cannot_measure", text_or_null(cannot_measure)}};
}

Json shopping_json(const worklist::Shopping& shopping, const worklist::Bench& bench) {
    Json json{{"stock", stock_json(bench.stock)}};
    json["tools"] = list(bench.tools, tool_json);
    json["packages"] = list(bench.packages, package_json);
    json["needs"] = list(shopping.totals.needs, need_json);
    json["spray_ml"] = millilitres_json(shopping.totals.spray);
    json["stock_ml"] = millilitres_json(shopping.totals.stock);
    json["purchase"] = purchase_json(shopping.totals.purchase);
    json["cost_per_animal"] = money_json(shopping.totals.cost_per_animal);
    json["batches"] = list(shopping.batches, sheet_json);
    return json;
}

}  // namespace mitefall::formats
