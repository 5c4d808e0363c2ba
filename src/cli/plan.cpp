#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bitset>
#include <memory>

#include "cli/bench.h"
#include "cli/commands.h"
#include "cli/course.h"
#include "cli/parse.h"
#include "formats/adopted.h"
#include "formats/late.h"
#include "formats/matters.h"
#include "formats/origin.h"
#include "formats/text.h"
#include "service/adopted.h"
#include "service/course.h"
#include "service/late.h"
#include "service/matters.h"
#include "service/plans.h"
#include "service/rescore.h"
#include "service/shopping.h"
#include "service/worklist.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct PlanCommandOptions {
    service::PlanOptions usual;  ///< what is not asked for, here as in the browser
    double target_percent = usual.target * 100;
    double horizon = usual.horizon_days;
    std::size_t draws = usual.draws;
    std::uint64_t seed = usual.seed;
    std::string strength, adopt;
    std::vector<std::string> only, days;
    std::string prefer = "burden";
    bool course = false;
    bool exact = false;
    BenchOptions bench;

    [[nodiscard]] Result<service::PlanOptions> read(const Context& context) const {
        service::PlanOptions options;
        options.target = target_percent / 100;
        options.horizon_days = horizon;
        options.draws = service::whole_blocks(draws);
        options.seed = seed;
        options.progress = context.progress("Trying plans");
        for (const std::string& enclosure : only) options.limits.only.insert(records::EnclosureId(enclosure));
        if (!days.empty()) options.limits.free_days = free_days();
        options.prefer = prefer == "work"   ? plan::Prefer::work
                         : prefer == "cost" ? plan::Prefer::cost
                                            : plan::Prefer::burden;
        if (strength.empty()) return options;
        const auto given = for_option("--strength", units::parse_strength(strength));
        if (!given) return fail(given.error());
        options.strength = *given;
        return options;
    }

    static constexpr std::array<const char*, 7> day_names{"sun", "mon", "tue", "wed", "thu", "fri", "sat"};

    [[nodiscard]] std::bitset<7> free_days() const {
        std::bitset<7> free;
        for (std::size_t d = 0; d < day_names.size(); ++d)
            free.set(d, std::find(days.begin(), days.end(), day_names[d]) != days.end());
        return free;
    }

    void add_wishes_to(CLI::App& command) {
        command.add_option("--only", only, "Treat these enclosures and nothing else")->delimiter(',');
        command.add_option("--days", days, "Days of the week on which you can do a round: sat,sun")
            ->delimiter(',')
            ->check(CLI::IsMember(std::vector<std::string>(day_names.begin(), day_names.end())));
        command
            .add_option("--prefer", prefer,
                        "Of the plans that reach the target, the one with the least burden on the animals, "
                        "the least work or the least spray to pay for")
            ->check(CLI::IsMember({"burden", "work", "cost"}))
            ->capture_default_str();
    }

    void add_scoring_to(CLI::App& command) {
        command.add_option("--horizon", horizon, "Days from now at which nothing may be alive")
            ->check(CLI::Range(1.0, 365.0))
            ->capture_default_str();
        command.add_option("--draws", draws, "Parameter draws, rounded up to a multiple of 8")
            ->check(CLI::Range(8, 65536))
            ->capture_default_str();
        command.add_option("--seed", seed, "Same seed, same answer")->capture_default_str();
        command.add_option("--target", target_percent, "Chance of clear wanted, in percent")
            ->check(CLI::Range(1.0, 99.999))
            ->capture_default_str();
    }
};

const plan::ScoredPlan* pick(const plan::PlanChoice& choice, const std::string& name) {
    if (name == "recommended") return &choice.recommended;
    const std::size_t number = name == "1" ? 0 : name == "2" ? 1 : choice.alternatives.size();
    return number < choice.alternatives.size() ? &choice.alternatives[number] : nullptr;
}

