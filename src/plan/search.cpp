#include "plan/search.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <atomic>
#include <mutex>

namespace mitefall::plan {
namespace {

using forecast::Band;
using forecast::Ensemble;

constexpr forecast::Tolerance rough{1e-4, 1e-10};
constexpr std::size_t finalist_limit = 7;

struct Candidate {
    Course course;
    Schedule schedule;
    Band clear;
};

/// Shares out one progress report among the stages of the search.
class Progress {
  public:
    Progress(const Goal& goal, double begin, double end) : goal_(goal), begin_(begin), end_(end) {}
    [[nodiscard]] bool report(double share) const {
        return !goal_.progress || goal_.progress(begin_ + (end_ - begin_) * share);
    }

  private:
    const Goal& goal_;
    double begin_;
    double end_;
};

std::optional<std::vector<Candidate>> screen(const std::vector<Course>& courses, const Setting& setting,
                                             const Ensemble& few_draws, const Goal& goal) {
    const Progress progress(goal, 0, 0.5);
    Goal quiet = goal;
    quiet.progress = nullptr;
    std::vector<Candidate> candidates(courses.size());
    std::atomic<bool> cancelled = false;
    std::mutex reporting;
    std::size_t done = 0;
    tbb::parallel_for(std::size_t{0}, courses.size(), [&](std::size_t i) {
        if (cancelled) return;
        candidates[i].course = courses[i];
        candidates[i].schedule = fit(assign(courses[i], setting), setting);
        candidates[i].clear = score(candidates[i].schedule, setting, few_draws, quiet, rough)->clear;
        const std::scoped_lock lock(reporting);
        if (!progress.report(static_cast<double>(++done) / static_cast<double>(courses.size()))) cancelled = true;
    });
    if (cancelled) return std::nullopt;
    return candidates;
}

/// Those no other beats in both chance and burden, by ascending burden.
std::vector<Candidate> frontier(std::vector<Candidate> candidates) {
    std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        if (a.schedule.burden < b.schedule.burden) return true;
        if (b.schedule.burden < a.schedule.burden) return false;
        return a.clear.p10 > b.clear.p10;
    });
    std::vector<Candidate> front;
    for (Candidate& candidate : candidates) {
        if (front.empty() || candidate.clear.p10 > front.back().clear.p10) front.push_back(std::move(candidate));
    }
    return front;
}

/// Thins the frontier: the best, then those around the target, spread over it.
std::vector<Candidate> pick_finalists(std::vector<Candidate> front, double target) {
    if (front.size() <= finalist_limit) return front;
    const auto meets = std::find_if(front.begin(), front.end(), [&](const Candidate& c) { return c.clear.p10 >= target; });
    std::vector<std::size_t> wanted{front.size() - 1};
    const auto first = static_cast<std::size_t>(std::distance(front.begin(), meets));
    for (std::size_t i = first > 0 ? first - 1 : 0; i < front.size() && wanted.size() < 4; ++i) wanted.push_back(i);
    for (std::size_t k = 0; wanted.size() < finalist_limit && k < finalist_limit; ++k) wanted.push_back(k * (front.size() - 1) / (finalist_limit - 1));
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    std::vector<Candidate> finalists;
    for (const std::size_t i : wanted) finalists.push_back(std::move(front[i]));
    return finalists;
}

bool better(const Candidate& a, const Candidate& b, double target) {
    const bool a_meets = a.clear.p10 >= target;
    const bool b_meets = b.clear.p10 >= target;
    if (a_meets != b_meets) return a_meets;
    if (a_meets) return a.schedule.burden < b.schedule.burden;
    return a.clear.p10 > b.clear.p10;
}

/// The nearest lighter and the nearest stronger neighbours of the recommended plan on the frontier.
std::vector<ScoredPlan> neighbours_of(std::size_t chosen, std::vector<Candidate>& finalists) {
    std::vector<std::size_t> order;
    for (std::size_t distance = 1; distance < finalists.size(); ++distance) {
        if (chosen >= distance) order.push_back(chosen - distance);
        if (chosen + distance < finalists.size()) order.push_back(chosen + distance);
    }
    std::vector<ScoredPlan> plans;
    for (const std::size_t i : order) {
        if (plans.size() < 2) plans.push_back({finalists[i].course, std::move(finalists[i].schedule), finalists[i].clear});
    }
    std::sort(plans.begin(), plans.end(), [](const ScoredPlan& a, const ScoredPlan& b) { return a.schedule.burden < b.schedule.burden; });
    return plans;
}

