#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/mixed.h"
#include "formats/text/bench.h"
#include "formats/text/cautions.h"
#include "formats/text/layout.h"
#include "questions/mix.h"
#include "service/mixing.h"
#include "service/verdicts.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// What is shown beside the answer.
struct MixShown {
    bool exact = false;
    bool each_animal = false;
};

std::string mist_table(const worklist::MixSheet& sheet, units::Display display, bool all) {
    const std::vector<worklist::MistOnAnimal>& mists = sheet.animals;
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
    std::string text = formats::heading(fmt::format("What {} would leave on each animal, highest first",
                                                    units::show(sheet.comparison.judged))) +
                       table.text();
    if (rows < mists.size())
        text += fmt::format("and {} more: --each-animal shows all.\n", mists.size() - rows);
    return text + fmt::format("Veterinarians inject {}. ", units::show(sheet.injected)) +
           "How much of it is taken up through the skin is not known. Reasons: \"verdicts --reasons "
           "--strength ...\".\n";
}

std::string comparison_text(const worklist::MixSheet& sheet) {
    const bool above = sheet.comparison.standing == mixing::Standing::above;
    const std::string sentence = formats::comparison_sentence(sheet.recipe.strength, sheet.comparison);
    const std::string text =
        formats::wrap(above ? formats::toned(formats::Tone::grave, sentence) : sentence, "", "");
    return sheet.resulting ? text + formats::strength_picture(*sheet.resulting, sheet.comparison) : text;
}

std::string after_text(const Context& context, const MixShown& options, const worklist::MixSheet& sheet) {
    std::string text;
    if (options.exact && !sheet.steps_held_back) text += formats::unrounded_text(sheet.recipe);
    if (!sheet.animals.empty()) text += mist_table(sheet, context.display(), options.each_animal);
    text += formats::heading("Read this first");
    return text + formats::cautions_text(service::spray_cautions(context.knowledge()));
}

/// nullptr where there is no collection file: a mix is told without one.
Result<std::shared_ptr<const service::Situation>> situation_if_any(const Context& context) {
    if (!std::filesystem::exists(context.file())) return nullptr;
    return context.situation();
}

/// In place of the steps: why they are not shown, and how they are.
std::string held_back_text(const worklist::MixSheet& sheet) {
    return formats::heading("STOP: stronger than anything published") +
           formats::wrap(
               fmt::format(
                   "Nobody has shown that {} is safe on a snake. Do not use it on an animal without a "
                   "veterinarian. How it is made is shown once you have read this and what it would "
                   "leave on each animal: --stop-read. Better: mix it weaker, up to {}.",
                   units::show(sheet.comparison.judged), units::show(sheet.comparison.strongest)),
               "", "");
}

std::string recipe_text(const worklist::MixSheet& sheet, const std::string& stock, units::Display display) {
    std::string text =
        fmt::format("{} of stock ({}), filled up to {} with water: {} of ivermectin.\n",
                    formats::show_stock(sheet.recipe.stock, sheet.measured), stock,
                    units::show(sheet.recipe.total, display), units::show(sheet.recipe.strength));
    text += sheet.measured ? formats::steps_text(*sheet.measured, stock, sheet.recipe.total, display)
                           : sheet.cannot_measure + "\n";
    return text + fmt::format(
                      "Add {} of mild dish soap. Use until {}. \"batch make\" puts it on record and "
                      "prints its label.\n",
                      sheet.wetting_drops == 1 ? "1 drop" : fmt::format("{} drops", sheet.wetting_drops),
                      units::format_day(sheet.discard_by));
}

/// A round amount that is easier to measure, in the units of the question.
std::string easier_text(const service::MixQuestion& question, const worklist::MixSheet& sheet) {
    if (!sheet.round) return {};
    return formats::round_text(*sheet.round, sheet.discard_by, {units::system_written_in(question.batch)});
}

std::string other_reading(const service::MixQuestion& question, const service::MixAnswer& answer) {
    if (question.added) return {};
    const auto strength =
        mixing::strength_of(answer.bench.stock.strength, answer.made_with, answer.batch + answer.made_with);
    if (!strength) return {};
    return fmt::format("If it was added to {} of water instead of filled up to it: {} (--added).\n",
                       question.batch, units::show(*strength));
}

