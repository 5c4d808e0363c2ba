#include <fmt/format.h>

#include <fstream>
#include <memory>

#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/collection.h"
#include "formats/paper/batch_page.h"
#include "formats/text/bench.h"
#include "formats/text/layout.h"
#include "questions/mix.h"
#include "service/mixing.h"
#include "service/verdicts.h"

// Bottles of spray: made, listed, labelled, disposed of.
namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

Result<void> answer_make(Context& context, const Typed<questions::BatchOptions>& typed, bool exact) {
    const auto options = typed.read();
    if (!options) return fail(options.error());
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto answer =
        service::answer_mix(options->question(), &(*today)->collection(), context.knowledge(), context.now());
    if (!answer) return fail(answer.error());
    const worklist::MixSheet& sheet = answer->sheet;
    const std::string steps = sheet.measured
                                  ? formats::steps_text(*sheet.measured, formats::show_bottle(answer->bench),
                                                        answer->batch, context.display())
                                  : std::string();
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto id =
        keeper->record_batch(records::BatchId(options->batch), answer->bench, sheet, steps, context.now());
    if (!id) return fail(id.error());
    const std::string text = fmt::format(
        "{}{}{}\nOn record as entry {}, batch {}; use until {}. Its label: \"batch label {} --out "
        "FILE.html\".\n",
        steps, exact ? formats::unrounded_text(sheet.recipe) : "",
        formats::comparison_sentence(sheet.recipe.strength, sheet.comparison), *id, options->batch,
        units::format_day(sheet.discard_by), options->batch);
    context.answer("batch make", text, [&] { return formats::Json{{"ids", {*id}}}; });
    return {};
}

std::string state_of(const records::BatchOnRecord& batch, units::Day today) {
    if (batch.discarded) return "disposed of " + units::format_day(batch.discarded->day);
    return batch.made.value.discard_by < today ? "PAST ITS DAY: dispose of it" : "in use";
}

Result<void> answer_list(Context& context) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    formats::Table table({"BATCH", "MADE", "USE UNTIL", "STRENGTH", "VOLUME", "STATE"});
    for (const auto& [id, batch] : collection->batches) {
        const records::BatchMade& made = batch.made.value;
        table.add({id.text(), units::format_day(batch.made.day), units::format_day(made.discard_by),
                   units::show(made.strength), units::show(made.total, context.display()),
                   state_of(batch, context.now().today)});
    }
    context.answer("batch list", collection->batches.empty() ? "No batch is on record.\n" : table.text(),
                   [&] { return formats::batches_json(*collection); });
    return {};
}

struct DiscardOptions {
    std::string id, how;
};

Result<void> answer_discard(Context& context, const DiscardOptions& options) {
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto ids = keeper->record({records::BatchDiscarded{records::BatchId(options.id), options.how}},
                                    context.now().today, context.now());
    if (!ids) return fail(ids.error());
    context.answer("batch discard",
                   fmt::format("Batch {} is off the shelf (entry {}). What was left goes to a pharmacy or "
                               "hazardous-waste point, never down the drain.\n",
                               options.id, ids->front()),
                   [&] {
                       return formats::Json{{"ids", *ids}};
                   });
    return {};
}

struct LabelOptions {
    std::string id, out, paper = "a4";
    int copies = 1;
};

base::Error no_such_batch(const std::string& id) {
    return {base::ErrorKind::not_found,
            "there is no batch of that name",
            id,
            {},
            "look it up with \"batch list\"",
            {}};
}

base::Error cannot_write(const std::string& path) {
    return {base::ErrorKind::system,
            "the page could not be written",
            path,
            {},
            "choose a folder you may write to, and see that the disk is not full",
            {}};
}

Result<void> write_page(const std::string& path, const std::string& html) {
    std::ofstream file(path, std::ios::binary);
    file << html;
    file.close();
    if (!file) return fail(cannot_write(path));
    return {};
}

Result<void> answer_label(Context& context, const LabelOptions& options) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    const auto batch = collection->batches.find(records::BatchId(options.id));
    if (batch == collection->batches.end()) return fail(no_such_batch(options.id));
    const auto& tables = context.knowledge().tables;
    const auto comparison = mixing::compare_strength(batch->second.made.value.strength, tables);
    const auto cautions = service::spray_cautions(context.knowledge());
    const auto paper = options.paper == "letter" ? formats::PaperSize::letter : formats::PaperSize::a4;
    const auto html =
        formats::batch_page({batch->second, comparison, cautions, paper, options.copies, context.display()});
    if (!html) return fail(html.error());
    const std::string path = options.out.empty() ? "batch-" + options.id + ".html" : options.out;
    if (auto written = write_page(path, *html); !written) return written;
    context.answer(
        "batch label",
        fmt::format("{} is ready: open it in a browser and print it on {}.\n", path, options.paper), [&] {
            return formats::Json{{"file", path},
                                 {"paper", options.paper},
                                 {"copies", options.copies},
                                 {"code", formats::batch_code_text(batch->second)}};
        });
    return {};
}

void add_make(CLI::App& batch, Context& context) {
    const auto make = add_question(batch, questions::batch_make());
    const auto exact = std::make_shared<bool>(false);
    make.command->add_flag("--exact", *exact, "The unrounded amounts as well");
    context.on_chosen(*make.command,
                      [&context, make, exact] { return answer_make(context, *make.typed, *exact); });
}

void add_label(CLI::App& batch, Context& context) {
    const auto o = std::make_shared<LabelOptions>();
    CLI::App* const command = batch.add_subcommand("label", "The label and the record of a batch, to print");
    command->add_option("BATCH", o->id)->required();
    command->add_option("--out", o->out, "File to write (default: batch-BATCH.html)");
    command->add_option("--paper", o->paper, "a4 or letter")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->capture_default_str();
    command->add_option("--copies", o->copies, "Labels on the sheet, 1 to 8")->capture_default_str();
    context.on_chosen(*command, [&context, o] { return answer_label(context, *o); });
}

void add_discard(CLI::App& batch, Context& context) {
    const auto o = std::make_shared<DiscardOptions>();
    CLI::App* const command = batch.add_subcommand("discard", "A bottle is empty or was disposed of");
    command->add_option("BATCH", o->id)->required();
    command->add_option("--how", o->how, "How, like \"pharmacy\"");
    context.on_chosen(*command, [&context, o] { return answer_discard(context, *o); });
}

}  // namespace

void add_batch_commands(CLI::App& app, Context& context) {
    CLI::App* const batch = app.add_subcommand("batch", "Bottles of spray: make, list, label, discard");
    batch->require_subcommand(1);
    batch->fallthrough();
    add_make(*batch, context);
    CLI::App* const list = batch->add_subcommand("list", "Bottles on record");
    context.on_chosen(*list, [&context] { return answer_list(context); });
    add_label(*batch, context);
    add_discard(*batch, context);
}

}  // namespace mitefall::cli
