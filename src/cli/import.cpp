#include <fmt/format.h>

#include "cli/commands.h"
#include "cli/input.h"
#include "cli/options.h"
#include "questions/import.h"
#include "tables/answer.h"

// A table of animals, put on record as a whole.
namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// Whether it is meant: asked only where somebody sits at the terminal.
Result<void> agree(const Context& context) {
    if (context.ask("Put all of it on record?") != Context::Said::no) return {};
    return fail({base::ErrorKind::conflict,
                 "nothing was put on record",
                 {},
                 {},
                 "put the table right and import it again",
                 {}});
}

Result<void> answer_import(Context& context, const Typed<questions::ImportOptions>& typed) {
    const auto options = typed.read();
    if (!options) return fail(options.error());
    const auto text = read_input(options->file);
    if (!text) return fail(text.error());
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto& taxa = context.knowledge().taxa;
    const tables::Wishes wishes = options->wishes();
    const auto looked = tables::look_at(*keeper, context.knowledge(), *text, wishes, context.now());
    if (!looked) return fail(looked.error());
    const std::string preview = tables::looked_text(*looked, taxa, wishes, context.display());
    const auto answer = [&](const std::vector<records::FactId>& ids, const std::string& done) {
        context.answer("import", done, [&] {
            formats::Json json = tables::looked_json(*looked, taxa);
            json["ids"] = ids;
            return json;
        });
    };
    if (options->dry_run) {
        answer({}, preview + "Nothing was written.\n");
        return {};
    }
    context.say(preview);
    if (!looked->reading.is_open(wishes)) {
        if (const auto agreed = agree(context); !agreed) return agreed;
    }
    const auto ids = tables::add(*keeper, looked->reading, wishes, context.now());
    if (!ids) return fail(ids.error());
    answer(*ids, fmt::format("On record as entries {} to {}. \"undo --count {}\" takes them back.\n",
                             ids->front(), ids->back(), ids->size()));
    return {};
}

}  // namespace

void add_import_command(CLI::App& app, Context& context) {
    const auto asked = add_question(app, questions::import_table());
    context.on_chosen(*asked.command, [&context, asked] { return answer_import(context, *asked.typed); });
}

}  // namespace mitefall::cli
