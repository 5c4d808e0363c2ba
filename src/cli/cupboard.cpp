#include <filesystem>

#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/cupboard.h"
#include "formats/text/cupboard.h"
#include "questions/cupboard.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// Beside the course on record, if there is a collection file.
Result<worklist::Cupboard> judged(const Context& context, const questions::CupboardOptions& asked) {
    if (!std::filesystem::exists(context.file()))
        return service::cupboard_of(asked.question(), context.knowledge(), nullptr);
    const auto today = context.situation();
    if (!today) return fail(today.error());
    return service::cupboard_of(asked.question(), context.knowledge(), today->get());
}

Result<void> tell_cupboard(const Context& context, const Typed<questions::CupboardOptions>& typed) {
    const auto asked = typed.read();
    if (!asked) return fail(asked.error());
    const auto cupboard = judged(context, *asked);
    if (!cupboard) return fail(cupboard.error());
    context.answer("cupboard", formats::cupboard_text(*cupboard, context.display()),
                   [&] { return formats::cupboard_json(*cupboard); });
    return {};
}

}  // namespace

void add_cupboard_command(CLI::App& app, Context& context) {
    const auto asking = add_question(app, questions::cupboard());
    context.on_chosen(*asking.command,
                      [&context, typed = asking.typed] { return tell_cupboard(context, *typed); });
}

}  // namespace mitefall::cli
