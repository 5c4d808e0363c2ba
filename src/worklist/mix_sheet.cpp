#include "worklist/mix_sheet.h"

#include <algorithm>

#include "safety/gates.h"

namespace mitefall::worklist {
namespace {

using base::fail;
using base::Result;

Result<MixSheet> sheet_of(const mixing::Recipe& recipe, const Bench& bench, units::Day today,
                          const evidence::Tables& tables) {
    MixSheet sheet;
    sheet.recipe = recipe;
    sheet.comparison = mixing::compare_strength(recipe.strength, tables);
    sheet.discard_by = mixing::discard_by(today, bench.preserved, bench.stock.expires, tables);
    sheet.injected = tables.dose("injected_dose").value;
    const auto drops = mixing::wetting_drops(recipe.total, tables);
    if (!drops) return fail(drops.error());
    sheet.wetting_drops = *drops;
    return sheet;
}

/// The most and the least a followed recipe can be. Stock cannot be more than the whole.
mixing::MeasuredStrength range_of(const mixing::Stock& stock, const FollowedRecipe& recipe) {
    const units::Volume none;
    const auto at = [&](units::Volume part, units::Volume whole) {
        return whole > none ? stock.strength * std::clamp(part / whole, 0.0, 1.0) : stock.strength;
    };
    return {at(recipe.stock, recipe.total),
            at(recipe.stock - recipe.stock_error, recipe.total + recipe.total_error),
            at(recipe.stock + recipe.stock_error, recipe.total - recipe.total_error)};
}

bool is_before(const MistOnAnimal& a, const MistOnAnimal& b) {
    if (a.dose.has_value() != b.dose.has_value()) return a.dose.has_value();
    if (!a.dose || a.dose->likely == b.dose->likely) return a.animal < b.animal;
    return a.dose->likely > b.dose->likely;
}

}  // namespace

Result<MixSheet> make_mix_sheet(const Bench& bench, units::Volume batch, units::Strength target,
                                units::Day today, const evidence::Tables& tables) {
    const auto recipe = mixing::mix(bench.stock, batch, target, today);
    if (!recipe) return fail(recipe.error());
    auto sheet = sheet_of(*recipe, bench, today, tables);
    if (!sheet) return fail(sheet.error());
    auto measured =
        mixing::measure_batch(*recipe, bench.stock.strength, bench.tools, mixing::usual_accuracy(tables));
    if (measured) {
        sheet->resulting = measured->resulting;
        sheet->comparison = mixing::compare_strength(measured->resulting, tables);
        sheet->measured = std::move(*measured);
    } else {
        sheet->cannot_measure = measured.error().message();
    }
    return sheet;
}

void propose_round(MixSheet& sheet, const Bench& bench, units::UnitSystem system,
                   const evidence::Tables& tables) {
    const mixing::Measured* const way = sheet.measured ? &*sheet.measured : nullptr;
    sheet.round = mixing::easier_round_batch(
        {sheet.recipe, way, bench.stock.strength, bench.tools, bench.bottle, system}, tables);
}

Result<MixSheet> judge_recipe(const Bench& bench, const FollowedRecipe& recipe, units::Day today,
                              const evidence::Tables& tables) {
    const auto strength = mixing::strength_of(bench.stock.strength, recipe.stock, recipe.total);
    if (!strength) return fail(strength.error());
    auto sheet =
        sheet_of({recipe.stock, recipe.total - recipe.stock, recipe.total, *strength}, bench, today, tables);
    if (!sheet) return fail(sheet.error());
    sheet->resulting = range_of(bench.stock, recipe);
    sheet->comparison = mixing::compare_strength(*sheet->resulting, tables);
    if (sheet->comparison.standing == mixing::Standing::above && bench.stock_is == mixing::StockForm::plain)
        sheet->thinned = mixing::thin(*sheet->resulting, recipe.total, sheet->comparison.strongest, tables);
    return sheet;
}

void hold_back_steps(MixSheet& sheet) {
    sheet.steps_held_back = true;
    sheet.measured.reset();
    sheet.recipe.stock = {};
    sheet.recipe.diluent = {};
    sheet.cannot_measure.clear();
}

std::vector<MistOnAnimal> mist_on_animals(const safety::Case& with, units::Strength strength,
                                          units::Day today) {
    std::vector<MistOnAnimal> mists;
    for (const auto& [id, animal] : with.collection.animals) {
        MistOnAnimal mist{id, std::nullopt, safety::valid_mass(animal, today, with.tables),
                          safety::judge(with, animal, {records::Method::spray_animal, strength, today}, {})};
        if (mist.mass) {
            if (const auto dose = mixing::misted_dose(strength, *mist.mass, with.tables)) mist.dose = *dose;
        }
        mists.push_back(std::move(mist));
    }
    std::sort(mists.begin(), mists.end(), is_before);
    return mists;
}

}  // namespace mitefall::worklist