/// The other way round: "I followed this recipe, how strong is it?"
std::string strength_text(const service::MixQuestion& question, const service::MixAnswer& answer) {
    const worklist::MixSheet& sheet = answer.sheet;
    return fmt::format("{} of stock ({}) {} {} is {} of ivermectin, between {} and {} as it was measured.\n",
                       question.made_with, formats::show_bottle(answer.bench),
                       question.added ? "added to" : "filled up to", question.batch,
                       units::show(sheet.recipe.strength), units::show(sheet.resulting->low),
                       units::show(sheet.resulting->high)) +
           other_reading(question, answer);
}

std::string way_text(const mixing::Thinned& way, units::Display display) {
    const std::string done =
        way.way == mixing::ThinWay::all
            ? fmt::format("Add {} of water to all of it: {} in all", units::show(way.water, display),
                          units::show(way.total, display))
            : fmt::format("Or take {} of it and fill up to {} with water", units::show(way.mix, display),
                          units::show(way.total, display));
    return formats::wrap(
        fmt::format("{}. That is {}, between {} and {}.", done, units::show(way.resulting.nominal),
                    units::show(way.resulting.low), units::show(way.resulting.high)),
        "  ", "  ");
}

/// How a recipe that was followed is made weaker; or what is to be told first.
std::string thinned_text(const service::MixAnswer& answer, units::Display display) {
    const worklist::MixSheet& sheet = answer.sheet;
    const std::string heading = formats::heading("Weaker with water");
    if (answer.bench.stock_is == mixing::StockForm::not_told && answer.made_with > units::Volume{})
        return heading + formats::wrap("Say what is in the bottle (--stock-is) to see how much.", "  ", "  ");
    if (sheet.thinned.mix_anew)
        return formats::heading("Mix it anew") +
               formats::wrap(
                   fmt::format("It may be more than {} times too strong: thinning it would make more "
                               "than anybody needs. Measure the stock with a fine syringe.",
                               mixing::most_times_thinned),
                   "  ", "  ");
    if (sheet.thinned.ways.empty()) return {};
    std::string text = heading;
    for (const mixing::Thinned& way : sheet.thinned.ways) text += way_text(way, display);
    return text + formats::wrap("Surer: mix it anew and measure the stock with a fine syringe.", "  ", "  ");
}

Result<void> tell_mix(Context& context, const Typed<questions::MixOptions>& typed, const MixShown& options) {
    const auto asked = typed.read();
    if (!asked) return fail(asked.error());
    const service::MixQuestion question = asked->question();
    const auto today = situation_if_any(context);
    if (!today) return fail(today.error());
    auto answer = service::answer_mix(question, *today ? &(*today)->collection() : nullptr,
                                      context.knowledge(), context.now());
    if (!answer) return fail(answer.error());
    worklist::MixSheet& sheet = answer->sheet;
    service::put_beside_collection(sheet, question, today->get());
    const std::string made = !question.made_with.empty() ? strength_text(question, *answer)
                             : sheet.steps_held_back
                                 ? held_back_text(sheet)
                                 : recipe_text(sheet, formats::show_bottle(answer->bench), context.display());
    const std::string easier = easier_text(question, sheet);
    // A stop stands above whatever it stops.
    const bool is_stopped = sheet.comparison.standing == mixing::Standing::above;
    const std::string stands = comparison_text(sheet);
    const std::string weaker = thinned_text(*answer, context.display());
    context.answer("mix",
                   (is_stopped ? stands + made + easier + weaker : made + easier + stands) +
                       after_text(context, options, sheet),
                   [&] { return formats::mixed_json(sheet, service::spray_cautions(context.knowledge())); });
    return {};
}

}  // namespace

void add_mix_commands(CLI::App& app, Context& context) {
    add_cupboard_command(app, context);
    const auto mix = add_question(app, questions::mix());
    mix.command->get_option("--target")->excludes(mix.command->get_option("--made-with"));
    const auto o = std::make_shared<MixShown>();
    mix.command->add_flag("--exact", o->exact, "The unrounded amounts as well");
    mix.command->add_flag("--each-animal", o->each_animal, "What it leaves on every animal, not on twelve");
    context.on_chosen(*mix.command, [&context, mix, o] { return tell_mix(context, *mix.typed, *o); });
}

}  // namespace mitefall::cli
