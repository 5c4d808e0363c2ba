#include <fmt/format.h>

#include <memory>

#include "cli/commands.h"
#include "cli/course.h"
#include "cli/options.h"
#include "cli/parse.h"
#include "formats/json/adopted.h"
#include "formats/json/course.h"
#include "formats/json/forecast.h"
#include "formats/json/helps.h"
#include "formats/json/json.h"
#include "formats/json/late.h"
#include "formats/json/matters.h"
#include "formats/json/plan.h"
#include "formats/json/prevention.h"
#include "formats/json/shopping.h"
#include "formats/json/worklist.h"
#include "formats/late_chances.h"
#include "formats/matters.h"
#include "formats/text/adopted.h"
#include "formats/text/course.h"
#include "formats/text/helps.h"
#include "formats/text/late.h"
#include "formats/text/matters.h"
#include "formats/text/origin.h"
#include "formats/text/plan.h"
#include "formats/text/prevention.h"
#include "formats/text/shopping.h"
#include "formats/text/show.h"
#include "formats/text/worklist.h"
#include "questions/mix.h"
#include "questions/plan.h"
#include "service/adopted.h"
#include "service/course.h"
#include "service/helps.h"
#include "service/late.h"
#include "service/matters.h"
#include "service/mixing.h"
#include "service/plans.h"
#include "service/rescore.h"
#include "service/shopping.h"
#include "service/worklist.h"
#include "words/words.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

using Asked = Typed<service::PlanOptions>;

Result<service::PlanOptions> asked_of(const Context& context, const Asked& typed, const char* doing) {
    auto options = typed.read();
    if (options) options->progress = context.progress(doing);
    return options;
}

/// What a plan is asked with beside the question itself.
struct PlanShown {
    std::string adopt;
    bool course = false;
    bool exact = false;
    Typed<formats::BenchWords> bench{questions::shopping()};
};

const plan::ScoredPlan* pick(const plan::PlanChoice& choice, const std::string& name) {
    if (name == "recommended") return &choice.recommended;
    const std::size_t number = name == "1" ? 0 : name == "2" ? 1 : choice.alternatives.size();
    return number < choice.alternatives.size() ? &choice.alternatives[number] : nullptr;
}

/// What a plan that is only looked at is mixed with.
Result<worklist::Bench> bench_beside(const Context& context, const PlanShown& given,
                                     const records::Collection& today) {
    const auto words = given.bench.read();
    if (!words) return fail(words.error());
    return service::bench_to_show(*words, &today, context.knowledge().tables);
}

/// Worked out for those who asked for details alone: it takes a third of the time of the plan.
Result<std::vector<plan::Rung>> rungs_wanted(const Context& context, const service::Planned& planned) {
    if (!context.wants_details()) return std::vector<plan::Rung>();
    return service::each_round_of(planned, planned.choice.recommended, context.progress("Trying rounds"));
}

std::string shown_text(const Context& context, const service::Planned& planned,
                       const std::vector<plan::Rung>& rungs) {
    return (planned.prevention ? formats::prevention_text(*planned.prevention) : std::string()) +
           formats::plan_text(planned.choice, planned.setting, planned.goal, context.display(), rungs) +
           formats::origin_line(
               {planned.setting.known, planned.believed->belief, planned.situation->collection()});
}

Result<void> answer_plan(Context& context, const Asked& asked, const PlanShown& given) {
    const auto options = asked_of(context, asked, "Trying plans");
    if (!options) return fail(options.error());
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto found = keeper->ask(context.now(), service::choose_plan, *options);
    if (!found) return fail(found.error());
    const service::Planned& planned = *found;
    const auto rungs = rungs_wanted(context, planned);
    if (!rungs) return fail(rungs.error());
    std::string text = shown_text(context, planned, *rungs);
    if (!given.adopt.empty()) {
        const plan::ScoredPlan* const chosen = pick(planned.choice, given.adopt);
        if (chosen == nullptr) return fail(base::invalid("no such plan", given.adopt, "recommended, 1 or 2"));
        const auto id = keeper->adopt(*chosen, planned.setting.strength, context.now());
        if (!id) return fail(id.error());
        text += fmt::format("\nAdopted: {}. See the work with \"today\".\n",
                            words::say(plan::tell(chosen->course, chosen->schedule.assignment.rounds,
                                                  chosen->schedule.does)));
    }
    const auto bench = bench_beside(context, given, planned.situation->collection());
    if (!bench) return fail(bench.error());
    const auto shopping = worklist::shop_for(planned.choice.recommended.schedule, planned.setting, *bench);
    if (shopping) text += formats::shopping_text(*shopping, *bench, context.display(), given.exact);
    std::optional<service::Course> course;
    if (given.course) {
        auto told = service::course_of(*planned.situation, planned.setting,
                                       planned.choice.recommended.schedule, *options);
        if (told) course = std::move(*told);
        if (course) text += formats::course_text(view_of(*course));
    }
    context.answer("plan", text, [&] {
        formats::Json json = formats::plan_json(planned.choice, planned.setting, planned.goal, *rungs);
        if (planned.prevention) json["prevention"] = formats::prevention_json(*planned.prevention);
        if (course) json["course"] = formats::course_json(view_of(*course));
        return json;
    });
    return {};
}

