#include "plan/search.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "plan/explore.h"

namespace mitefall::plan {

namespace {

using base::Band;
using mites::Ensemble;

constexpr std::size_t finalist_limit = 8;
constexpr std::size_t finalist_blocks = 8;
constexpr int rough_shape = 4;

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

/// Thins the frontier: the best, those around the target, and some spread over the rest.
std::vector<Candidate> pick_finalists(const std::vector<Candidate>& candidates, const Goal& goal) {
    const std::vector<std::size_t> front = frontier(candidates, goal.prefer);
    std::vector<std::size_t> wanted{front.size() - 1};
    const auto meets = std::find_if(front.begin(), front.end(),
                                    [&](std::size_t i) { return candidates[i].clear.p10 >= goal.target; });
    const auto around = static_cast<std::size_t>(std::distance(front.begin(), meets));
    for (std::size_t i = around > 0 ? around - 1 : 0; i < front.size() && wanted.size() < finalist_limit / 2;
         ++i)
        wanted.push_back(i);
    for (std::size_t k = 0; k < finalist_limit && wanted.size() < finalist_limit; ++k)
        wanted.push_back(k * (front.size() - 1) / (finalist_limit - 1));
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    std::vector<Candidate> finalists;
    finalists.reserve(wanted.size());
    for (const std::size_t i : wanted) finalists.push_back(candidates[front[i]]);
    return finalists;
}

std::vector<Course> courses_of(const std::vector<Candidate>& candidates) {
    std::vector<Course> courses;
    courses.reserve(candidates.size());
    for (const Candidate& candidate : candidates) courses.push_back(candidate.course);
    return courses;
}

/// Positions of the recommended finalist and its nearest neighbours on the frontier, at most three, by
/// burden.
std::vector<std::size_t> positions_shown(std::size_t chosen, std::size_t count) {
    std::vector<std::size_t> shown_at = nearest_first(chosen, count);
    shown_at.resize(std::min<std::size_t>(shown_at.size(), 3));
    std::sort(shown_at.begin(), shown_at.end());
    return shown_at;
}

/// The stages of a search after the exploring, each of which may be cancelled.
class Showing {
  public:
    /// `quick`: with rough tolerances, for the finalists.
    Showing(const Scorer& scorer, const Scorer& quick, PermitBook& permits, const Goal& goal,
            Progress& progress, std::size_t some_blocks)
        : scorer_(scorer),
          quick_(quick),
          permits_(permits),
          goal_(goal),
          progress_(progress),
          some_blocks_(some_blocks) {}

    /// False if cancelled.
    bool show(const std::vector<Candidate>& candidates) { return show_best(candidates) && score_untreated(); }
    /// The recommended one and those around it.
    bool show_best(const std::vector<Candidate>& candidates) {
        choice_.courses_tried = candidates.size();
        return score_finalists(pick_finalists(candidates, goal_)) && show_around_the_best();
    }
    [[nodiscard]] PlanChoice take() { return std::move(choice_); }

  private:
    /// Empty if cancelled.
    std::vector<ScoredPlan> scored(const Scorer& scorer, const std::vector<Course>& courses,
                                   std::size_t blocks, double progress_end) {
        auto found = score_all(scorer, permits_, courses, blocks, Keep::schedules,
                               progress_.stage_until(progress_end));
        if (!found) return {};
        choice_.class_count = std::max(choice_.class_count, found->class_count);
        return std::move(found->plans);
    }

    bool score_finalists(std::vector<Candidate> finalists) {
        std::vector<ScoredPlan> plans = scored(quick_, courses_of(finalists), some_blocks_, 0.7);
        if (plans.empty()) return false;
        for (std::size_t i = 0; i < plans.size(); ++i) finalists[i].clear = plans[i].clear;
        for (const std::size_t i : frontier(finalists, goal_.prefer)) {
            Schedule& schedule = plans[i].schedule;
            choice_.frontier.push_back({finalists[i].course, finalists[i].burden, finalists[i].clear,
                                        schedule.does, std::move(schedule.assignment.rounds)});
        }
        return true;
    }