Result<void> answer_plan(Context& context, const PlanCommandOptions& given) {
    const auto options = given.read(context);
    if (!options) return fail(options.error());
    auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto bench = given.bench.read(context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto found = keeper->ask(context.now(), service::choose_plan, *options);
    if (!found) return fail(found.error());
    const service::Planned& planned = *found;
    const plan::Goal goal{options->target, options->horizon_days, options->prefer, {}};
    std::string text =
        formats::plan_text(planned.choice, planned.setting, goal, context.display(), context.wants_details());
    text += formats::origin_line(
        {planned.setting.known, planned.believed->belief, planned.situation->collection()});
    if (!given.adopt.empty()) {
        const plan::ScoredPlan* const chosen = pick(planned.choice, given.adopt);
        if (chosen == nullptr) return fail(base::invalid("no such plan", given.adopt, "recommended, 1 or 2"));
        const auto id = keeper->adopt(*chosen, planned.setting.strength, context.now());
        if (!id) return fail(id.error());
        text += fmt::format(
            "\nAdopted: {}. See the work with \"today\".\n",
            plan::describe(chosen->course, chosen->schedule.assignment.rounds, chosen->schedule.does));
    }
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
        formats::Json json = formats::plan_json(planned.choice, planned.setting, goal);
        if (course) json["course"] = formats::course_json(view_of(*course));
        return json;
    });
    return {};
}

struct ShoppingOptions {
    bool exact = false;
    BenchOptions bench;
};