Result<void> answer_shopping(Context& context, const Typed<formats::BenchWords>& asked, bool exact) {
    const auto words = asked.read();
    if (!words) return fail(words.error());
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto bench = service::bench_of(*words, &(*today)->collection(), context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto shopping = context.about_today(service::shopping_of, *bench);
    if (!shopping) return fail(shopping.error());
    context.answer("shopping",
                   formats::shopping_text(*shopping, *bench, context.display(), exact) +
                       formats::shares_text(*shopping, exact),
                   [&] { return formats::shopping_json(*shopping, *bench); });
    return {};
}

Result<void> answer_today(Context& context) {
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto list = service::worklist_of(**today);
    if (!list) return fail(list.error());
    context.answer(
        "today",
        formats::worklist_text(*list, (*today)->collection(), context.display(), context.wants_details()),
        [&] { return formats::worklist_json(*list); });
    return {};
}

Result<void> answer_late(Context& context, const Asked& asked) {
    const auto options = asked_of(context, asked, "Scoring what can be done about it");
    if (!options) return fail(options.error());
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto list = service::worklist_of(**today);
    if (!list) return fail(list.error());
    const auto found = service::late_chances_of(**today, *options);
    if (!found) return fail(found.error());
    const formats::LateChancesView view{found->stood_on, found->stood, found->today, found->move};
    context.answer("late",
                   formats::late_text(list->late, (*today)->collection()) + formats::late_chances_text(view),
                   [&] { return formats::late_chances_json(view); });
    return {};
}

Result<void> answer_catch_up(Context& context, const std::string& how) {
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto by = how == "move" ? worklist::CatchUp::move : worklist::CatchUp::today;
    const auto id = keeper->catch_up(by, context.now());
    if (!id) return fail(id.error());
    context.answer("catch-up",
                   fmt::format("The course goes on with its late round today, on record as entry {}. See the "
                               "work with \"today\" and the days with \"course\"; \"undo\" takes it back.\n",
                               *id),
                   [&] {
                       return formats::Json{{"ids", {*id}}};
                   });
    return {};
}

Result<void> answer_course(Context& context) {
    const auto today = context.situation();
    if (!today) return fail(today.error());
    const auto adopted = service::adopted_course(**today);
    if (!adopted) return fail(adopted.error());
    context.answer("course", formats::adopted_text(*adopted, (*today)->collection()),
                   [&] { return formats::adopted_json(*adopted, context.knowledge().tables); });
    return {};
}

Result<void> answer_rescore(Context& context, std::string_view command, const Asked& asked,
                            const std::string& before) {
    const auto options = asked_of(context, asked, "Scoring what is left of the plan");
    if (!options) return fail(options.error());
    const auto forecast = context.about_today(service::rescore, *options);
    if (!forecast) return fail(forecast.error());
    context.answer(command,
                   before + fmt::format("Chance of clear with what is left of the plan: {}.\n",
                                        formats::show_band(forecast->clear)),
                   [&] {
                       formats::Json json = formats::forecast_json(*forecast, std::nan(""));
                       json["target"] = options->target;
                       return json;
                   });
    return {};
}

Result<void> answer_matters(Context& context, const Asked& asked) {
    const auto options = asked_of(context, asked, "Scoring the plan");
    if (!options) return fail(options.error());
    const auto found = context.about_today(service::what_matters, *options);
    if (!found) return fail(found.error());
    const formats::MattersView view{found->plan, found->adopted, found->clear, found->sensitivity,
                                    context.knowledge().tables};
    context.answer("matters", formats::matters_text(view), [&] { return formats::matters_json(view); });
    return {};
}

Result<void> answer_what_helps(Context& context, const Asked& asked) {
    const auto options = asked_of(context, asked, "Trying what could be changed");
    if (!options) return fail(options.error());
    const auto found = context.about_today(service::what_helps, *options);
    if (!found) return fail(found.error());
    context.answer("what-helps", formats::helps_text(*found), [&] { return formats::helps_json(*found); });
    return {};
}

struct TickOptions {
    std::string key, reason, by;
    std::string found, where;   ///< of a check: how many mites, and where they were
    records::FactId entry = 0;  ///< the mark to take back; 0: the one in force
    bool no_score = false;
    Asked scoring{questions::rescore()};
};

formats::Json ticked_json(const std::string& task, const service::Ticked& ticked) {
    return {{"task", task},
            {"state", worklist::to_text(ticked.state)},
            {"already", ticked.already},
            {"entries", ticked.entries},
            {"recorded_at",
             ticked.recorded_at.empty() ? formats::Json(nullptr) : formats::Json(ticked.recorded_at)}};
}

std::string ticked_text(const std::string& word, const std::string& task, const service::Ticked& ticked) {
    if (ticked.already)
        return fmt::format("{} already: {}. Recorded {}, entry {}; nothing was written.\n", word, task,
                           ticked.recorded_at, fmt::join(ticked.entries, ", "));
    return fmt::format("{0}: {1}. \"take-back {1}\" takes it back.\n", word, task);
}

/// nullopt: nothing was said of what was seen.
Result<std::optional<worklist::CheckAnswer>> read_check_answer(const TickOptions& options) {
    if (options.found.empty() && options.where.empty()) return std::optional<worklist::CheckAnswer>();
    const auto count = parse_choice<records::SeenCount>("--found", options.found);
    if (!count) return fail(count.error());
    worklist::CheckAnswer answer{*count, {}};
    if (options.where.empty()) return std::optional(answer);
    const auto where = parse_choice<records::SeenWhere>("--where", options.where);
    if (!where) return fail(where.error());
    answer.where = *where;
    return std::optional(answer);
}

/// What to type in place of a tick that says too little of a check.
base::Error with_what_to_type(base::Error error, const TickOptions& options) {
    if (error.kind == base::ErrorKind::invalid_input && (error.where == "found" || error.where == "where") &&
        (options.found.empty() || options.where.empty()))
        error.remedy = fmt::format(
            "type \"done {0} --found none\" if none was seen, or \"done {0} --found 2-10 --where on-animal\"",
            options.key);
    return error;
}

Result<void> answer_tick(Context& context, const TickOptions& options, bool done) {
    const auto answer = read_check_answer(options);
    if (!answer) return fail(answer.error());
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto ticked =
        done ? keeper->tick({options.key, {}, {}, *answer, options.by}, context.now())
             : keeper->skip({options.key, {}, {}, {}, options.by}, options.reason, context.now());
    if (!ticked) return fail(with_what_to_type(ticked.error(), options));
    const std::string text = ticked_text(done ? "Done" : "Skipped", options.key, *ticked);
    const char* const command = done ? "done" : "skip";
    if (options.no_score) {
        context.answer(command, text, [&] { return ticked_json(options.key, *ticked); });
        return {};
    }
    return answer_rescore(context, command, options.scoring, text);
}

std::string taken_back_text(const std::string& task, const service::Ticked& ticked) {
    const char* const word = ticked.already ? "Taken back before" : "Taken back";
    if (ticked.state == worklist::TaskState::open)
        return fmt::format("{}: {}. The task is open again.\n", word, task);
    return fmt::format("{}: {}. It is {} by entry {}.\n", word, task, worklist::to_text(ticked.state),
                       fmt::join(ticked.entries, ", "));
}

Result<void> answer_take_back(Context& context, const TickOptions& options) {
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    service::TakeBack asked{options.key};
    if (options.entry > 0) asked.entry = options.entry;
    const auto taken = keeper->reopen(asked, context.now());
    if (!taken) return fail(taken.error());
    context.answer("take-back", taken_back_text(options.key, *taken),
                   [&] { return ticked_json(options.key, *taken); });
    return {};
}

}  // namespace