    /// The best of the frontier and its neighbours, on all draws, which may rank them otherwise.
    bool show_around_the_best() {
        const std::vector<FrontierCourse>& front = choice_.frontier;
        const auto best = std::min_element(front.begin(), front.end(),
                                           [&](const FrontierCourse& a, const FrontierCourse& b) {
                                               return is_better({a.burden, a.clear, a.rounds.size()},
                                                                {b.burden, b.clear, b.rounds.size()}, goal_);
                                           });
        std::vector<Course> courses;
        const auto chosen = static_cast<std::size_t>(std::distance(front.begin(), best));
        for (const std::size_t i : positions_shown(chosen, front.size())) courses.push_back(front[i].course);
        std::vector<ScoredPlan> shown = scored(scorer_, courses, 0, 0.9);
        if (shown.empty()) return false;
        const auto recommended =
            std::min_element(shown.begin(), shown.end(), [&](const ScoredPlan& a, const ScoredPlan& b) {
                return is_better({a.schedule.burden, a.clear, a.schedule.assignment.rounds.size()},
                                 {b.schedule.burden, b.clear, b.schedule.assignment.rounds.size()}, goal_);
            });
        choice_.recommended = std::move(*recommended);
        shown.erase(recommended);
        choice_.alternatives = std::move(shown);
        choice_.meets_target = choice_.recommended.clear.p10 >= goal_.target;
        return true;
    }

    bool score_untreated() {
        const auto untreated = quick_.chance_of(Schedule{}, 0, progress_.stage_until(1));
        if (!untreated) return false;
        choice_.untreated = untreated->clear;
        choice_.class_count = std::max(choice_.class_count, untreated->class_count);
        return true;
    }

    const Scorer& scorer_;
    const Scorer& quick_;
    PermitBook& permits_;
    const Goal& goal_;
    Progress& progress_;
    std::size_t some_blocks_;
    PlanChoice choice_;
};

/// What the rounding of climates did to the chance of a schedule, on some of the draws.
double difference_by(const Scorer& rounded, const Schedule& schedule, const Ensemble& ensemble,
                     const belief::Belief& belief, const Goal& goal) {
    constexpr std::size_t blocks = checked_draws / branching::lane_count;
    const Scorer exact(rounded.setting(), ensemble, belief, goal.horizon_days, branching::for_screening);
    return exact.chance_of(schedule, blocks)->clear.mean - rounded.chance_of(schedule, blocks)->clear.mean;
}

/// How much of the answer is wanted.
enum class Wanted { all, recommended };

std::optional<PlanChoice> search(const Setting& setting, const Ensemble& ensemble,
                                 const belief::Belief& belief, const Goal& goal, Wanted wanted) {
    Progress progress(goal);
    PermitBook permits(setting.with);
    // A rough look does with few draws and few substages: courses are ranked, not shown.
    const belief::Shortlist few = belief::shorten(ensemble, belief, draws_of_a_rough_look, rough_shape);
    auto present = present_for_search(setting, few, goal.horizon_days, permits, progress.stage_until(0));
    if (!present) return std::nullopt;
    const Scorer rough(setting, present->scenario, few.ensemble, few.belief, goal.horizon_days,
                       branching::for_screening);
    const std::vector<Candidate> candidates = explore(rough, permits, goal, progress.stage_until(0.55));
    if (candidates.empty()) return std::nullopt;
    const Scorer scorer(setting, present->scenario, ensemble, belief, goal.horizon_days, branching::for_show);
    const std::size_t some_blocks = std::min(finalist_blocks, ensemble.draws.size() / branching::lane_count);
    const Scorer quick(setting, present->scenario, ensemble, belief, goal.horizon_days,
                       branching::for_screening);
    Showing showing(scorer, quick, permits, goal, progress, some_blocks);
    const bool shown = wanted == Wanted::all ? showing.show(candidates) : showing.show_best(candidates);
    if (!shown) return std::nullopt;
    PlanChoice choice = showing.take();
    choice.rests_on_few = belief::rests_on_few(belief);
    if (present->rounding) {
        present->rounding->difference =
            difference_by(quick, choice.recommended.schedule, ensemble, belief, goal);
        choice.rounding = present->rounding;
    }
    choice.present = std::move(present->scenario);
    return choice;
}

}  // namespace

std::optional<PlanChoice> choose_plan(const Setting& setting, const Ensemble& ensemble,
                                      const belief::Belief& belief, const Goal& goal) {
    return search(setting, ensemble, belief, goal, Wanted::all);
}

std::optional<ScoredPlan> best_course(const Setting& setting, const Ensemble& ensemble,
                                      const belief::Belief& belief, const Goal& goal) {
    auto choice = search(setting, ensemble, belief, goal, Wanted::recommended);
    if (!choice) return std::nullopt;
    return std::move(choice->recommended);
}

}  // namespace mitefall::plan