Goal part_of(const Goal& goal, double begin, double end) {
    Goal part = goal;
    part.progress = [progress = Progress(goal, begin, end)](double share) { return progress.report(share); };
    return part;
}

}  // namespace

std::vector<Course> all_courses(const Setting& setting) {
    std::vector<Scope> scopes{Scope::sighted};
    for (const Scope scope : {Scope::sighted_rooms, Scope::exposed}) {
        if (enclosures_of(scope, setting) != enclosures_of(scopes.back(), setting)) scopes.push_back(scope);
    }
    std::vector<Course> courses;
    for (const Scope scope : scopes) {
        for (const bool substrate : {false, true}) {
            for (const bool damp : {false, true}) {
                courses.push_back({1, shortest_interval, substrate, damp, scope});
                for (int rounds = 2; rounds <= most_rounds; ++rounds) {
                    for (int interval = shortest_interval; interval <= longest_interval; ++interval) {
                        courses.push_back({rounds, interval, substrate, damp, scope});
                    }
                }
            }
        }
    }
    return courses;
}

std::optional<forecast::Forecast> score(const Schedule& schedule, const Setting& setting, const Ensemble& ensemble,
                                        const Goal& goal, forecast::Tolerance tolerance) {
    const forecast::Scenario scenario = apply(schedule, setting);
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = setting.known.start;
    request.from = setting.known.from;
    request.to = setting.known.time_of(setting.today) + goal.horizon_days;
    request.tolerance = tolerance;
    request.progress = goal.progress;
    return forecast::forecast_clear(request);
}

std::optional<PlanChoice> choose_plan(const Setting& setting, const Ensemble& ensemble, const Ensemble& few_draws,
                                      const Goal& goal) {
    const std::vector<Course> courses = all_courses(setting);
    auto candidates = screen(courses, setting, few_draws, goal);
    if (!candidates) return std::nullopt;
    std::vector<Candidate> finalists = pick_finalists(frontier(std::move(*candidates)), goal.target);
    PlanChoice choice;
    choice.courses_tried = courses.size();
    const auto n = static_cast<double>(finalists.size());
    for (std::size_t i = 0; i < finalists.size(); ++i) {
        const auto k = static_cast<double>(i);
        const auto scored = score(finalists[i].schedule, setting, ensemble, part_of(goal, 0.5 + 0.3 * k / n, 0.5 + 0.3 * (k + 1) / n));
        if (!scored) return std::nullopt;
        finalists[i].clear = scored->clear;
        choice.class_count = scored->class_count;
    }
    std::stable_sort(finalists.begin(), finalists.end(),
                     [](const Candidate& a, const Candidate& b) { return a.schedule.burden < b.schedule.burden; });
    const auto best = std::min_element(finalists.begin(), finalists.end(), [&](const Candidate& a, const Candidate& b) { return better(a, b, goal.target); });
    choice.meets_target = best->clear.p10 >= goal.target;
    const auto chosen = static_cast<std::size_t>(std::distance(finalists.begin(), best));
    choice.recommended = {best->course, best->schedule, best->clear};
    choice.alternatives = neighbours_of(chosen, finalists);
    const auto untreated = score(Schedule{}, setting, ensemble, part_of(goal, 0.8, 0.83));
    if (!untreated) return std::nullopt;
    choice.untreated = untreated->clear;
    for (int rounds = 1; rounds <= most_rounds; ++rounds) {
        Course course = choice.recommended.course;
        const bool same = course.rounds == rounds;
        course.rounds = rounds;
        const double begin = 0.83 + 0.17 * (rounds - 1) / most_rounds;
        const auto scored = same ? std::optional<forecast::Forecast>{}
                                 : score(fit(assign(course, setting), setting), setting, ensemble, part_of(goal, begin, begin + 0.17 / most_rounds));
        if (!same && !scored) return std::nullopt;
        choice.ladder.push_back({rounds, same ? choice.recommended.clear : scored->clear});
    }
    return choice;
}

}  // namespace mitefall::plan