void add_plan_commands(CLI::App& app, Context& context) {
    const auto plan = add_question(app, questions::plan());
    const auto o = std::make_shared<PlanShown>();
    plan.command->add_option("--adopt", o->adopt, "Follow a plan: recommended, 1 or 2");
    plan.command->add_flag("--course", o->course,
                           "How many mites to expect day by day under the recommended plan");
    plan.command->add_flag("--exact", o->exact, "The unrounded amounts to mix as well");
    o->bench.add_to(*plan.command);
    context.on_chosen(*plan.command, [&context, plan, o] { return answer_plan(context, *plan.typed, *o); });

    const auto shopping = add_question(app, questions::shopping());
    const auto exact = std::make_shared<bool>(false);
    shopping.command->add_flag("--exact", *exact, "The unrounded amounts as well");
    context.on_chosen(*shopping.command, [&context, shopping, exact] {
        return answer_shopping(context, *shopping.typed, *exact);
    });

    CLI::App* const today =
        app.add_subcommand("today", "The day's work under the adopted plan, in working order");
    context.on_chosen(*today, [&context] { return answer_today(context); });

    const auto late = add_question(app, questions::late());
    context.on_chosen(*late.command, [&context, late] { return answer_late(context, *late.typed); });

    const auto how = std::make_shared<std::string>();
    CLI::App* const catch_up = app.add_subcommand(
        "catch-up", "Put a late round to today: the rest stays (today) or moves with it (move)");
    catch_up->add_option("HOW", *how, "today or move")->required()->check(CLI::IsMember({"today", "move"}));
    context.on_chosen(*catch_up, [&context, how] { return answer_catch_up(context, *how); });

    CLI::App* const course = app.add_subcommand(
        "course", "The adopted course in full: its terms, and what was decided for each animal");
    context.on_chosen(*course, [&context] { return answer_course(context); });

    const auto rescore = add_question(app, questions::rescore());
    context.on_chosen(*rescore.command,
                      [&context, rescore] { return answer_rescore(context, "rescore", *rescore.typed, ""); });

    const auto matters = add_question(app, questions::matters());
    context.on_chosen(*matters.command,
                      [&context, matters] { return answer_matters(context, *matters.typed); });

    const auto helps = add_question(app, questions::what_helps());
    context.on_chosen(*helps.command, [&context, helps] { return answer_what_helps(context, *helps.typed); });

    const auto t = std::make_shared<TickOptions>();
    CLI::App* const done =
        app.add_subcommand("done", "Tick a task: it goes on record, and the plan is scored anew");
    done->add_option("TASK", t->key, "Key of the task, as \"today\" shows it")->required();
    done->add_option("--found", t->found, "Of a check: how many mites: none, 1, 2-10, 11-50 or more");
    done->add_option("--where", t->where, "Where they were: on-animal, in-water, on-hands or on-paper");
    done->add_option("--by", t->by, "Initials of who did it, where several work");
    done->add_flag("--no-score", t->no_score, "Only record it");
    t->scoring.add_to(*done);
    context.on_chosen(*done, [&context, t] { return answer_tick(context, *t, true); });
    const auto u = std::make_shared<TickOptions>();
    CLI::App* const skip = app.add_subcommand("skip", "Pass over a task, and score the plan anew");
    skip->add_option("TASK", u->key, "Key of the task, as \"today\" shows it")->required();
    skip->add_option("--because", u->reason, "Why")->required();
    skip->add_option("--by", u->by, "Initials of who passed it over");
    skip->add_flag("--no-score", u->no_score, "Only record it");
    u->scoring.add_to(*skip);
    context.on_chosen(*skip, [&context, u] { return answer_tick(context, *u, false); });
    CLI::App* const back =
        app.add_subcommand("take-back", "Take back the tick or the skip of a task, with all it recorded");
    back->add_option("TASK", t->key, "Key of the task, as \"today\" shows it")->required();
    back->add_option("--entry", t->entry, "Only if it is this entry that made it done or skipped")
        ->check(CLI::PositiveNumber);
    context.on_chosen(*back, [&context, t] { return answer_take_back(context, *t); });
}

}  // namespace mitefall::cli
