#include <fmt/format.h>

#include <memory>

#include "cli/bench.h"
#include "cli/commands.h"
#include "cli/parse.h"
#include "mixing/dilution.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct MixOptions {
    BenchOptions bench;
    std::string batch, target, made_with;
};

/// Holds the strength beside the published ones; says nothing of the harmless.
std::string compare(units::Strength strength, const evidence::Tables& tables) {
    const auto strongest = tables.strength("strength_without_caution");
    const auto weakest = tables.strength("published_strength_low");
    if (strength < weakest.value)
        return fmt::format("Weaker than any published spray ({}).\n", units::show(weakest.value));
    if (strength <= strongest.value)
        return fmt::format("Within the published range ({} to {}).\n", units::show(weakest.value),
                           units::show(strongest.value));
    return fmt::format(
        "CAUTION: {} times the strongest published spray ({}). Read \"verdicts --strength\" before anything "
        "is sprayed.\n",
        units::show_number(strength / strongest.value, 2), units::show(strongest.value));
}

std::string measurement_text(const mixing::Measurement& measured,
                             const std::optional<mixing::MeasuredStrength>& strength,
                             units::Display display) {
    std::string text = "Measure the stock: ";
    std::string list;
    for (const mixing::Measure& m : measured.measures)
        list += (list.empty() ? "" : ", then ") +
                fmt::format("{} x {} with the {}", m.times, units::show(m.amount, display), m.tool.name);
    text += list + ".\n";
    if (measured.rough) text += "The tools at hand are rough for this: a finer syringe would be better.\n";
    if (strength)
        text += fmt::format("Strength: {}, between {} and {} if the tool is misread by half a mark.\n",
                            units::show(strength->nominal), units::show(strength->low),
                            units::show(strength->high));
    return text;
}

Result<void> mix_to_target(Context& context, const MixOptions& options, const worklist::Bench& bench,
                           units::Volume batch) {
    const auto target = for_option("--target", units::parse_strength(options.target));
    if (!target) return fail(target.error());
    const auto recipe = mixing::mix(bench.stock, batch, *target, context.now().today);
    if (!recipe) return fail(recipe.error());
    const auto measured =
        mixing::measure(recipe->stock, bench.tools, mixing::usual_accuracy(context.knowledge().tables));
    std::optional<mixing::MeasuredStrength> strength;
    if (measured) {
        if (const auto range = mixing::strength_of(bench.stock.strength, *measured, recipe->total))
            strength = *range;
    }
    std::string text = fmt::format(
        "{} of stock, filled up to {} with water: {}.\n", units::show(recipe->stock, context.display()),
        units::show(recipe->total, context.display()), units::show(recipe->strength));
    text += measured ? measurement_text(*measured, strength, context.display())
                     : measured.error().message() + "\n";
    text += compare(recipe->strength, context.knowledge().tables);
    const auto last_day =
        mixing::discard_by(context.now().today, false, bench.stock.expires, context.knowledge().tables);
    const auto drops = mixing::wetting_drops(recipe->total, context.knowledge().tables);
    if (drops) text += fmt::format("Add {} drops of mild dish soap. ", *drops);
    text += fmt::format("Shake before every use, keep dark, use until {}. Never down the drain.\n",
                        units::format_day(last_day));
    context.answer("mix", text, [&] {
        return formats::mixed_json(*recipe, measured ? std::optional(*measured) : std::nullopt, strength,
                                   measured ? "" : measured.error().message());
    });
    return {};
}

/// The other way round: "I followed this recipe, how strong is it?"
Result<void> strength_of_recipe(Context& context, const MixOptions& options, const worklist::Bench& bench,
                                units::Volume batch) {
    const auto stock = for_option("--made-with", units::parse_volume(options.made_with));
    if (!stock) return fail(stock.error());
    const auto strength = mixing::strength_of(bench.stock.strength, *stock, batch);
    if (!strength) return fail(strength.error());
    const mixing::Recipe recipe{*stock, batch - *stock, batch, *strength};
    const std::string text = fmt::format("{} of stock in {} is {}.\n", units::show(*stock, context.display()),
                                         units::show(batch, context.display()), units::show(*strength)) +
                             compare(*strength, context.knowledge().tables);
    context.answer("mix", text, [&] { return formats::mixed_json(recipe, std::nullopt, std::nullopt, ""); });
    return {};
}

Result<void> answer_mix(Context& context, const MixOptions& options) {
    const auto bench = options.bench.read(context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto batch = for_option("BATCH", units::parse_volume(options.batch));
    if (!batch) return fail(batch.error());
    if (!options.made_with.empty()) return strength_of_recipe(context, options, *bench, *batch);
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
