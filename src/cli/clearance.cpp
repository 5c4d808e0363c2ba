#include "service/clearance.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/after.h"
#include "formats/json/clearance.h"
#include "formats/json/emptied.h"
#include "formats/json/next_check.h"
#include "formats/json/release.h"
#include "formats/text/after.h"
#include "formats/text/clearance.h"
#include "formats/text/emptied.h"
#include "formats/text/next_check.h"
#include "formats/text/release.h"
#include "questions/clear.h"
#include "questions/emptied.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// What was typed, with progress shown.
template <class O>
Result<O> asked_of(const Context& context, const Typed<O>& typed) {
    auto options = typed.read();
    if (options) options->progress = context.progress("Asking how sure we are");
    return options;
}

Result<void> answer_clear(Context& context, const Typed<service::ClearanceOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    const auto answer = keeper->ask(context.now(), service::clearance_of, *options);
    if (!answer) return fail(answer.error());
    context.answer("clear", formats::clearance_text(*answer, *collection),
                   [&] { return formats::clearance_json(*answer); });
    return {};
}

Result<void> answer_next_check(Context& context, const Typed<service::ClearanceOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer = keeper->ask(context.now(), service::next_check_of, *options);
    if (!answer) return fail(answer.error());
    context.answer("next-check", formats::next_check_text(*answer),
                   [&] { return formats::next_check_json(*answer); });
    return {};
}

Result<void> answer_release(Context& context, const Typed<questions::ReleaseOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer =
        keeper->ask(context.now(), service::release_of, records::AnimalId(options->animal), *options);
    if (!answer) return fail(answer.error());
    context.answer("release", formats::release_text(*answer), [&] { return formats::release_json(*answer); });
    return {};
}

Result<void> answer_emptied(Context& context, const Typed<service::EmptiedOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer = keeper->ask(context.now(), service::emptied_of, *options);
    if (!answer) return fail(answer.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    context.answer("emptied",
                   formats::emptied_text(*answer, collection->enclosures.at(answer->enclosure).name),
                   [&] { return formats::emptied_json(*answer); });
    return {};
}

Result<void> answer_keep_out(Context& context, const Typed<service::ClearanceOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer = keeper->ask(context.now(), service::keep_out_of, *options);
    if (!answer) return fail(answer.error());
    context.answer("keep-out", formats::keep_out_text(*answer),
                   [&] { return formats::keep_out_json(*answer); });
    return {};
}

Result<void> answer_handover(Context& context, const Typed<questions::ReleaseOptions>& typed) {
    const auto options = asked_of(context, typed);
    if (!options) return fail(options.error());
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto note = service::handover_of(**today, records::AnimalId(options->animal), *options);
    if (!note) return fail(note.error());
    const records::Collection& names = (*today)->collection();
    context.answer("handover", formats::handover_text(*note, names),
                   [&] { return formats::handover_json(*note, names); });
    return {};
}

}  // namespace

void add_clearance_commands(CLI::App& app, Context& context) {
    const auto clear = add_question(app, questions::clear());
    context.on_chosen(*clear.command, [&context, clear] { return answer_clear(context, *clear.typed); });
    const auto next = add_question(app, questions::next_check());
    context.on_chosen(*next.command, [&context, next] { return answer_next_check(context, *next.typed); });
    const auto release = add_question(app, questions::release());
    context.on_chosen(*release.command,
                      [&context, release] { return answer_release(context, *release.typed); });
    const auto emptied = add_question(app, questions::emptied());
    context.on_chosen(*emptied.command,
                      [&context, emptied] { return answer_emptied(context, *emptied.typed); });
    const auto keep_out = add_question(app, questions::keep_out());
    context.on_chosen(*keep_out.command,
                      [&context, keep_out] { return answer_keep_out(context, *keep_out.typed); });
    const auto handover = add_question(app, questions::handover());
    context.on_chosen(*handover.command,
                      [&context, handover] { return answer_handover(context, *handover.typed); });
}

}  // namespace mitefall::cli
