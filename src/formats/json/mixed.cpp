#include "formats/json/mixed.h"

#include "formats/json/measures.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {
namespace {

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

Json thinned_json(const mixing::Thinned& way) {
    return {{"way", mixing::to_text(way.way)},
            {"mix_ml", millilitres_json(way.mix)},
            {"water_ml", millilitres_json(way.water)},
            {"total_ml", millilitres_json(way.total)},
            {"strength", measured_strength_json(way.resulting)}};
}

Json round_json(const std::optional<mixing::RoundBatch>& round) {
    if (!round) return nullptr;
    Json json{{"total_ml", millilitres_json(round->recipe.total)},
              {"left_over_ml", millilitres_json(round->left_over)}};
    put_measured(json, round->measured);
    json["resulting"] = measured_strength_json(round->measured.resulting);
    return json;
}

}  // namespace

Json mixed_json(const worklist::MixSheet& sheet, const std::vector<safety::Caution>& cautions) {
    Json json{{"recipe", recipe_json(sheet.recipe)}};
    if (sheet.steps_held_back) json["recipe"]["stock_ml"] = json["recipe"]["diluent_ml"] = nullptr;
    put_measured(json, sheet.measured);
    json["round"] = round_json(sheet.round);
    json["steps_held_back"] = sheet.steps_held_back;
    json["resulting"] = measured_strength_json(sheet.resulting);
    json["cannot_measure"] = text_or_null(sheet.cannot_measure);
    json["comparison"] = comparison_json(sheet.comparison);
    json["thinned"] = list(sheet.thinned.ways, thinned_json);
    json["mix_anew"] = sheet.thinned.mix_anew;
    json["discard_by"] = date(sheet.discard_by);
    json["wetting_drops"] = sheet.wetting_drops;
    json["injected_mg_per_kg"] = number(units::in_milligrams_per_kilogram(sheet.injected));
    json["animals"] = list(sheet.animals, mist_json);
    json["cautions"] = list(cautions, caution_json);
    return json;
}

}  // namespace mitefall::formats
