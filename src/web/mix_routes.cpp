#include "formats/json/cupboard.h"
#include "formats/json/mixed.h"
#include "formats/json/shopping.h"
#include "formats/text/bench.h"
#include "questions/cupboard.h"
#include "questions/mix.h"
#include "service/shopping.h"
#include "service/verdicts.h"
#include "web/routes.h"
#include "web/wishes.h"
#include "web/writing.h"

// The mixing bench: recipes, shopping, bottles.
namespace mitefall::web {
namespace {

Response mix(const Means& means) {
    Desk& desk = *means.parts.desk;
    const service::Now now = desk.now();
    const auto asked = read(questions::mix(), means.request.query);
    if (!asked) return failed("mix", asked.error());
    const service::MixQuestion question = asked->question();
    const auto today = desk.situation();
    if (!today) return failed("mix", today.error());
    auto answered = service::answer_mix(question, &(*today)->collection(), desk.knowledge(), now);
    if (!answered) return failed("mix", answered.error());
    service::put_beside_collection(answered->sheet, question, today->get());
    return answer("mix", formats::mixed_json(answered->sheet, service::spray_cautions(desk.knowledge())));
}

Response cupboard(const Means& means) {
    Desk& desk = *means.parts.desk;
    const auto asked = read(questions::cupboard(), means.request.query);
    if (!asked) return failed("cupboard", asked.error());
    const auto today = desk.situation();
    if (!today) return failed("cupboard", today.error());
    const auto judged = service::cupboard_of(asked->question(), desk.knowledge(), today->get());
    return judged ? answer("cupboard", formats::cupboard_json(*judged)) : failed("cupboard", judged.error());
}

/// Names of ingredients, for a list to choose from.
Response ingredients(const Means& means) {
    Json names = Json::array();
    for (const evidence::Ingredient& one : means.parts.desk->knowledge().ingredients.all()) {
        names.push_back(one.name);
        for (const std::string& other : one.also) names.push_back(other);
    }
    return answer("ingredients", {{"names", std::move(names)}});
}

Response shopping(const Means& means) {
    Desk& desk = *means.parts.desk;
    const auto asked = read(questions::shopping(), means.request.query);
    if (!asked) return failed("shopping", asked.error());
    const auto today = desk.situation();
    if (!today) return failed("shopping", today.error());
    const auto bench = service::bench_of(*asked, &(*today)->collection(), desk.knowledge().tables);
    if (!bench) return failed("shopping", bench.error());
    const auto list = desk.answer(service::shopping_of, *bench);
    return list ? answer("shopping", formats::shopping_json(*list, *bench))
                : failed("shopping", list.error());
}

Result<Deed> make_batch(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    const auto asked = read(questions::batch_make(), members);
    if (!asked) return fail(asked.error());
    const auto today = means.parts.desk->situation();
    if (!today) return fail(today.error());
    auto answered =
        service::answer_mix(asked->question(), &(*today)->collection(), means.parts.desk->knowledge(), now);
    if (!answered) return fail(answered.error());
    const auto& measured = answered->sheet.measured;
    const std::string steps = measured ? formats::steps_text(*measured, formats::show_bottle(answered->bench),
                                                             answered->batch, read_display(asked->units))
                                       : std::string();
    return [answered = std::move(*answered), id = asked->batch, steps, now](Keeper& keeper) -> Result<Json> {
        const auto entry =
            keeper.record_batch(records::BatchId(id), answered.bench, answered.sheet, steps, now);
        return entry ? Result<Json>(ids_json({*entry})) : fail(entry.error());
    };
}

Result<Deed> discard(const Means&, const Json& body, const service::Now& now) {
    Members members(body);
    const records::BatchDiscarded fact{records::BatchId(members.text("batch")), members.text("how")};
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    return [fact, now](Keeper& keeper) -> Result<Json> {
        const auto ids = keeper.record({fact}, now.today, now);
        return ids ? Result<Json>(ids_json(*ids)) : fail(ids.error());
    };
}

}  // namespace

std::vector<Route> mixing_routes() {
    return {{"GET", "/api/mix", "mix", "mix", mix},
            {"GET", "/api/cupboard", "cupboard", "cupboard", cupboard},
            {"GET", "/api/ingredients", "ingredients", "web-ingredients", ingredients},
            {"GET", "/api/shopping", "shopping", "shopping", shopping},
            {"POST", "/api/batch", "batch make", "recorded", make_batch},
            {"POST", "/api/discard", "batch discard", "recorded", discard}};
}

}  // namespace mitefall::web
