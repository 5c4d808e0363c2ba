#include "plan/search.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <mutex>
#include <utility>

namespace mitefall::plan {
namespace {

using forecast::Band;
using forecast::Ensemble;

constexpr std::array coarse_intervals{3, 5, 7, 10, 14};
constexpr int refinement = 2;  // days around a coarse interval
constexpr std::size_t finalist_limit = 8;
constexpr std::size_t finalist_blocks = 8;
constexpr int rough_shape = 4;

struct Candidate {
    Course course;
    Schedule schedule;
    Band clear;
};

/// Shares out one progress report among the stages of the search.
class Progress {
  public:
    explicit Progress(const Goal& goal) : goal_(goal) {}
    /// The next stage takes the report from where the last one ended to `end`.
    std::function<bool(double)> stage_until(double end) {
        const double begin = std::exchange(done_, end);
        if (!goal_.progress) return {};
        return [this, begin, end](double share) { return goal_.progress(begin + (end - begin) * share); };
    }

  private:
    const Goal& goal_;
    double done_ = 0;
};

/// Screens courses in parallel; false if cancelled.
bool screen(const std::vector<Course>& courses, const Setting& setting, const Scorer& scorer,
            const std::function<bool(double)>& progress, std::vector<Candidate>& candidates) {
    const std::size_t first = candidates.size();
    candidates.resize(first + courses.size());
    std::atomic<bool> cancelled = false;
    std::mutex reporting;
    std::size_t done = 0;
    tbb::parallel_for(std::size_t{0}, courses.size(), [&](std::size_t i) {
        if (cancelled) return;
        Candidate& candidate = candidates[first + i];
        candidate.course = courses[i];
        candidate.schedule = fit(assign(courses[i], setting), setting);
        candidate.clear = scorer.score(candidate.schedule, 0)->clear;
        const std::scoped_lock lock(reporting);
        if (progress && !progress(static_cast<double>(++done) / static_cast<double>(courses.size())))
            cancelled = true;
    });
    return !cancelled;
}

bool lighter(const Candidate& a, const Candidate& b) {
    if (a.schedule.burden < b.schedule.burden) return true;
    if (b.schedule.burden < a.schedule.burden) return false;
    return a.clear.p10 > b.clear.p10;
}

/// Indices of those no other beats in both chance and burden, by ascending burden.
std::vector<std::size_t> frontier(const std::vector<Candidate>& candidates) {
    std::vector<std::size_t> order(candidates.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lighter(candidates[a], candidates[b]); });
    std::vector<std::size_t> front;
    for (const std::size_t i : order) {
        if (front.empty() || candidates[i].clear.p10 > candidates[front.back()].clear.p10) front.push_back(i);
    }
    return front;
}

std::vector<Course> coarse_courses(const Setting& setting) {
    std::vector<Course> courses;
    for (const Scope scope : scopes_of(setting)) {
        for (const bool substrate : {false, true}) {
            for (const bool damp : {false, true}) {
                courses.push_back({1, shortest_interval, substrate, damp, scope});
                for (int rounds = 2; rounds <= most_rounds; ++rounds) {
                    for (const int interval : coarse_intervals)
                        courses.push_back({rounds, interval, substrate, damp, scope});
                }
            }
        }
    }
    return courses;
}

/// Courses a day or two away from those on the frontier, not tried yet.
std::vector<Course> finer_courses(const std::vector<Candidate>& candidates) {
    std::vector<Course> finer;
    const auto is_tried = [&](const Course& course) {
        return std::find(finer.begin(), finer.end(), course) != finer.end() ||
               std::any_of(candidates.begin(), candidates.end(),
                           [&](const Candidate& c) { return c.course == course; });
    };
    for (const std::size_t i : frontier(candidates)) {
        for (int shift = -refinement; shift <= refinement; ++shift) {
            Course course = candidates[i].course;
            course.interval_days += shift;
            const bool possible = course.rounds > 1 && course.interval_days >= shortest_interval &&
                                  course.interval_days <= longest_interval;
            if (possible && !is_tried(course)) finer.push_back(course);
        }
    }
    return finer;
}

/// Thins the frontier: the best, those around the target, and some spread over the rest.
std::vector<Candidate> pick_finalists(const std::vector<Candidate>& candidates, double target) {
    const std::vector<std::size_t> front = frontier(candidates);
    std::vector<std::size_t> wanted{front.size() - 1};
    const auto meets = std::find_if(front.begin(), front.end(),
                                    [&](std::size_t i) { return candidates[i].clear.p10 >= target; });
    const auto around = static_cast<std::size_t>(std::distance(front.begin(), meets));
    for (std::size_t i = around > 0 ? around - 1 : 0; i < front.size() && wanted.size() < finalist_limit / 2;
         ++i)
        wanted.push_back(i);
    for (std::size_t k = 0; k < finalist_limit && wanted.size() < finalist_limit; ++k)
        wanted.push_back(k * (front.size() - 1) / (finalist_limit - 1));
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    std::vector<Candidate> finalists;
    for (const std::size_t i : wanted) finalists.push_back(candidates[front[i]]);
    return finalists;
}

bool is_better(const Candidate& a, const Candidate& b, double target) {
    const bool a_meets = a.clear.p10 >= target;
    const bool b_meets = b.clear.p10 >= target;
    if (a_meets != b_meets) return a_meets;
    if (a_meets) return a.schedule.burden < b.schedule.burden;
    return a.clear.p10 > b.clear.p10;
}

/// Positions of the recommended finalist and its nearest neighbours on the frontier, at most three, by
/// burden.
std::vector<std::size_t> positions_shown(std::size_t chosen, std::size_t count) {
    std::vector<std::size_t> shown_at{chosen};
    for (std::size_t distance = 1; distance < count && shown_at.size() < 3; ++distance) {
        if (chosen >= distance) shown_at.push_back(chosen - distance);
        if (chosen + distance < count && shown_at.size() < 3) shown_at.push_back(chosen + distance);
    }
    std::sort(shown_at.begin(), shown_at.end());
    return shown_at;
}

}  // namespace

