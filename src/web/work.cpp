#include "web/work.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"
#include "formats/json/after.h"
#include "formats/json/clearance.h"
#include "formats/json/course.h"
#include "formats/json/emptied.h"
#include "formats/json/forecast.h"
#include "formats/json/helps.h"
#include "formats/json/json.h"
#include "formats/json/late.h"
#include "formats/json/matters.h"
#include "formats/json/next_check.h"
#include "formats/json/origin.h"
#include "formats/json/plan.h"
#include "formats/json/prevention.h"
#include "formats/json/procedure.h"
#include "formats/json/release.h"
#include "formats/json/why_days.h"
#include "questions/clear.h"
#include "questions/emptied.h"
#include "questions/plan.h"
#include "questions/timing.h"
#include "service/asked_first.h"
#include "service/clearance.h"
#include "service/course.h"
#include "service/emptied.h"
#include "service/helps.h"
#include "service/late.h"
#include "service/matters.h"
#include "service/origin.h"
#include "service/plans.h"
#include "service/procedure.h"
#include "service/rescore.h"
#include "service/why_days.h"
#include "web/asks.h"
#include "web/wishes.h"

namespace mitefall::web {
namespace {

using base::fail;
using base::Result;
using formats::Json;

struct Workplace {
    const service::Situation& situation;
    const Jobs& jobs;
    const std::function<bool(double)>& progress;
    const std::function<void(Json)>& so_far;
};

Result<Outcome> work_plan(const Workplace& at, const service::PlanOptions& asked) {
    service::PlanOptions options = asked;
    if (at.so_far)
        options.best_so_far = [&](const plan::FrontierCourse& best) {
            at.so_far(formats::best_so_far_json(best));
        };
    auto found = service::choose_plan(at.situation, options);
    if (!found) return fail(found.error());
    auto planned = std::make_shared<const service::Planned>(std::move(*found));
    Json json = formats::plan_json(planned->choice, planned->setting, planned->goal);
    if (planned->prevention) json["prevention"] = formats::prevention_json(*planned->prevention);
    return Outcome{std::move(json), KeptPlan{planned}};
}

Result<Outcome> work_rescore(const Workplace& at, const service::PlanOptions& options) {
    const auto forecast = service::rescore(at.situation, options);
    if (!forecast) return fail(forecast.error());
    Json json = formats::forecast_json(*forecast, std::nan(""));
    json["target"] = options.target;
    return Outcome{std::move(json), KeptScore{forecast->clear}};
}

Result<Outcome> work_late(const Workplace& at, const service::PlanOptions& options) {
    const auto found = service::late_chances_of(at.situation, options);
    if (!found) return fail(found.error());
    return Outcome{formats::late_chances_json({found->stood_on, found->stood, found->today, found->move}),
                   {}};
}

Result<Outcome> work_clear(const Workplace& at, const service::ClearanceOptions& options) {
    auto answer = service::clearance_of(at.situation, options);
    if (!answer) return fail(answer.error());
    auto kept = std::make_shared<const clearance::CollectionAnswer>(std::move(*answer));
    return Outcome{formats::clearance_json(*kept), KeptClearance{kept}};
}

Result<Outcome> work_next_check(const Workplace& at, const service::ClearanceOptions& options) {
    const auto answer = service::next_check_of(at.situation, options);
    if (!answer) return fail(answer.error());
    return Outcome{formats::next_check_json(*answer), {}};
}

Result<Outcome> work_release(const Workplace& at, const questions::ReleaseOptions& options) {
    const records::AnimalId animal(options.animal);
    const auto answer = service::release_of(at.situation, animal, options);
    if (!answer) return fail(answer.error());
    const auto& points = answer->release.points;
    const KeptRelease kept{animal, points.empty() ? 0 : points.front().none.clear.mean};
    return Outcome{formats::release_json(*answer), kept};
}

Result<Outcome> work_keep_out(const Workplace& at, const service::ClearanceOptions& options) {
    const auto answer = service::keep_out_of(at.situation, options);
    if (!answer) return fail(answer.error());
    return Outcome{formats::keep_out_json(*answer), {}};
}

Result<Outcome> work_handover(const Workplace& at, const questions::ReleaseOptions& options) {
    const auto note = service::handover_of(at.situation, records::AnimalId(options.animal), options);
    if (!note) return fail(note.error());
    return Outcome{formats::handover_json(*note, at.situation.collection()), {}};
}

Result<Outcome> work_origin(const Workplace& at, const questions::Draws& options) {
    const auto origin = service::origin_of(at.situation, {options.draws, options.seed}, at.progress);
    if (!origin) return fail(origin.error());
    return Outcome{
        formats::origin_json({*at.situation.known(), origin->believed->belief, at.situation.collection()}),
        {}};
}

Result<Outcome> work_matters(const Workplace& at, const service::PlanOptions& options) {
    const auto found = service::what_matters(at.situation, options);
    if (!found) return fail(found.error());
    return Outcome{formats::matters_json({found->plan, found->adopted, found->clear, found->sensitivity,
                                          at.situation.knowledge().tables}),
                   {}};
}

Result<Outcome> work_what_helps(const Workplace& at, const service::PlanOptions& options) {
    const auto found = service::what_helps(at.situation, options);
    if (!found) return fail(found.error());
    return Outcome{formats::helps_json(*found), {}};
}

Result<Outcome> work_emptied(const Workplace& at, const service::EmptiedOptions& options) {
    const auto found = service::emptied_of(at.situation, options);
    if (!found) return fail(found.error());
    return Outcome{formats::emptied_json(*found), {}};
}

Json dated_band(units::Day day, const base::Band& band) {
    return {{"day", units::format_day(day)}, {"mean", band.mean}, {"p10", band.p10}, {"p90", band.p90}};
}

Json course_json(const service::Course& course, units::Day today) {
    const auto day_at = [&](double time) {
        return today + units::Days(static_cast<int>(std::lround(time - course.day_zero)));
    };
    Json json{{"days", Json::array()}, {"clear", Json::array()}, {"mites", Json::array()}};
    for (std::size_t i = 0; i < course.clear_times.size(); ++i)
        json["clear"].push_back(dated_band(day_at(course.clear_times[i]), course.clear[i]));
    for (std::size_t i = 0; i < course.counts.times.size(); ++i) {
        const units::Day day = day_at(course.counts.times[i]);
        json["days"].push_back(units::format_day(day));
        json["mites"].push_back(dated_band(day, course.counts.collection[i].all));
    }
    return json;
}

Result<Outcome> course_outcome(const Result<service::Course>& course, units::Day today) {
    if (!course) return fail(course.error());
    return Outcome{course_json(*course, today), {}};
}

/// A plan of a finished job, and with what it was asked for.
struct AskedAbout {
    PlanAtHand found;
    service::PlanOptions options;
};

Result<AskedAbout> asked_about(const Workplace& at, const questions::CourseOf& asked) {
    auto found = plan_at_hand(at.jobs, asked.job, asked.plan);
    if (!found) return fail(found.error());
    Members members(found->question.options);
    auto options = read(questions::plan(), members);
    if (!options) return fail(options.error());
    options->progress = at.progress;
    return AskedAbout{std::move(*found), std::move(*options)};
}

Result<Outcome> work_course(const Workplace& at, const questions::CourseOf& asked) {
    if (asked.job.empty()) {
        service::PlanOptions usual;
        usual.progress = at.progress;
        return course_outcome(service::course_on_record(at.situation, usual), at.situation.today());
    }
    const auto about = asked_about(at, asked);
    if (!about) return fail(about.error());
    const service::Planned& planned = *about->found.planned;
    return course_outcome(
        service::course_of(*planned.situation, planned.setting, about->found.plan->schedule, about->options),
        planned.situation->today());
}

Result<Outcome> work_each_round(const Workplace& at, const questions::CourseOf& asked) {
    const auto about = asked_about(at, asked);
    if (!about) return fail(about.error());
    const auto rungs = service::each_round_of(*about->found.planned, *about->found.plan, at.progress);
    if (!rungs) return fail(rungs.error());
    return Outcome{formats::each_round_json(*rungs), {}};
}

/// The plan on the days that were asked for can be adopted like one that was searched for.
Result<Outcome> work_why_days(const Workplace& at, const questions::WhyDaysOf& asked) {
    service::WhyDaysOptions options = asked;
    options.progress = at.progress;
    if (asked.job.empty()) {
        const auto told = service::why_days_on_record(at.situation, options);
        if (!told) return fail(told.error());
        std::any kept;
        if (!options.days.empty()) kept = KeptDays{options.days};
        return Outcome{formats::why_days_json(told->view), std::move(kept)};
    }
    const auto about = asked_about(at, asked);
    if (!about) return fail(about.error());
    options.horizon_days = about->options.horizon_days;
    options.draws = about->options.draws;
    options.seed = about->options.seed;
    const service::Planned& planned = *about->found.planned;
    const plan::ScoredPlan& chosen = *about->found.plan;
    auto told =
        service::why_days_of(*planned.situation, planned.setting, chosen.schedule.assignment, options);
    if (!told) return fail(told.error());
    auto moved = std::make_shared<service::Planned>(planned);
    moved->choice.recommended = {chosen.course, std::move(told->schedule), told->view.clear};
    moved->choice.alternatives.clear();
    return Outcome{formats::why_days_json(told->view), KeptPlan{std::move(moved)}};
}

Result<Outcome> work_procedure(const Workplace& at, const questions::ProcedureOf& asked) {
    service::PlanOptions usual;
    usual.progress = at.progress;
    const auto about = asked.job.empty() ? std::nullopt : std::optional(asked_about(at, asked));
    if (about && !*about) return fail(about->error());
    const auto told =
        about ? service::procedure_of(*(*about)->found.planned->situation, (*about)->found.planned->setting,
                                      (*about)->found.plan->schedule, (*about)->options)
              : service::procedure_on_record(at.situation, usual);
    if (!told) return fail(told.error());
    return Outcome{formats::procedure_json(*told), {}};
}

Result<Outcome> work_consequence(const Workplace& at, const questions::ConsequenceOf& asked) {
    const auto facts =
        read_facts(asked.facts.empty() ? Json() : Json::parse(asked.facts), at.situation.today());
    if (!facts) return fail(facts.error());
    service::PlanOptions options;
    options.progress = at.progress;
    const auto found = service::consequence_of(at.situation, *facts, options);
    if (!found) return fail(found.error());
    return Outcome{consequence_json(*found), {}};
}

/// A question, and how it is worked off.
struct Work {
    std::string_view kind;
    std::function<Result<Outcome>(const Workplace&, const Json&)> off;
};

template <class O>
Work on(questions::Question<O> question, Result<Outcome> (*work)(const Workplace&, const O&)) {
    const std::string_view kind = question.name;
    return {kind, [question = std::move(question), work](const Workplace& at, const Json& asked) {
                Members members(asked);
                auto options = read(question, members);
                if (!options) return Result<Outcome>(fail(options.error()));
                if constexpr (requires { options->progress; }) options->progress = at.progress;
                return work(at, *options);
            }};
}

const std::vector<Work>& works() {
    static const std::vector<Work> all{on(questions::plan(), work_plan),
                                       on(questions::rescore(), work_rescore),
                                       on(questions::late(), work_late),
                                       on(questions::clear(), work_clear),
                                       on(questions::next_check(), work_next_check),
                                       on(questions::release(), work_release),
                                       on(questions::keep_out(), work_keep_out),
                                       on(questions::handover(), work_handover),
                                       on(questions::origin(), work_origin),
                                       on(questions::matters(), work_matters),
                                       on(questions::what_helps(), work_what_helps),
                                       on(questions::emptied(), work_emptied),
                                       on(questions::course(), work_course),
                                       on(questions::each_round(), work_each_round),
                                       on(questions::why_days(), work_why_days),
                                       on(questions::procedure(), work_procedure),
                                       on(questions::consequence(), work_consequence)};
    return all;
}

const Work* work_for(std::string_view kind) {
    const auto found =
        std::find_if(works().begin(), works().end(), [&](const Work& work) { return work.kind == kind; });
    return found == works().end() ? nullptr : &*found;
}

const plan::ScoredPlan* pick(const plan::PlanChoice& choice, const std::string& name) {
    if (name == "recommended") return &choice.recommended;
    for (std::size_t i = 0; i < choice.alternatives.size(); ++i) {
        if (name == std::to_string(i)) return &choice.alternatives[i];
    }
    return nullptr;
}

}  // namespace

bool is_question(std::string_view kind) { return work_for(kind) != nullptr; }

std::string list_questions() {
    std::string list;
    for (const Work& work : works()) list += (list.empty() ? "" : ", ") + std::string(work.kind);
    return list;
}

Result<PlanAtHand> plan_at_hand(const Jobs& jobs, const std::string& job_id, const std::string& name) {
    const auto job = jobs.find(job_id);
    const auto* const kept = job && job->outcome ? std::any_cast<KeptPlan>(&job->outcome->kept) : nullptr;
    const plan::ScoredPlan* const plan = kept == nullptr ? nullptr : pick(kept->planned->choice, name);
    if (plan == nullptr) {
        return fail({base::ErrorKind::not_found,
                     "these plans are no longer at hand",
                     job_id + " " + name,
                     {},
                     "ask for plans again",
                     "job"});
    }
    return PlanAtHand{job->question, kept->planned, plan};
}

std::optional<DaysAtHand> days_at_hand(const Jobs& jobs, const std::string& job_id) {
    const auto job = jobs.find(job_id);
    const auto* const kept = job && job->outcome ? std::any_cast<KeptDays>(&job->outcome->kept) : nullptr;
    if (kept == nullptr) return std::nullopt;
    return DaysAtHand{job->question, kept->days};
}

Result<Outcome> work_off(const Question& question, Desk& desk, const Jobs& jobs, const Ongoing& ongoing) {
    const Work* const work = work_for(question.kind);
    base::expects(work != nullptr, "only questions are worked off");
    // The answer is kept as one about this entry and this day, however much later it is worked out.
    const auto situation = desk.situation(question.entry, question.today);
    if (!situation) return fail(situation.error());
    return work->off({**situation, jobs, ongoing.progress, ongoing.so_far}, question.options);
}

}  // namespace mitefall::web
