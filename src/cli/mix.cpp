#include <fmt/format.h>

#include <cctype>
#include <filesystem>
#include <memory>

#include "cli/bench.h"
#include "cli/commands.h"
#include "cli/parse.h"
#include "formats/bench_text.h"
#include "formats/layout.h"
#include "formats/text.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct MixOptions {
    BenchOptions bench;
    std::string batch, target, made_with;
    bool added = false;
    bool exact = false;
    bool each_animal = false;
};

/// How far an amount may be off as it was written: a level spoon by its own error, else half of the last
/// digit.
units::Volume error_of_written(const std::string& text, units::Volume volume,
                               const evidence::Tables& tables) {
    if (text.find("tsp") != std::string::npos || text.find("tbsp") != std::string::npos ||
        text.find("spoon") != std::string::npos) {
        return volume * units::as_fraction(tables.part("spoon_error").value);
    }
    const auto number_end = text.find_first_not_of(" 0123456789.");
    const std::string number = text.substr(0, number_end);
    const auto point = number.find('.');
    double half = 0.5;
    for (std::size_t i = point; point != std::string::npos && i + 1 < number.size(); ++i) {
        if (std::isdigit(static_cast<unsigned char>(number[i + 1])) != 0) half /= 10;
    }
    const auto value =
        units::parse_number(number.substr(number.find_first_not_of(' '), number.find_last_not_of(' ') + 1));
    return value && *value > 0 ? volume * (half / *value) : units::Volume{};
}

std::string mist_table(const std::vector<worklist::MistOnAnimal>& mists, units::Display display, bool all) {
    constexpr std::size_t most_rows = 12;
    formats::Table table({"ANIMAL", "WEIGHT", "A LIGHT MISTING LEAVES", "MAY IT BE SPRAYED WITH THIS"});
    const std::size_t rows = all ? mists.size() : std::min(mists.size(), most_rows);
    for (std::size_t i = 0; i < rows; ++i) {
        const worklist::MistOnAnimal& mist = mists[i];
        table.add({mist.animal.text(), mist.mass ? units::show(*mist.mass, display) : "not weighed lately",
                   mist.dose ? fmt::format("{} ({} to {})", units::show(mist.dose->likely),
                                           units::show(mist.dose->low), units::show(mist.dose->high))
                             : "unknown without its weight",
                   std::string(safety::describe(mist.verdict.ruling))});
    }
    std::string text = formats::heading("What it would leave on each animal, highest first") + table.text();
    if (rows < mists.size())
        text += fmt::format("and {} more: --each-animal shows all.\n", mists.size() - rows);
    return text +
           "How much of it is taken up through the skin is not known. Reasons: \"verdicts --reasons "
           "--strength ...\".\n";
}

std::string after_text(const Context& context, const MixOptions& options, const worklist::MixSheet& sheet) {
    std::string text = formats::comparison_sentence(sheet.recipe.strength, sheet.comparison) + "\n";
    if (sheet.resulting) text += formats::strength_picture(*sheet.resulting, sheet.comparison);
    if (options.exact) text += formats::unrounded_text(sheet.recipe);
    if (!sheet.animals.empty()) text += mist_table(sheet.animals, context.display(), options.each_animal);
    text += formats::heading("Read this first");
    return text + formats::cautions_text(service::spray_cautions(context.knowledge()));
}

/// The animals of the collection, if there is a collection file.
Result<void> add_animals(Context& context, worklist::MixSheet& sheet) {
    if (!std::filesystem::exists(context.file())) return {};
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    auto mists = keeper->mists(sheet.recipe.strength, context.now());
    if (!mists) return fail(mists.error());
    sheet.animals = std::move(*mists);
    return {};
}