Result<void> answer_shopping(Context& context, const ShoppingOptions& options) {
    const auto bench = options.bench.read(context.knowledge().tables);
    if (!bench) return fail(bench.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto shopping = keeper->ask(context.now(), service::shopping_of, *bench);
    if (!shopping) return fail(shopping.error());
    context.answer("shopping",
                   formats::shopping_text(*shopping, *bench, context.display(), options.exact) +
                       formats::shares_text(*shopping, options.exact),
                   [&] { return formats::shopping_json(*shopping, *bench); });
    return {};
}

Result<void> answer_today(Context& context) {
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto list = keeper->ask(context.now(), service::worklist_of);
    if (!list) return fail(list.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    context.answer("today",
                   formats::worklist_text(*list, *collection, context.display(), context.wants_details()),
                   [&] { return formats::worklist_json(*list); });
    return {};
}

Result<void> answer_late(Context& context, const PlanCommandOptions& given) {
    auto options = given.read(context);
    if (!options) return fail(options.error());
    options->progress = context.progress("Scoring what can be done about it");
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto list = keeper->ask(context.now(), service::worklist_of);
    if (!list) return fail(list.error());
    const auto found = keeper->ask(context.now(), service::late_chances_of, *options);
    if (!found) return fail(found.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    const formats::LateChancesView view{found->stood_on, found->stood, found->today, found->move};
    context.answer("late", formats::late_text(list->late, *collection) + formats::late_chances_text(view),
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
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto adopted = keeper->ask(context.now(), service::adopted_course);
    if (!adopted) return fail(adopted.error());
    const auto collection = keeper->collection(context.now().today);
    if (!collection) return fail(collection.error());
    context.answer("course", formats::adopted_text(*adopted, *collection),
                   [&] { return formats::adopted_json(*adopted, context.knowledge().tables); });
    return {};
}

Result<void> answer_rescore(Context& context, std::string_view command, const PlanCommandOptions& given,
                            const std::string& before) {
    auto options = given.read(context);
    if (!options) return fail(options.error());
    options->progress = context.progress("Scoring what is left of the plan");
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto forecast = keeper->ask(context.now(), service::rescore, *options);
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

Result<void> answer_matters(Context& context, const PlanCommandOptions& given) {
    auto options = given.read(context);
    if (!options) return fail(options.error());
    options->progress = context.progress("Scoring the plan");
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto found = keeper->ask(context.now(), service::what_matters, *options);
    if (!found) return fail(found.error());
    const formats::MattersView view{found->plan, found->adopted, found->clear, found->sensitivity,
                                    context.knowledge().tables};
    context.answer("matters", formats::matters_text(view), [&] { return formats::matters_json(view); });
    return {};
}

struct TickOptions {
    std::string key, reason;
    std::string found, where;   ///< of a check: how many mites, and where they were
    records::FactId entry = 0;  ///< the mark to take back; 0: the one in force
    bool no_score = false;
    PlanCommandOptions scoring;
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
    const auto ticked = done ? keeper->tick({options.key, {}, {}, *answer}, context.now())
                             : keeper->skip({options.key}, options.reason, context.now());
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
    const auto o = std::make_shared<PlanCommandOptions>();
    CLI::App* const plan = app.add_subcommand(
        "plan", "Plans worth choosing between, with the chance that each clears every mite");
    o->add_scoring_to(*plan);
    o->add_wishes_to(*plan);
    plan->add_option("--strength", o->strength,
                     "Strength of the ivermectin spray (default: 10 mg/L, the strongest published)");
    plan->add_option("--adopt", o->adopt, "Follow a plan: recommended, 1 or 2");
    plan->add_flag("--course", o->course, "How many mites to expect day by day under the recommended plan");
    plan->add_flag("--exact", o->exact, "The unrounded amounts to mix as well");
    o->bench.add_to(*plan);
    context.on_chosen(*plan, [&context, o] { return answer_plan(context, *o); });

    const auto b = std::make_shared<ShoppingOptions>();
    CLI::App* const shopping = app.add_subcommand(
        "shopping", "What is left to mix and buy for the adopted plan, and who takes how much");
    shopping->add_flag("--exact", b->exact, "The unrounded amounts as well");
    b->bench.add_to(*shopping);
    context.on_chosen(*shopping, [&context, b] { return answer_shopping(context, *b); });

    CLI::App* const today =
        app.add_subcommand("today", "The day's work under the adopted plan, in working order");
    context.on_chosen(*today, [&context] { return answer_today(context); });

    const auto l = std::make_shared<PlanCommandOptions>();
    CLI::App* const late = app.add_subcommand(
        "late", "What is late, and the chance if it is done today or the rest of the course is moved");
    l->add_scoring_to(*late);
    context.on_chosen(*late, [&context, l] { return answer_late(context, *l); });

    const auto how = std::make_shared<std::string>();
    CLI::App* const catch_up = app.add_subcommand(
        "catch-up", "Put a late round to today: the rest stays (today) or moves with it (move)");
    catch_up->add_option("HOW", *how, "today or move")->required()->check(CLI::IsMember({"today", "move"}));
    context.on_chosen(*catch_up, [&context, how] { return answer_catch_up(context, *how); });

    CLI::App* const course = app.add_subcommand(
        "course", "The adopted course in full: its terms, and what was decided for each animal");
    context.on_chosen(*course, [&context] { return answer_course(context); });

    const auto r = std::make_shared<PlanCommandOptions>();
    CLI::App* const rescore =
        app.add_subcommand("rescore", "The chance that what is left of the adopted plan clears every mite");
    r->add_scoring_to(*rescore);
    context.on_chosen(*rescore, [&context, r] { return answer_rescore(context, "rescore", *r, ""); });

    const auto m = std::make_shared<PlanCommandOptions>();
    CLI::App* const matters = app.add_subcommand(
        "matters", "Which assumptions the chance of clear depends on most, and what to find out");
    m->add_scoring_to(*matters);
    context.on_chosen(*matters, [&context, m] { return answer_matters(context, *m); });

    const auto t = std::make_shared<TickOptions>();
    CLI::App* const done =
        app.add_subcommand("done", "Tick a task: it goes on record, and the plan is scored anew");
    done->add_option("TASK", t->key, "Key of the task, as \"today\" shows it")->required();
    done->add_option("--found", t->found, "Of a check: how many mites: none, 1, 2-10, 11-50 or more");
    done->add_option("--where", t->where, "Where they were: on-animal, in-water, on-hands or on-paper");
    done->add_flag("--no-score", t->no_score, "Only record it");
    t->scoring.add_scoring_to(*done);
    context.on_chosen(*done, [&context, t] { return answer_tick(context, *t, true); });
    CLI::App* const skip = app.add_subcommand("skip", "Pass over a task, and score the plan anew");
    skip->add_option("TASK", t->key, "Key of the task, as \"today\" shows it")->required();
    skip->add_option("--because", t->reason, "Why")->required();
    skip->add_flag("--no-score", t->no_score, "Only record it");
    t->scoring.add_scoring_to(*skip);
    context.on_chosen(*skip, [&context, t] { return answer_tick(context, *t, false); });
    CLI::App* const back =
        app.add_subcommand("take-back", "Take back the tick or the skip of a task, with all it recorded");
    back->add_option("TASK", t->key, "Key of the task, as \"today\" shows it")->required();
    back->add_option("--entry", t->entry, "Only if it is this entry that made it done or skipped")
        ->check(CLI::PositiveNumber);
    context.on_chosen(*back, [&context, t] { return answer_take_back(context, *t); });
}

}  // namespace mitefall::cli
