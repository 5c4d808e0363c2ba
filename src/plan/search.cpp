#include "plan/search.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "branching/side_by_side.h"
#include "plan/tubs.h"

namespace mitefall::plan {
namespace {

using base::Band;
using mites::Ensemble;

constexpr std::size_t most_courses = 200;
constexpr std::size_t most_courses_of_many = 80;  // enclosures, each of which takes its time
constexpr std::size_t many_enclosures = 500;
constexpr std::size_t expanded_at_once = 2;
constexpr double gain_worth_telling = 0.002;  // of the chance; less does not make a course of its own
constexpr std::size_t finalist_limit = 8;
constexpr std::size_t finalist_blocks = 8;
constexpr int rough_shape = 4;
constexpr int usual_interval = 7;       // days, of further rounds to a course of one
constexpr std::size_t tubs_tried = 16;  // places in which a clean tub by itself is tried

struct Candidate {
    Course course;
    Burden burden;
    Band clear;
    bool expanded = false;  ///< its neighbours were tried
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

std::size_t most_courses_for(const Setting& setting) {
    return setting.with.collection.enclosures.size() < many_enclosures ? most_courses : most_courses_of_many;
}

/// Screens courses in parallel; false if cancelled.
bool screen(const std::vector<Course>& courses, const Scorer& scorer, PermitBook& permits,
            const std::function<bool(double)>& progress, std::vector<Candidate>& candidates) {
    const std::size_t first = candidates.size();
    candidates.resize(first + courses.size());
    const auto try_course = [&](std::size_t i) {
        const Setting& setting = scorer.setting();
        const Schedule schedule = fit(assign(courses[i], setting), setting, permits);
        candidates[first + i] = {courses[i], schedule.burden, scorer.score(schedule, 0)->clear};
    };
    const auto most = static_cast<double>(most_courses_for(scorer.setting()));
    const auto tell = [&](double share) {
        const double tried = static_cast<double>(first) + share * static_cast<double>(courses.size());
        return !progress || progress(std::min(1.0, tried / most));
    };
    return branching::side_by_side(courses.size(), tell, try_course);
}

/// What courses are ranked by: the low end of the chance, and where that is as good as nothing the mean. A
/// course with a low end comes before all without.
struct Worth {
    bool has_low_end = false;
    double chance = 0;

    explicit Worth(const Band& clear)
        : has_low_end(clear.p10 >= gain_worth_telling), chance(has_low_end ? clear.p10 : clear.mean) {}

