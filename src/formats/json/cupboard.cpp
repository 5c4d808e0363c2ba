#include "formats/json/cupboard.h"

#include "formats/json/measures.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "records/method.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json use_json(const safety::UseRuling& use) {
    return {{"ruling", safety::to_text(use.ruling)}, {"reasons", list(use.reasons, reason_json)}};
}

Json text_json(const std::string& text) { return text; }

Json ingredient_json(const safety::IngredientRuling& one) {
    const std::string_view kind = one.known ? evidence::to_text(one.known->kind) : "";
    return {{"written", one.line.name},
            {"amount", text_or_null(one.line.amount)},
            {"strength_mg_per_l", one.line.strength ? strength_or_null(*one.line.strength) : Json(nullptr)},
            {"name", one.known ? Json(one.known->name) : Json(nullptr)},
            {"class", text_or_null(std::string(kind))},
            {"class_name",
             one.known ? Json(words::say(statement::Term{"ingredient-class", kind})) : Json(nullptr)},
            {"like", list(one.like, text_json)},
            {"on_animal", use_json(one.on_animal)},
            {"in_empty", use_json(one.in_empty)}};
}

std::string_view agent_key(safety::Agent agent) {
    return agent == safety::Agent::ivermectin ? "ivermectin" : "permethrin";
}

Json ready_json(const worklist::Bottle& bottle) {
    if (!bottle.ready) return nullptr;
    const worklist::ReadyToUse& ready = *bottle.ready;
    return {{"agent", agent_key(bottle.ruling.reckoned->agent)},
            {"stock_mg_per_l", strength_or_null(bottle.ruling.reckoned->strength)},
            {"strength_mg_per_l", strength_or_null(ready.strength)},
            {"parts", number(ready.parts)},
            {"volume_ml", ready.volume ? millilitres_json(*ready.volume) : Json(nullptr)},
            {"price_per_litre", money_json(ready.price_per_litre)}};
}

Json course_json(const worklist::Bottle& bottle) {
    if (!bottle.course) return nullptr;
    return {{"stock_ml", millilitres_json(bottle.course->stock)},
            {"purchase", purchase_json(bottle.course->purchase)}};
}

Json bottle_json(const worklist::Bottle& bottle) {
    return {{"usable", safety::to_text(bottle.ruling.usable)},
            {"ingredients", list(bottle.ruling.ingredients, ingredient_json)},
            {"on_animal", use_json(bottle.ruling.on_animal)},
            {"in_empty", use_json(bottle.ruling.in_empty)},
            {"cautions", list(bottle.ruling.cautions, caution_json)},
            {"ready", ready_json(bottle)},
            {"course", course_json(bottle)},
            {"no_course", text_or_null(std::string(worklist::to_text(bottle.no_course)))}};
}

Json compared_json(const std::optional<safety::LabelComparison>& compared) {
    if (!compared) return nullptr;
    return {{"alike", safety::to_text(compared->alike)},
            {"both", list(compared->both, text_json)},
            {"only_first", list(compared->only_first, text_json)},
            {"only_second", list(compared->only_second, text_json)},
            {"times", compared->times ? number(*compared->times) : Json(nullptr)}};
}

}  // namespace

Json cupboard_json(const worklist::Cupboard& cupboard) {
    return {{"first", bottle_json(cupboard.first)},
            {"other", cupboard.other ? bottle_json(*cupboard.other) : Json(nullptr)},
            {"compared", compared_json(cupboard.compared)}};
}

}  // namespace mitefall::formats
