#include "worklist/shopping.h"

#include <map>

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
    for (const plan::DampSpell& spell : schedule.damp) {
        papers.push_back(
            {setting.with.collection.enclosures.at(spell.enclosure).floor, spell.first, spell.last, {}});
    }
    return papers;
}

BatchSheet sheet_for(const mixing::Batch& batch, const Bench& bench, const evidence::Tables& tables) {
    BatchSheet sheet{batch, std::nullopt, {}};
    if (bench.stock_is == mixing::StockForm::not_told) {
        sheet.cannot_measure = mixing::ask_stock_form().message();
        return sheet;
    }
    auto measured = mixing::measure_batch(batch.recipe, bench.stock.strength, bench.tools,
                                          mixing::usual_accuracy(tables));
    if (measured) {
        sheet.measured = std::move(*measured);
    } else {
        sheet.cannot_measure = measured.error().message();
    }
    return sheet;
}

/// Bottles alike are measured alike: worked out once for all of them.
void add_sheets(const Bench& bench, const evidence::Tables& tables, Shopping& shopping) {
    for (const mixing::Batch& batch : shopping.totals.batches) {
        const bool is_alike =
            !shopping.batches.empty() && shopping.batches.back().batch.recipe.total == batch.recipe.total;
        BatchSheet sheet = is_alike ? shopping.batches.back() : sheet_for(batch, bench, tables);
        sheet.batch = batch;
        shopping.batches.push_back(std::move(sheet));
    }
}

using AnimalNeeds = std::map<records::AnimalId, AnimalNeed>;
using EnclosureNeeds = std::map<records::EnclosureId, EnclosureNeed>;

void count_animal(const records::AnimalId& id, const plan::Setting& setting, AnimalNeeds& needs) {
    AnimalNeed& need = needs[id];
    need.animal = id;
    ++need.times;
    const auto& animal = setting.with.collection.animals.at(id);
    if (const auto mist = mixing::mist_volume(animal.weight->value, setting.with.tables)) need.each = *mist;
}

EnclosureNeed& need_of(const records::EnclosureId& id, const plan::Setting& setting, EnclosureNeeds& needs) {
    EnclosureNeed& need = needs[id];
    const units::Area floor = setting.with.collection.enclosures.at(id).floor;
    need.enclosure = id;
    need.each = setting.with.tables.spray("spray_per_area").value * floor;
    need.upkeep = setting.with.tables.spray("redampen_per_area").value * floor;
    return need;
}

void count_round(const plan::Round& round, const plan::Setting& setting, AnimalNeeds& animals,
                 EnclosureNeeds& enclosures) {
    for (const plan::ScheduledTreatment& scheduled : round.treatments) {
        const auto& treatment = scheduled.treatment;
        if (treatment.method() == Method::spray_bedding) {
            ++need_of(treatment.enclosure(), setting, enclosures).sprayings;
        } else if (treatment.method() == Method::spray_animal) {
            for (const auto& animal : treatment.animals()) count_animal(animal, setting, animals);
        }
    }
}

void count_needs(const plan::Schedule& schedule, const plan::Setting& setting, Shopping& shopping) {
    AnimalNeeds animals;
    EnclosureNeeds enclosures;
    for (const plan::Round& round : schedule.rounds) count_round(round, setting, animals, enclosures);
    for (const plan::DampSpell& spell : schedule.damp) {
        need_of(spell.enclosure, setting, enclosures).damp_days +=
            static_cast<int>((spell.last - spell.first).count()) + 1;
    }
    for (const auto& [id, need] : animals) shopping.animals.push_back(need);
    for (const auto& [id, need] : enclosures) shopping.enclosures.push_back(need);
}

}  // namespace

base::Result<Shopping> shop_for(const plan::Schedule& schedule, const plan::Setting& setting,
                                const Bench& bench) {
    mixing::CourseRequest request;
    for (const plan::Round& round : schedule.rounds) {
        mixing::SprayDay spraying = spray_day(round, setting);
        if (sprays(spraying)) request.sprayings.push_back(std::move(spraying));
    }
    Shopping shopping;
    shopping.supplies = supplies_for(schedule, setting);
    if (request.sprayings.empty()) {
        if (!shopping.supplies.empty()) return shopping;
        return base::fail({base::ErrorKind::not_found,
                           "this plan has nothing left to do, so there is nothing to mix or buy",
                           {},
                           {},
                           {},
                           {}});
    }
    request.damp = damp_paper(schedule, setting);
    request.stock = bench.stock;
    request.target = setting.strength;
    request.packages = bench.packages;
    request.bottle = bench.bottle;
    request.preserved = bench.preserved;
    auto totals = mixing::plan_mixing(request, setting.with.tables);
    if (!totals) return base::fail(totals.error());
    shopping.totals = std::move(*totals);
    count_needs(schedule, setting, shopping);
    add_sheets(bench, setting.with.tables, shopping);
    return shopping;
}

}  // namespace mitefall::worklist
