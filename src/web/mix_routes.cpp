#include "formats/bench_text.h"
#include "web/routes.h"
#include "web/wishes.h"

// The mixing bench: recipes, shopping, bottles.
namespace mitefall::web {
namespace {

using base::fail;
using base::Result;
using service::Keeper;

Response mix(const Means& means) {
    Desk& desk = *means.parts.desk;
    const service::Now now = desk.now();
    auto answered = service::answer_mix(read_mix_question(means.request.query), desk.knowledge(), now);
    if (!answered) return failed("mix", answered.error());
    auto mists =
        desk.ask([&](const Keeper& keeper) { return keeper.mists(answered->sheet.recipe.strength, now); });
    if (!mists) return failed("mix", mists.error());
    answered->sheet.animals = std::move(*mists);
    return answer("mix", formats::mixed_json(answered->sheet, service::spray_cautions(desk.knowledge())));
}

Response shopping(const Means& means) {
    Desk& desk = *means.parts.desk;
    const auto bench = formats::read_bench(read_bench_words(means.request.query), desk.knowledge().tables);
    if (!bench) return failed("shopping", bench.error());
    const service::Now now = desk.now();
    const auto list = desk.ask([&](const Keeper& keeper) { return keeper.shopping(*bench, now); });
    return list ? answer("shopping", formats::shopping_json(*list, *bench))
                : failed("shopping", list.error());
}

Response make_batch(const Means& means) {
    const auto body = read_body(means.request);
    if (!body) return failed("batch make", body.error());
    Members members(*body);
    service::MixQuestion question{
        read_bench_words(members), members.text("batch_volume"), members.text("target"), {}, false};
    const std::string id = members.text("batch");
    const units::Display display = read_display(members.text("units"));
    if (const auto ok = members.finish(); !ok) return failed("batch make", ok.error());
    Desk& desk = *means.parts.desk;
    const service::Now now = desk.now();
    const auto answered = service::answer_mix(question, desk.knowledge(), now);
    if (!answered) return failed("batch make", answered.error());
    const auto& measured = answered->sheet.measured;
    const std::string steps =
        measured ? formats::steps_text(*measured, answered->batch, display) : std::string();
    const auto entry = desk.ask([&](Keeper& keeper) {
        return keeper.record_batch(records::BatchId(id), answered->bench, answered->sheet, steps, now);
    });
    return entry ? answer("batch make", {{"ids", {*entry}}}) : failed("batch make", entry.error());
}

Response discard(const Means& means) {
    const auto body = read_body(means.request);
    if (!body) return failed("batch discard", body.error());
    Members members(*body);
    const records::BatchDiscarded fact{records::BatchId(members.text("batch")), members.text("how")};
    if (const auto ok = members.finish(); !ok) return failed("batch discard", ok.error());
    Desk& desk = *means.parts.desk;
    const service::Now now = desk.now();
    const auto ids = desk.ask([&](Keeper& keeper) { return keeper.record({fact}, now.today, now); });
    return ids ? answer("batch discard", {{"ids", *ids}}) : failed("batch discard", ids.error());
}

}  // namespace

std::optional<Response> answer_mixing(const Means& means) {
    if (means.is("GET", "/api/mix")) return mix(means);
    if (means.is("GET", "/api/shopping")) return shopping(means);
    if (means.is("POST", "/api/batch")) return make_batch(means);
    if (means.is("POST", "/api/discard")) return discard(means);
    return std::nullopt;
}

}  // namespace mitefall::web
