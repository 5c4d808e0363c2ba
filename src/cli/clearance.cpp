#include <memory>

#include "cli/commands.h"
#include "cli/parse.h"
#include "formats/text.h"
#include "service/clearance.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct LookOptions {
    service::ClearanceOptions options;
    std::string method = "look-over";
    std::string animal;

    void add_draws_to(CLI::App& command) {
        command.add_option("--draws", options.draws, "Parameter draws, rounded up to a multiple of 8")
            ->check(CLI::Range(8, 65536))
            ->capture_default_str();
        command.add_option("--seed", options.seed, "Same seed, same answer")->capture_default_str();
    }

    void add_rounds_to(CLI::App& command) {
        command.add_option("--rounds", options.rounds, "Rounds of checks to look ahead")
            ->check(CLI::Range(1, 26))
            ->capture_default_str();
        command.add_option("--every", options.interval_days, "Days from round to round")
            ->check(CLI::Range(1, 60))
            ->capture_default_str();
        command.add_option("--by", method, "How to look: look-over, soak, wipe or paper-trap")
            ->capture_default_str();
    }

    [[nodiscard]] Result<service::ClearanceOptions> read(const Context& context) const {
        const auto by = parse_choice<records::CheckMethod>("--by", method);
        if (!by) return fail(by.error());
        service::ClearanceOptions read = options;
        read.method = *by;
        read.draws = service::whole_blocks(read.draws);
        read.progress = context.progress("Asking how sure we are");
        return read;
    }
};

Result<void> answer_clear(Context& context, const LookOptions& given) {
    const auto options = given.read(context);
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

Result<void> answer_next_check(Context& context, const LookOptions& given) {
    const auto options = given.read(context);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer = keeper->ask(context.now(), service::next_check_of, *options);
    if (!answer) return fail(answer.error());
    context.answer("next-check", formats::next_check_text(*answer),
                   [&] { return formats::next_check_json(*answer); });
    return {};
}

Result<void> answer_release(Context& context, const LookOptions& given) {
    const auto options = given.read(context);
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto answer =
        keeper->ask(context.now(), service::release_of, records::AnimalId(given.animal), *options);
    if (!answer) return fail(answer.error());
    context.answer("release", formats::release_text(*answer), [&] { return formats::release_json(*answer); });
    return {};
}

}  // namespace

void add_clearance_commands(CLI::App& app, Context& context) {
    const auto c = std::make_shared<LookOptions>();
    CLI::App* const clear =
        app.add_subcommand("clear", "How sure are we that no mite is left, and when shall we be sure");
    c->add_rounds_to(*clear);
    c->add_draws_to(*clear);
    context.on_chosen(*clear, [&context, c] { return answer_clear(context, *c); });

    const auto n = std::make_shared<LookOptions>();
    CLI::App* const next = app.add_subcommand("next-check", "The single checks that would tell most");
    n->add_draws_to(*next);
    context.on_chosen(*next, [&context, n] { return answer_next_check(context, *n); });

    const auto r = std::make_shared<LookOptions>();
    CLI::App* const release = app.add_subcommand("release", "When a new animal may leave quarantine");
    release->add_option("ANIMAL", r->animal, "The animal")->required();
    r->add_rounds_to(*release);
    r->add_draws_to(*release);
    context.on_chosen(*release, [&context, r] { return answer_release(context, *r); });
}

}  // namespace mitefall::cli