Scorer::Scorer(const Setting& setting, const Ensemble& ensemble, const forecast::Belief& belief,
               double horizon_days, forecast::Tolerance tolerance)
    : setting_(setting),
      ensemble_(ensemble),
      horizon_days_(horizon_days),
      tolerance_(tolerance),
      belief_(belief),
      present_(forecast::forget_past(setting.known.scenario, setting.known.from)) {}

std::optional<forecast::Forecast> Scorer::score(const Schedule& schedule, std::size_t blocks,
                                                const std::function<bool(double)>& progress) const {
    const forecast::Scenario scenario = apply(schedule, setting_, present_);
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble_;
    request.start = &belief_;
    request.from = setting_.known.from;
    request.to = setting_.known.time_of(setting_.today) + horizon_days_;
    request.blocks = blocks;
    request.tolerance = tolerance_;
    request.progress = progress;
    return forecast::forecast_clear(request);
}

std::vector<Scope> scopes_of(const Setting& setting) {
    std::vector<Scope> scopes{Scope::sighted};
    for (const Scope scope : {Scope::sighted_rooms, Scope::exposed, Scope::everything}) {
        const bool same_places = enclosures_of(scope, setting) == enclosures_of(scopes.back(), setting);
        if (!same_places || rooms_of(scope, setting) != rooms_of(scopes.back(), setting))
            scopes.push_back(scope);
    }
    return scopes;
}

std::optional<PlanChoice> choose_plan(const Setting& setting, const Ensemble& ensemble,
                                      const forecast::Belief& belief, const Goal& goal) {
    Progress progress(goal);
    // A rough look does with few draws and few substages: courses are ranked, not shown.
    const forecast::Shortlist few = forecast::shorten(ensemble, belief, forecast::lane_count, rough_shape);
    const Scorer rough_scorer(setting, few.ensemble, few.belief, goal.horizon_days, forecast::for_screening);
    std::vector<Candidate> candidates;
    if (!screen(coarse_courses(setting), setting, rough_scorer, progress.stage_until(0.35), candidates))
        return std::nullopt;
    if (!screen(finer_courses(candidates), setting, rough_scorer, progress.stage_until(0.45), candidates))
        return std::nullopt;

    PlanChoice choice;
    choice.courses_tried = candidates.size();
    const Scorer scorer(setting, ensemble, belief, goal.horizon_days, forecast::for_show);
    const std::size_t some_blocks = std::min(finalist_blocks, ensemble.draws.size() / forecast::lane_count);
    std::vector<Candidate> finalists = pick_finalists(candidates, goal.target);
    for (std::size_t i = 0; i < finalists.size(); ++i) {
        const double end = 0.45 + 0.15 * static_cast<double>(i + 1) / static_cast<double>(finalists.size());
        const auto scored = scorer.score(finalists[i].schedule, some_blocks, progress.stage_until(end));
        if (!scored) return std::nullopt;
        finalists[i].clear = scored->clear;
    }
    std::stable_sort(finalists.begin(), finalists.end(), lighter);
    const auto better = [&](const Candidate& a, const Candidate& b) { return is_better(a, b, goal.target); };
    const auto best = std::min_element(finalists.begin(), finalists.end(), better);
    const auto chosen = static_cast<std::size_t>(std::distance(finalists.begin(), best));
    std::vector<Candidate> shown_ones;
    for (const std::size_t i : positions_shown(chosen, finalists.size())) {
        const auto scored = scorer.score(finalists[i].schedule, 0, progress.stage_until(0.75));
        if (!scored) return std::nullopt;
        choice.class_count = scored->class_count;
        shown_ones.push_back({finalists[i].course, std::move(finalists[i].schedule), scored->clear});
    }
    // All draws may rank them otherwise than the first few did.
    const auto recommended = std::min_element(shown_ones.begin(), shown_ones.end(), better);
    for (auto one = shown_ones.begin(); one != shown_ones.end(); ++one) {
        ScoredPlan plan{one->course, std::move(one->schedule), one->clear};
        if (one == recommended)
            choice.recommended = std::move(plan);
        else
            choice.alternatives.push_back(std::move(plan));
    }
    choice.meets_target = choice.recommended.clear.p10 >= goal.target;
    const auto untreated = scorer.score(Schedule{}, 0, progress.stage_until(0.8));
    if (!untreated) return std::nullopt;
    choice.untreated = untreated->clear;
    for (int rounds = 1; rounds <= most_rounds; ++rounds) {
        Course course = choice.recommended.course;
        if (course.rounds == rounds) {
            choice.ladder.push_back({rounds, choice.recommended.clear});
            continue;
        }
        course.rounds = rounds;
        const auto scored =
            scorer.score(fit(assign(course, setting), setting), 0, progress.stage_until(0.8 + 0.04 * rounds));
        if (!scored) return std::nullopt;
        choice.ladder.push_back({rounds, scored->clear});
    }
    return choice;
}

}  // namespace mitefall::plan
