#include "formats/json/shopping.h"

#include "formats/json/measures.h"
#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

Json tool_json(const mixing::Tool& tool) {
    return {{"name", tool.name},
            {"capacity_ml", millilitres_json(tool.capacity)},
            {"graduation_ml", millilitres_json(tool.graduation)},
            {"reading_error_ml", millilitres_json(tool.reading_error)}};
}

Json need_json(const mixing::DayNeed& need) {
    return {{"day", date(need.day)}, {"volume_ml", millilitres_json(need.volume)}};
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

Json supply_json(const worklist::Supply& supply) {
    const double area = units::in_square_centimetres(supply.area);
    return {{"what", worklist::to_text(supply.what)},
            {"count", supply.count},
            {"area_cm2", area > 0 ? Json(area) : Json(nullptr)}};
}

Json stock_json(const worklist::Bench& bench) {
    return {{"from", name(bench.from)},
            {"strength_mg_per_l", strength_or_null(bench.stock.strength)},
            {"expires", date(bench.stock.expires)}};
}

}  // namespace

Json shopping_json(const worklist::Shopping& shopping, const worklist::Bench& bench) {
    Json json{{"stock", stock_json(bench)}};
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
    json["supplies"] = list(shopping.supplies, supply_json);
    return json;
}

}  // namespace mitefall::formats
