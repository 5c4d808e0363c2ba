#include "formats/json/measures.h"

#include "formats/json/parts.h"
#include "mixing/spoons.h"

namespace mitefall::formats {
namespace {

Json measure_json(const mixing::Measure& measure) {
    const bool is_spoon = mixing::is_spoon(measure.tool.marks);
    return {{"tool", measure.tool.name},
            {"spoon", is_spoon},
            {"spoon_part", is_spoon ? Json(mixing::part_of_spoon(measure.tool)) : Json(nullptr)},
            {"amount_ml", millilitres_json(measure.amount)},
            {"times", measure.times}};
}

Json pre_dilution_json(const std::optional<mixing::PreDilution>& first) {
    if (!first) return nullptr;
    return {{"stock", measurement_json(first->stock)},
            {"water", measurement_json(first->water)},
            {"total_ml", millilitres_json(first->total)},
            {"strength", measured_strength_json(first->strength)}};
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

void put_measured(Json& json, const std::optional<mixing::Measured>& measured) {
    json["pre_dilution"] = measured ? pre_dilution_json(measured->first) : Json(nullptr);
    json["measurement"] = measured ? measurement_json(measured->measurement) : Json(nullptr);
}

Json money_json(const std::optional<mixing::Money>& money) {
    if (!money) return nullptr;
    return {{"minor_units", money->minor_units()}, {"currency", money->currency()}};
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

}  // namespace mitefall::formats