Result<void> mix_to_target(Context& context, const MixOptions& options, const worklist::Bench& bench,
                           units::Volume batch) {
    const auto target = for_option("--target", units::parse_strength(options.target));
    if (!target) return fail(target.error());
    auto sheet =
        worklist::make_mix_sheet(bench, batch, *target, context.now().today, context.knowledge().tables);
    if (!sheet) return fail(sheet.error());
    if (const auto added = add_animals(context, *sheet); !added) return added;
    std::string text =
        fmt::format("{} of stock, filled up to {} with water: {} of ivermectin.\n",
                    formats::show_stock(sheet->recipe.stock, sheet->measured),
                    units::show(sheet->recipe.total, context.display()), units::show(sheet->recipe.strength));
    text += sheet->measured ? formats::steps_text(*sheet->measured, sheet->recipe.total, context.display())
                            : sheet->cannot_measure + "\n";
    text += fmt::format(
        "Add {} of mild dish soap. Use until {}. \"batch make\" puts it on record and "
        "prints its label.\n",
        sheet->wetting_drops == 1 ? "1 drop" : fmt::format("{} drops", sheet->wetting_drops),
        units::format_day(sheet->discard_by));
    text += after_text(context, options, *sheet);
    context.answer("mix", text, [&] { return formats::mixed_json(*sheet); });
    return {};
}

std::string other_reading(const MixOptions& options, const worklist::Bench& bench,
                          const worklist::FollowedRecipe& recipe) {
    if (options.added) return {};
    const auto strength =
        mixing::strength_of(bench.stock.strength, recipe.stock, recipe.total + recipe.stock);
    if (!strength) return {};
    return fmt::format("If it was added to {} of water instead of filled up to it: {} (--added).\n",
                       options.batch, units::show(*strength));
}

/// The other way round: "I followed this recipe, how strong is it?"
Result<void> strength_of_recipe(Context& context, const MixOptions& options, const worklist::Bench& bench,
                                units::Volume batch) {
    const auto stock = for_option("--made-with", units::parse_volume(options.made_with));
    if (!stock) return fail(stock.error());
    const auto& tables = context.knowledge().tables;
    const worklist::FollowedRecipe recipe{*stock, error_of_written(options.made_with, *stock, tables),
                                          options.added ? batch + *stock : batch,
                                          error_of_written(options.batch, batch, tables)};
    auto sheet = worklist::judge_recipe(bench, recipe, context.now().today, tables);
    if (!sheet) return fail(sheet.error());
    if (const auto added = add_animals(context, *sheet); !added) return added;
    std::string text = fmt::format(
        "{} of stock {} {} is {} of ivermectin, between {} and {} as it was measured.\n", options.made_with,
        options.added ? "added to" : "filled up to", options.batch, units::show(sheet->recipe.strength),
        units::show(sheet->resulting->low), units::show(sheet->resulting->high));
    text += other_reading(options, bench, recipe) + after_text(context, options, *sheet);
    context.answer("mix", text, [&] { return formats::mixed_json(*sheet); });
    return {};
}

Result<void> answer_mix(Context& context, const MixOptions& options) {
    const auto bench = options.bench.read(context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto batch = for_option("BATCH", units::parse_volume(options.batch));
    if (!batch) return fail(batch.error());
    if (!options.made_with.empty()) return strength_of_recipe(context, options, *bench, *batch);
    if (bench->bottle && *batch > *bench->bottle) {
        return fail(base::invalid("the bottle is smaller than the batch", options.batch,
                                  units::show(*bench->bottle, context.display()),
                                  "make several bottles, each of what it holds"));
    }
    return mix_to_target(context, options, *bench, *batch);
}

}  // namespace

void add_mix_command(CLI::App& app, Context& context) {
    const auto o = std::make_shared<MixOptions>();
    CLI::App* const command = app.add_subcommand("mix", "How to make a spray, or how strong a recipe is");
    command->add_option("BATCH", o->batch, "Volume to make, like \"1 L\" or \"32 US fl oz\"")->required();
    CLI::Option* const target =
        command->add_option("--target", o->target, "Strength wanted, like \"10 mg/L\"");
    CLI::Option* const made =
        command->add_option("--made-with", o->made_with, "Stock that went into the batch: how strong is it?");
    target->excludes(made);
    command->add_flag("--added", o->added, "With --made-with: added to BATCH of water, not filled up to it");
    command->add_flag("--exact", o->exact, "The unrounded amounts as well");
    command->add_flag("--each-animal", o->each_animal, "What it leaves on every animal, not on twelve");
    o->bench.add_to(*command);
    context.on_chosen(*command, [&context, o]() -> Result<void> {
        if (o->target.empty() && o->made_with.empty()) {
            return fail(base::invalid("a mix needs a strength or a recipe", "", "",
                                      "give --target \"10 mg/L\" or --made-with \"8 US tsp\""));
        }
        return answer_mix(context, *o);
    });
}

}  // namespace mitefall::cli
