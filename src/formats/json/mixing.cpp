#include "formats/json/parts.h"

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

Json pre_dilution_json(const std::optional<mixing::PreDilution>& first) {
    if (!first) return nullptr;
    return {{"stock", measurement_json(first->stock)},
            {"water", measurement_json(first->water)},
            {"total_ml", millilitres_json(first->total)},
            {"strength", measured_strength_json(first->strength)}};
}

/// Appends how a batch is measured: the keys are there whether or not it can be.
void put_measured(Json& json, const std::optional<mixing::Measured>& measured) {
    json["pre_dilution"] = measured ? pre_dilution_json(measured->first) : Json(nullptr);
    json["measurement"] = measured ? measurement_json(measured->measurement) : Json(nullptr);
}

Json sheet_json(const worklist::BatchSheet& sheet) {
    Json json{{"made_on", date(sheet.batch.made_on)},
              {"discard_by", date(sheet.batch.discard_by)},
              {"wetting_drops", sheet.batch.wetting_drops},
              {"recipe", recipe_json(sheet.batch.recipe)}};
    put_measured(json, sheet.measured);
    json["resulting"] = sheet.measured ? measured_strength_json(sheet.measured->resulting) : Json(nullptr);
    json["cannot_measure"] = text_or_null(sheet.cannot_measure);
    return json;
}

std::string_view to_text(mixing::Standing standing) {
    switch (standing) {
        case mixing::Standing::weaker: return "weaker";
        case mixing::Standing::published: return "published";
        case mixing::Standing::above: return "above";
    }
    return "above";
}

Json comparison_json(const mixing::Comparison& comparison) {
    return {{"standing", to_text(comparison.standing)},
            {"multiple", number(comparison.multiple)},
            {"weakest_mg_per_l", strength_or_null(comparison.weakest)},
            {"strongest_mg_per_l", strength_or_null(comparison.strongest)},
            {"limit_mg_per_l", strength_or_null(comparison.limit)},
            {"judged_mg_per_l", strength_or_null(comparison.judged)},
            {"perhaps", comparison.perhaps}};
}

Json dose_json(const std::optional<mixing::Spread<units::Dose>>& dose) {
    if (!dose) return nullptr;
    const auto mg_per_kg = [](units::Dose one) { return number(units::in_milligrams_per_kilogram(one)); };
    return {{"likely_mg_per_kg", mg_per_kg(dose->likely)},
            {"low_mg_per_kg", mg_per_kg(dose->low)},
            {"high_mg_per_kg", mg_per_kg(dose->high)}};
}

Json mist_json(const worklist::MistOnAnimal& mist) {
    return {{"animal", name(mist.animal)},
            {"mass_g", mist.mass ? number(units::in_grams(*mist.mass)) : Json(nullptr)},
            {"dose", dose_json(mist.dose)},
            {"ruling", safety::to_text(mist.verdict.ruling)}};
}

Json animal_need_json(const worklist::AnimalNeed& need) {
    return {{"animal", name(need.animal)},
            {"times", need.times},
            {"each_ml", millilitres_json(need.each.likely)},
            {"low_ml", millilitres_json(need.each.low)},
            {"high_ml", millilitres_json(need.each.high)}};
}

Json enclosure_need_json(const worklist::EnclosureNeed& need) {
    return {{"enclosure", name(need.enclosure)},
            {"sprayings", need.sprayings},
            {"each_ml", millilitres_json(need.each)},
            {"damp_days", need.damp_days},
            {"upkeep_ml", millilitres_json(need.upkeep)}};
}

Json measure_json(const mixing::Measure& measure) {
    return {{"tool", measure.tool.name},
            {"spoon", mixing::is_spoon(measure.tool.marks)},
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

Json mixed_json(const worklist::MixSheet& sheet, const std::vector<safety::Caution>& cautions) {
    Json json{{"recipe", recipe_json(sheet.recipe)}};
    if (sheet.steps_held_back) json["recipe"]["stock_ml"] = json["recipe"]["diluent_ml"] = nullptr;
    put_measured(json, sheet.measured);
    json["steps_held_back"] = sheet.steps_held_back;
    json["resulting"] = measured_strength_json(sheet.resulting);
    json["cannot_measure"] = text_or_null(sheet.cannot_measure);
    json["comparison"] = comparison_json(sheet.comparison);
    json["discard_by"] = date(sheet.discard_by);
    json["wetting_drops"] = sheet.wetting_drops;
    json["injected_mg_per_kg"] = number(units::in_milligrams_per_kilogram(sheet.injected));
    json["animals"] = list(sheet.animals, mist_json);
    json["cautions"] = list(cautions, caution_json);
    return json;
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
    json["animals"] = list(shopping.animals, animal_need_json);
    json["enclosures"] = list(shopping.enclosures, enclosure_need_json);
    return json;
}

}  // namespace mitefall::formats
