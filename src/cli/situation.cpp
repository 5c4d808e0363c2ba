#include <fmt/format.h>

#include <memory>

#include "cli/bench.h"
#include "cli/commands.h"
#include "cli/parse.h"
#include "cli/tonight.h"
#include "formats/late.h"
#include "formats/layout.h"
#include "formats/origin.h"
#include "formats/text.h"
#include "service/origin.h"
#include "service/plans.h"
#include "service/verdicts.h"
#include "service/worklist.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

Result<void> answer_exposure(Context& context) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto tracing =
        keeper->ask(context.now(), [](const service::Situation& today) { return today.tracing(); });
    if (!tracing) return fail(tracing.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    context.answer("exposure", formats::exposure_text(*tracing, *collection),
                   [&] { return formats::exposure_json(*tracing); });
    return {};
}

Result<void> answer_origin(Context& context, std::size_t draws, std::uint64_t seed) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto origin = keeper->ask(context.now(), service::origin_of, service::Draws{draws, seed},
                                    service::Situation::Progress());
    if (!origin) return fail(origin.error());
    const formats::OriginView view{*origin->situation->known(), origin->believed->belief,
                                   origin->situation->collection()};
    context.answer("origin", formats::origin_text(view), [&] { return formats::origin_json(view); });
    return {};
}

struct VerdictOptions {
    std::string strength, animal;
    formats::VerdictDetail detail;
};

base::Error no_such_animal(const std::string& name) {
    return {base::ErrorKind::not_found,
            "there is no animal of that name",
            name,
            {},
            "look it up with \"show\"",
            {}};
}

Result<void> answer_verdicts(Context& context, const VerdictOptions& options) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    units::Strength strength = service::usual_strength(context.knowledge());
    if (!options.strength.empty()) {
        const auto given = for_option("--strength", units::parse_strength(options.strength));
        if (!given) return fail(given.error());
        strength = *given;
    }
    auto verdicts = keeper->ask(context.now(), service::verdicts_of, strength);
    if (!verdicts) return fail(verdicts.error());
    const records::AnimalId animal(options.animal);
    if (!animal.empty() && !collection->animals.contains(animal)) return fail(no_such_animal(options.animal));
    if (!animal.empty()) std::erase_if(*verdicts, [&](const auto& v) { return v.animal != animal; });
    context.answer("verdicts", formats::verdicts_text(*verdicts, *collection, options.detail),
                   [&] { return formats::verdicts_json(*verdicts); });
    return {};
}

}  // namespace

Result<void> answer_tonight(Context& context, std::string_view command, service::PlanOptions options) {
    const auto today = context.situation();
    if (!today) return fail(today.error());
    options.progress = context.progress("Trying plans");
    const auto found = service::choose_plan(**today, options);
    if (!found) return fail(found.error());
    const service::Planned& planned = *found;
    const records::Collection& collection = (*today)->collection();
    const auto verdicts = service::verdicts_of(**today, planned.setting.strength);
    const auto bench = BenchOptions{}.read(context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto shopping = worklist::shop_for(planned.choice.recommended.schedule, planned.setting, *bench);
    const plan::Goal goal{options.target, options.horizon_days, options.prefer, {}};
    const bool adopted = collection.plan.has_value();
    auto list =
        adopted ? service::worklist_of(**today)
                : Result<worklist::Worklist>(service::preview_worklist(planned, planned.choice.recommended));
    if (!list) return fail(list.error());
    const formats::OriginView origin{planned.setting.known, planned.believed->belief, collection};
    const bool details = context.wants_details();
    std::string text = formats::late_text(list->late, collection) +
                       formats::exposure_text(*(*today)->tracing(), collection) +
                       formats::origin_line(origin) +
                       formats::verdicts_text(verdicts, collection, {false, false, details}) +
                       formats::plan_text(planned.choice, planned.setting, goal, context.display(), details);
    text += shopping ? formats::shopping_text(*shopping, *bench, context.display())
                     : formats::heading("What to mix and buy") + shopping.error().message() + "\n";
    const worklist::Late late = std::exchange(list->late, {});  // it stands first of all
    text += formats::worklist_text(*list, collection, context.display(), details);
    list->late = late;
    if (!adopted)
        text += "This is the list of the recommended plan. Follow it with \"plan --adopt recommended\".\n";
    context.answer(command, text, [&] {
        return formats::Json{
            {"exposure", formats::exposure_json(*(*today)->tracing())},
            {"origin", formats::origin_json(origin)},
            {"verdicts", formats::verdicts_json(verdicts)},
            {"plan", formats::plan_json(planned.choice, planned.setting, goal)},
            {"shopping", shopping ? formats::shopping_json(*shopping, *bench) : formats::Json()},
            {"worklist", formats::worklist_json(*list)}};
    });
    return {};
}

void add_situation_commands(CLI::App& app, Context& context) {
    struct Scoring {
        std::size_t draws = service::usual_draws;
        std::uint64_t seed = service::PlanOptions{}.seed;
    };
    const auto s = std::make_shared<Scoring>();
    CLI::App* const tonight =
        app.add_subcommand("tonight", "After a sighting: exposure, verdicts, plans, mixing and today's work");
    tonight->add_option("--draws", s->draws, "Parameter draws, rounded up to a multiple of 8")
        ->check(CLI::Range(8, 65536))
        ->capture_default_str();
    tonight->add_option("--seed", s->seed, "Same seed, same answer")->capture_default_str();
    context.on_chosen(*tonight, [&context, s] {
        service::PlanOptions options;
        options.draws = service::whole_blocks(s->draws);
        options.seed = s->seed;
        return answer_tonight(context, "tonight", options);
    });
    const auto from = std::make_shared<Scoring>();
    CLI::App* const origin =
        app.add_subcommand("origin", "How the mites came in, most likely, and where they are");
    origin->add_option("--draws", from->draws, "Parameter draws, rounded up to a multiple of 8")
        ->check(CLI::Range(8, 65536))
        ->capture_default_str();
    origin->add_option("--seed", from->seed, "Same seed, same answer")->capture_default_str();
    context.on_chosen(*origin, [&context, from] {
        return answer_origin(context, service::whole_blocks(from->draws), from->seed);
    });
    CLI::App* const exposure = app.add_subcommand("exposure", "Who may have mites, and by which path");
    context.on_chosen(*exposure, [&context] { return answer_exposure(context); });
    const auto o = std::make_shared<VerdictOptions>();

    CLI::App* const verdicts = app.add_subcommand("verdicts", "What each animal can be given, and why not");
    verdicts->add_option("--strength", o->strength,
                         "Strength of the ivermectin spray (default: the one a plan uses)");
    verdicts->add_option("--animal", o->animal, "Only this animal");
    verdicts->add_flag("--reasons", o->detail.reasons, "Every reason with its source");
    verdicts->add_flag("--all", o->detail.every_method, "Every method, not the usual ones alone");
    context.on_chosen(*verdicts, [&context, o] { return answer_verdicts(context, *o); });
}

}  // namespace mitefall::cli