    [[nodiscard]] bool is_more_than(const Worth& other, double by = 0) const {
        return has_low_end != other.has_low_end ? has_low_end : chance > other.chance + by;
    }
};

/// Indices of those no other beats in both chance and lightness, lightest first.
std::vector<std::size_t> frontier(const std::vector<Candidate>& candidates, Prefer prefer) {
    std::vector<std::size_t> order(candidates.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const Candidate& x = candidates[a];
        const Candidate& y = candidates[b];
        if (is_lighter(x.burden, y.burden, prefer)) return true;
        return !is_lighter(y.burden, x.burden, prefer) && Worth(x.clear).is_more_than(Worth(y.clear));
    });
    std::vector<std::size_t> front;
    for (const std::size_t i : order) {
        if (front.empty() || Worth(candidates[i].clear)
                                 .is_more_than(Worth(candidates[front.back()].clear), gain_worth_telling))
            front.push_back(i);
    }
    return front;
}

/// What the keeper asks of every course.
void heed(const Limits& limits, Course& course) {
    course.choices.without_spray = limits.without_spray;
    if (limits.without_spray) course.choices.soak_animals = true;
}

/// A middling and a strong course, and one without acaricide on animals.
void add_courses(const std::vector<records::EnclosureId>& tubs, Scope scope, const Setting& setting,
                 std::vector<Course>& courses) {
    const bool rooms = !empty_rooms_of(scope, setting).empty();
    std::vector<Course> added{{3, usual_interval, {true, true, false}, scope, rooms},
                              {most_rounds, 5, {true, true, false}, scope, rooms},
                              {most_rounds, 5, {true, false, true}, scope, rooms}};
    for (Course& course : added) {
        give_tubs(tubs, setting, course.choices);
        courses.push_back(std::move(course));
    }
}

/// A light course of every scope, and stronger ones without clean tubs and with all there are.
std::vector<Course> first_courses(const Setting& setting, const TubPlaces& tubs) {
    std::vector<Course> courses;
    for (const Scope scope : scopes_of(setting)) {
        const bool rooms = !empty_rooms_of(scope, setting).empty();
        courses.push_back({1, shortest_interval, {}, scope, rooms});
        add_courses({}, scope, setting, courses);
        const auto all = tubs.first(scope, tubs.most(scope));
        if (!all.empty()) add_courses(all, scope, setting, courses);
    }
    for (Course& course : courses) {
        course.choices.clear_heads = setting.limits.clear_heads && course.rounds > 1;
        heed(setting.limits, course);
    }
    return courses;
}

/// A course of one round has no interval.
bool is_same(Course a, const Course& b) {
    if (a.rounds == 1 && b.rounds == 1) a.interval_days = b.interval_days;
    return a == b;
}

/// Every course one step away.
std::vector<Course> neighbours(const Course& course, const std::vector<Scope>& scopes, const TubPlaces& tubs,
                               const Setting& setting) {
    const Limits& limits = setting.limits;
    std::vector<Course> near;
    const std::size_t used = tubs_of(course.choices);
    const auto add = [&](auto change) {
        Course other = course;
        change(other);
        if (other.scope != course.scope) give_tubs(tubs.first(other.scope, used), setting, other.choices);
        other.rounds = std::clamp(other.rounds, 1, most_rounds);
        other.interval_days = other.rounds == 1
                                  ? shortest_interval
                                  : std::clamp(other.interval_days, shortest_interval, longest_interval);
        if (other != course) near.push_back(other);
    };
    for (const int step : {-1, 1}) add([&](Course& c) { c.rounds += step; });
    for (const int step : {-3, -1, 1, 3}) add([&](Course& c) { c.interval_days += step; });
    add([](Course& c) { c.choices.change_substrate = !c.choices.change_substrate; });
    if (!limits.without_spray) {
        add([](Course& c) { c.choices.keep_damp = !c.choices.keep_damp; });
        add([](Course& c) { c.treat_rooms = !c.treat_rooms; });
        add([](Course& c) { c.choices.soak_animals = !c.choices.soak_animals; });
    }
    if (limits.clear_heads) add([](Course& c) { c.choices.clear_heads = !c.choices.clear_heads; });
    const auto use = [&](std::size_t number) {
        add([&](Course& c) { give_tubs(tubs.first(c.scope, number), setting, c.choices); });
    };
    if (used > 0) use(used - 1);
    if (used < tubs.most(course.scope)) use(used + 1);
    const auto here = std::find(scopes.begin(), scopes.end(), course.scope);
    if (here != scopes.begin()) add([&](Course& c) { c.scope = *std::prev(here); });
    if (here != scopes.end() && std::next(here) != scopes.end())
        add([&](Course& c) { c.scope = *std::next(here); });
    return near;
}

/// What courses are recommended by.
struct Merit {
    const Burden& burden;
    const Band& clear;
    std::size_t rounds = 0;
};

/// Without a find: each further round must be worth its burden.
bool is_worth_more(const Merit& a, const Merit& b, const Goal& goal) {
    const auto worth = [&](const Merit& one) {
        return one.clear.mean - goal.worth_of_a_round * static_cast<double>(one.rounds);
    };
    return worth(a) != worth(b) ? worth(a) > worth(b) : is_lighter(a.burden, b.burden, goal.prefer);
}

bool is_better(const Merit& a, const Merit& b, const Goal& goal) {
    if (goal.worth_of_a_round > 0) return is_worth_more(a, b, goal);
    const bool a_meets = a.clear.p10 >= goal.target;
    const bool b_meets = b.clear.p10 >= goal.target;
    if (a_meets != b_meets) return a_meets;
    if (a_meets) return is_lighter(a.burden, b.burden, goal.prefer);
    return Worth(a.clear).is_more_than(Worth(b.clear));
}

Merit merit_of(const Candidate& candidate) {
    return {candidate.burden, candidate.clear, static_cast<std::size_t>(candidate.course.rounds)};
}

/// Positions below `count`, `chosen` first, then its neighbours and theirs.
std::vector<std::size_t> nearest_first(std::size_t chosen, std::size_t count) {
    std::vector<std::size_t> positions{chosen};
    for (std::size_t distance = 1; distance < count; ++distance) {
        if (chosen >= distance) positions.push_back(chosen - distance);
        if (chosen + distance < count) positions.push_back(chosen + distance);
    }
    return positions;
}

/// Of the frontier those whose neighbours were not asked for yet, a few: the best, and those next to it.
std::vector<std::size_t> to_expand(std::vector<Candidate>& candidates, const Goal& goal) {
    const std::vector<std::size_t> front = frontier(candidates, goal.prefer);
    const auto best = std::min_element(front.begin(), front.end(), [&](std::size_t a, std::size_t b) {
        return is_better(merit_of(candidates[a]), merit_of(candidates[b]), goal);
    });
    const auto chosen = static_cast<std::size_t>(std::distance(front.begin(), best));
    std::vector<std::size_t> few;
    for (const std::size_t position : nearest_first(chosen, front.size())) {
        const std::size_t i = front[position];
        if (few.size() < expanded_at_once && !std::exchange(candidates[i].expanded, true)) few.push_back(i);
    }
    return few;
}

/// Neighbours, not tried yet, of those on the frontier whose neighbours were not asked for before. None: the
/// frontier stands.
std::vector<Course> next_courses(std::vector<Candidate>& candidates, const Setting& setting, const Goal& goal,
                                 const TubPlaces& tubs) {
    const std::vector<Scope> scopes = scopes_of(setting);
    std::vector<Course> next;
    for (std::vector<std::size_t> few; next.empty() && !(few = to_expand(candidates, goal)).empty();) {
        for (const std::size_t i : few) {
            for (const Course& course : neighbours(candidates[i].course, scopes, tubs, setting)) {
                if (course.treat_rooms != candidates[i].course.treat_rooms &&
                    empty_rooms_of(course.scope, setting).empty())
                    continue;  // there is no room to treat
                const bool is_tried = std::any_of(candidates.begin(), candidates.end(),
                                                  [&](const Candidate& c) { return c.course == course; });
                if (!is_tried && std::find(next.begin(), next.end(), course) == next.end())
                    next.push_back(course);
            }
        }
    }
    const std::size_t most = most_courses_for(setting);
    next.resize(std::min(next.size(), most - std::min(most, candidates.size())));
    return next;
}

/// Where a tub helps most, by itself in a strong course: where all else is done, what is left is the weakest
/// place. False if cancelled; what was tried stays among the candidates.
bool rank_tubs(const Scorer& scorer, PermitBook& permits, const std::function<bool(double)>& progress,
               std::vector<Candidate>& candidates, std::vector<records::EnclosureId>& by_worth) {
    const Setting& setting = scorer.setting();
    if (setting.limits.spare_tubs <= 0) return true;
    const Scope widest = scopes_of(setting).back();
    by_worth = places_for_tubs(widest, setting, permits);
    const std::size_t tried = by_worth.size() > 1 ? std::min(tubs_tried, by_worth.size()) : 0;
    const bool rooms = !empty_rooms_of(widest, setting).empty();
    std::vector<Course> courses;
    for (std::size_t i = 0; i < tried; ++i) {
        courses.push_back({most_rounds, 5, {true, true, false}, widest, rooms});
        give_tubs({by_worth[i]}, setting, courses.back().choices);
        heed(setting.limits, courses.back());
    }
    if (!screen(courses, scorer, permits, progress, candidates)) return false;
    std::vector<Candidate> best = candidates;
    std::stable_sort(best.begin(), best.end(), [](const Candidate& a, const Candidate& b) {
        return Worth(a.clear).is_more_than(Worth(b.clear));
    });
    for (std::size_t i = 0; i < tried; ++i) by_worth[i] = given_tubs(best[i].course.choices).front();
    return true;
}

/// Tries courses until the frontier stands; empty if cancelled.
std::vector<Candidate> explore(const Scorer& scorer, PermitBook& permits, const Goal& goal,
                               const std::function<bool(double)>& progress) {
    std::vector<Candidate> candidates;
    std::vector<records::EnclosureId> by_worth;
    if (!rank_tubs(scorer, permits, progress, candidates, by_worth)) return {};
    const TubPlaces tubs(by_worth, scopes_of(scorer.setting()), scorer.setting());
    std::vector<Course> next = first_courses(scorer.setting(), tubs);
    while (!next.empty()) {
        if (!screen(next, scorer, permits, progress, candidates)) return {};
        next = next_courses(candidates, scorer.setting(), goal, tubs);
    }
    return candidates;
}

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

/// Positions of the recommended finalist and its nearest neighbours on the frontier, at most three, by
/// burden.
std::vector<std::size_t> positions_shown(std::size_t chosen, std::size_t count) {
    std::vector<std::size_t> shown_at = nearest_first(chosen, count);
    shown_at.resize(std::min<std::size_t>(shown_at.size(), 3));
    std::sort(shown_at.begin(), shown_at.end());
    return shown_at;
}

}  // namespace

Scorer::Scorer(const Setting& setting, const Ensemble& ensemble, const belief::Belief& belief,
               double horizon_days, branching::Tolerance tolerance)
    : setting_(setting),
      ensemble_(ensemble),
      horizon_days_(horizon_days),
      tolerance_(tolerance),
      belief_(belief),
      present_(scenario::forget_past(setting.known.scenario, setting.known.from)) {
    constexpr std::size_t few_draws = 2 * branching::lane_count;
    if (ensemble.draws.size() <= few_draws) tails_ = std::make_shared<forecast::TailBook>();
}

std::optional<forecast::Forecast> Scorer::score(const Schedule& schedule, std::size_t blocks,
                                                const std::function<bool(double)>& progress) const {
    const scenario::Scenario scenario = apply(schedule, setting_, present_);
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble_;
    request.start = &belief_;
    request.from = setting_.known.from;
    request.to = setting_.known.time_of(setting_.today) + horizon_days_;
    request.blocks = blocks;
    request.tolerance = tolerance_;
    request.progress = progress;
    request.counts = false;
    request.tails = tails_.get();
    return forecast::forecast_clear(request);
}

bool is_lighter(const Burden& a, const Burden& b, Prefer prefer) {
    const auto order = [&](double x, double y) { return x < y ? -1 : x > y ? 1 : 0; };
    int first = 0;
    if (prefer == Prefer::work) first = order(a.tasks + a.soaks, b.tasks + b.soaks);
    if (prefer == Prefer::cost) first = order(units::in_millilitres(a.spray), units::in_millilitres(b.spray));
    if (first == 0 && prefer == Prefer::cost) first = order(a.tasks, b.tasks);
    return first != 0 ? first < 0 : a < b;
}

std::vector<Scope> scopes_of(const Setting& setting) {
    if (!setting.limits.only.empty()) return {Scope::chosen};
    if (setting.known.sighted.empty()) return {Scope::everything};
    std::vector<Scope> scopes{Scope::sighted};
    for (const Scope scope : {Scope::sighted_rooms, Scope::exposed, Scope::everything}) {
        const bool same_places = enclosures_of(scope, setting) == enclosures_of(scopes.back(), setting);
        if (!same_places || empty_rooms_of(scope, setting) != empty_rooms_of(scopes.back(), setting))
            scopes.push_back(scope);
    }
    return scopes;
}

namespace {

/// The stages of a search after the exploring, each of which may be cancelled.
class Showing {
  public:
    /// `quick`: with rough tolerances, for the finalists and the ladder.
    Showing(const Scorer& scorer, const Scorer& quick, PermitBook& permits, const Goal& goal,
            Progress& progress, std::size_t some_blocks)
        : scorer_(scorer),
          quick_(quick),
          permits_(permits),
          goal_(goal),
          progress_(progress),
          some_blocks_(some_blocks) {}

