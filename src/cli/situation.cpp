#include <fmt/format.h>

#include <memory>

#include "cli/commands.h"
#include "cli/options.h"
#include "cli/tonight.h"
#include "formats/json/exposure.h"
#include "formats/json/given.h"
#include "formats/json/json.h"
#include "formats/json/origin.h"
#include "formats/json/plan.h"
#include "formats/json/shopping.h"
#include "formats/json/verdicts.h"
#include "formats/json/worklist.h"
#include "formats/origin.h"
#include "formats/text/exposure.h"
#include "formats/text/given.h"
#include "formats/text/late.h"
#include "formats/text/layout.h"
#include "formats/text/origin.h"
#include "formats/text/plan.h"
#include "formats/text/shopping.h"
#include "formats/text/verdicts.h"
#include "formats/text/worklist.h"
#include "questions/draws.h"
#include "questions/verdicts.h"
#include "service/exposure.h"
#include "service/given.h"
#include "service/mixing.h"
#include "service/origin.h"
#include "service/plans.h"
#include "service/verdicts.h"
#include "service/worklist.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

Result<void> answer_exposure(Context& context) {
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto tracing = service::exposure_of(**today);
    if (!tracing) return fail(tracing.error());
    context.answer("exposure", formats::exposure_text(*tracing, (*today)->collection()),
                   [&] { return formats::exposure_json(*tracing); });
    return {};
}

Result<void> answer_origin(Context& context, const Typed<questions::Draws>& typed) {
    const auto options = typed.read();
    if (!options) return fail(options.error());
    const auto origin = context.about_today(service::origin_of, service::Draws{options->draws, options->seed},
                                            service::Situation::Progress());
    if (!origin) return fail(origin.error());
    const formats::OriginView view{*origin->situation->known(), origin->believed->belief,
                                   origin->situation->collection()};
    context.answer("origin", formats::origin_text(view), [&] { return formats::origin_json(view); });
    return {};
}

Result<void> answer_given(Context& context, const std::string& animal) {
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto given = service::given_of(**today, records::AnimalId(animal));
    if (!given) return fail(given.error());
    const records::Collection& names = (*today)->collection();
    context.answer("given", formats::given_text(*given, names),
                   [&] { return formats::given_json(*given, names); });
    return {};
}

base::Error no_such_animal(const std::string& name) {
    return {base::ErrorKind::not_found,
            "there is no animal of that name",
            name,
            {},
            "look it up with \"show\"",
            {}};
}

Result<void> answer_verdicts(Context& context, const Typed<questions::VerdictOptions>& typed,
                             const formats::VerdictDetail& detail) {
    const auto options = typed.read();
    if (!options) return fail(options.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    const units::Strength strength = options->strength.value_or(service::usual_strength(context.knowledge()));
    auto verdicts = keeper->ask(context.now(), service::verdicts_of, strength);
    if (!verdicts) return fail(verdicts.error());
    const records::AnimalId animal(options->animal);
    if (!animal.empty() && !collection->animals.contains(animal))
        return fail(no_such_animal(options->animal));
    if (!animal.empty()) std::erase_if(*verdicts, [&](const auto& v) { return v.animal != animal; });
    context.answer("verdicts", formats::verdicts_text(*verdicts, *collection, detail),
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
    const auto bench = service::bench_to_show({}, &collection, context.knowledge().tables);
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
    std::string text =
        formats::first_of_all_text(*list, collection) + formats::late_text(list->late, collection) +
        formats::exposure_text(*(*today)->tracing(), collection) + formats::origin_line(origin) +
        formats::verdicts_text(verdicts, collection, {false, false, details}) +
        formats::plan_text(planned.choice, planned.setting, goal, context.display());
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
    const auto tonight = add_question(app, questions::tonight());
    context.on_chosen(*tonight.command, [&context, tonight]() -> Result<void> {
        const auto asked = tonight.typed->read();
        if (!asked) return fail(asked.error());
        service::PlanOptions options;
        options.draws = asked->draws;
        options.seed = asked->seed;
        return answer_tonight(context, "tonight", options);
    });
    const auto origin = add_question(app, questions::origin());
    context.on_chosen(*origin.command, [&context, origin] { return answer_origin(context, *origin.typed); });
    CLI::App* const exposure = app.add_subcommand("exposure", "Who may have mites, and by which path");
    context.on_chosen(*exposure, [&context] { return answer_exposure(context); });
    const auto animal = std::make_shared<std::string>();
    CLI::App* const given = app.add_subcommand(
        "given", "What an animal was given, and what was done where it lived, before today or its death");
    given->add_option("ANIMAL", *animal, "Also one that left or died")->required();
    context.on_chosen(*given, [&context, animal] { return answer_given(context, *animal); });
    const auto verdicts = add_question(app, questions::verdicts());
    const auto detail = std::make_shared<formats::VerdictDetail>();
    verdicts.command->add_flag("--reasons", detail->reasons, "Every reason with its source");
    verdicts.command->add_flag("--all", detail->every_method, "Every method, not the usual ones alone");
    context.on_chosen(*verdicts.command, [&context, verdicts, detail] {
        return answer_verdicts(context, *verdicts.typed, *detail);
    });
}

}  // namespace mitefall::cli
