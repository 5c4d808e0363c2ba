#include "questions/timing.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/procedure.h"
#include "formats/json/why_days.h"
#include "formats/text/procedure.h"
#include "formats/text/why_days.h"
#include "service/procedure.h"
#include "service/why_days.h"

// Why the adopted course has its days, and what looks and a second course after it are worth.
namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

Result<void> answer_why_days(Context& context, const Typed<questions::WhyDaysOf>& typed) {
    const auto asked = typed.read();
    if (!asked) return fail(asked.error());
    service::WhyDaysOptions options = *asked;
    options.progress = context.progress("Following the mites through the rounds");
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto told = service::why_days_on_record(**today, options);
    if (!told) return fail(told.error());
    context.answer("why-days", formats::why_days_text(told->view, (*today)->collection(), context.display()),
                   [&] { return formats::why_days_json(told->view); });
    return {};
}

Result<void> answer_procedure(Context& context, const Typed<questions::ProcedureOf>& typed) {
    const auto asked = typed.read();
    if (!asked) return fail(asked.error());
    service::PlanOptions options;
    options.draws = asked->draws;
    options.seed = asked->seed;
    options.progress = context.progress("Following treatments, looks and a second course");
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto told = service::procedure_on_record(**today, options);
    if (!told) return fail(told.error());
    context.answer("procedure", formats::procedure_text(*told),
                   [&] { return formats::procedure_json(*told); });
    return {};
}

}  // namespace

void add_timing_commands(CLI::App& app, Context& context) {
    const auto why_days = add_question(app, questions::why_days());
    context.on_chosen(*why_days.command,
                      [&context, why_days] { return answer_why_days(context, *why_days.typed); });
    const auto procedure = add_question(app, questions::procedure());
    context.on_chosen(*procedure.command,
                      [&context, procedure] { return answer_procedure(context, *procedure.typed); });
}

}  // namespace mitefall::cli