    /// False if cancelled.
    bool show(const std::vector<Candidate>& candidates) {
        return show_best(candidates) && score_untreated() && climb_ladder();
    }
    /// The recommended one and those around it.
    bool show_best(const std::vector<Candidate>& candidates) {
        choice_.courses_tried = candidates.size();
        return score_finalists(pick_finalists(candidates, goal_)) && show_around_the_best();
    }
    [[nodiscard]] PlanChoice take() { return std::move(choice_); }

  private:
    [[nodiscard]] Schedule fitted(const Course& course) const {
        return fit(assign(course, scorer_.setting()), scorer_.setting(), permits_);
    }

    bool score(const Scorer& scorer, const Schedule& schedule, std::size_t blocks, double progress_end,
               Band& clear) {
        const auto scored = scorer.score(schedule, blocks, progress_.stage_until(progress_end));
        if (!scored) return false;
        clear = scored->clear;
        choice_.class_count = std::max(choice_.class_count, scored->class_count);
        return true;
    }

    bool score_finalists(std::vector<Candidate> finalists) {
        std::vector<Schedule> schedules;
        for (std::size_t i = 0; i < finalists.size(); ++i) {
            const double share = static_cast<double>(i + 1) / static_cast<double>(finalists.size());
            schedules.push_back(fitted(finalists[i].course));
            if (!score(quick_, schedules.back(), some_blocks_, 0.45 + 0.15 * share, finalists[i].clear))
                return false;
        }
        for (const std::size_t i : frontier(finalists, goal_.prefer)) {
            Schedule& schedule = schedules[i];
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
        std::vector<ScoredPlan> shown;
        const auto chosen = static_cast<std::size_t>(std::distance(front.begin(), best));
        for (const std::size_t i : positions_shown(chosen, front.size())) {
            ScoredPlan plan{front[i].course, fitted(front[i].course), {}};
            if (!score(scorer_, plan.schedule, 0, 0.75, plan.clear)) return false;
            shown.push_back(std::move(plan));
        }
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

    bool score_untreated() { return score(quick_, Schedule{}, 0, 0.8, choice_.untreated); }

    bool climb_ladder() {
        for (int rounds = 1; rounds <= most_rounds; ++rounds) {
            Course course = choice_.recommended.course;
            if (course.rounds == 1 && rounds > 1) course.interval_days = usual_interval;
            course.rounds = rounds;
            Rung rung{rounds, {}};
            if (const ScoredPlan* const known = shown_as(course))
                rung.clear = known->clear;
            else if (!score(quick_, fitted(course), 0, 0.8 + 0.2 * rounds / most_rounds, rung.clear))
                return false;
            choice_.ladder.push_back(rung);
        }
        const auto tell = progress_.stage_until(1);
        return !tell || tell(1);
    }

    /// The plan shown that follows this course; nullptr if none does.
    [[nodiscard]] const ScoredPlan* shown_as(const Course& course) const {
        const auto follows = [&](const ScoredPlan& plan) { return is_same(plan.course, course); };
        if (follows(choice_.recommended)) return &choice_.recommended;
        const auto found = std::find_if(choice_.alternatives.begin(), choice_.alternatives.end(), follows);
        return found == choice_.alternatives.end() ? nullptr : &*found;
    }

    const Scorer& scorer_;
    const Scorer& quick_;
    PermitBook& permits_;
    const Goal& goal_;
    Progress& progress_;
    std::size_t some_blocks_;
    PlanChoice choice_;
};

/// How much of the answer is wanted.
enum class Wanted { all, recommended };

std::optional<PlanChoice> search(const Setting& setting, const Ensemble& ensemble,
                                 const belief::Belief& belief, const Goal& goal, Wanted wanted) {
    Progress progress(goal);
    PermitBook permits(setting.with);
    // A rough look does with few draws and few substages: courses are ranked, not shown.
    const belief::Shortlist few = belief::shorten(ensemble, belief, branching::lane_count, rough_shape);
    const Scorer rough(setting, few.ensemble, few.belief, goal.horizon_days, branching::for_screening);
    const std::vector<Candidate> candidates = explore(rough, permits, goal, progress.stage_until(0.45));
    if (candidates.empty()) return std::nullopt;
    const Scorer scorer(setting, ensemble, belief, goal.horizon_days, branching::for_show);
    const std::size_t some_blocks = std::min(finalist_blocks, ensemble.draws.size() / branching::lane_count);
    const Scorer quick(setting, ensemble, belief, goal.horizon_days, branching::for_screening);
    Showing showing(scorer, quick, permits, goal, progress, some_blocks);
    const bool shown = wanted == Wanted::all ? showing.show(candidates) : showing.show_best(candidates);
    if (!shown) return std::nullopt;
    return showing.take();
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
