#include "worklist/shopping.h"

namespace mitefall::worklist {
namespace {

using records::Method;

mixing::SprayDay spray_day(const plan::Round& round, const plan::Setting& setting) {
    mixing::SprayDay spraying;
    spraying.day = round.day;
    for (const plan::ScheduledTreatment& scheduled : round.treatments) {
        const auto& treatment = scheduled.treatment;
        if (treatment.method() == Method::spray_bedding) {
            spraying.bedding += setting.with.collection.enclosures.at(treatment.enclosure()).floor;
        } else if (treatment.method() == Method::spray_animal) {
            // A permitted spray has a weight on file: the safety check refuses it otherwise.
            for (const auto& animal : treatment.animals()) {
                spraying.animals.push_back(setting.with.collection.animals.at(animal).weight->value);
            }
        }
    }
    return spraying;
}

bool sprays(const mixing::SprayDay& spraying) {
    return !spraying.animals.empty() || spraying.bedding > units::Area{};
}

std::vector<mixing::DampPaper> damp_paper(const plan::Schedule& schedule, const plan::Setting& setting) {
    std::vector<mixing::DampPaper> papers;
    for (const plan::DampSpell& spell : plan::damp_spells(schedule, setting)) {
        papers.push_back(
            {setting.with.collection.enclosures.at(spell.enclosure).floor, spell.first, spell.last, {}});
    }
    return papers;
}

BatchSheet sheet_for(const mixing::Batch& batch, const Bench& bench, const evidence::Tables& tables) {
    BatchSheet sheet{batch, std::nullopt, std::nullopt, {}};
    auto measured = mixing::measure(batch.recipe.stock, bench.tools, mixing::usual_accuracy(tables));
    if (!measured) {
        sheet.cannot_measure = measured.error().message();
        return sheet;
    }
    if (auto strength = mixing::strength_of(bench.stock.strength, *measured, batch.recipe.total))
        sheet.resulting = *strength;
    sheet.measurement = std::move(*measured);
    return sheet;
}

}  // namespace

base::Result<Shopping> shop_for(const plan::Schedule& schedule, const plan::Setting& setting,
                                const Bench& bench) {
    mixing::CourseRequest request;
    for (const plan::Round& round : schedule.rounds) {
        mixing::SprayDay spraying = spray_day(round, setting);
        if (sprays(spraying)) request.sprayings.push_back(std::move(spraying));
    }
    if (request.sprayings.empty()) {
        return base::fail({base::ErrorKind::not_found,
                           "this plan sprays nothing, so there is nothing to mix",
                           {},
                           {},
                           {},
                           {}});
    }
    request.damp = damp_paper(schedule, setting);
    request.stock = bench.stock;
    request.target = setting.strength;
    request.packages = bench.packages;
    auto totals = mixing::plan_mixing(request, setting.with.tables);
    if (!totals) return base::fail(totals.error());
    Shopping shopping{std::move(*totals), {}};
    for (const mixing::Batch& batch : shopping.totals.batches)
        shopping.batches.push_back(sheet_for(batch, bench, setting.with.tables));
    return shopping;
}

}  // namespace mitefall::worklist
