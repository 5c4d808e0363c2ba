#include "plan/explore.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

#include "branching/side_by_side.h"
#include "plan/search.h"
#include "plan/tubs.h"

namespace mitefall::plan {

namespace {

constexpr std::size_t most_courses = 200;
constexpr std::size_t most_courses_of_many = 56;  // enclosures, each of which takes its time
constexpr std::size_t expanded_at_once = 2;
constexpr std::size_t tubs_tried = 16;  // places in which a clean tub by itself is tried

std::size_t most_courses_for(const Setting& setting) {
    return is_large(setting) ? most_courses_of_many : most_courses;
}

/// Screens courses in parallel; false if cancelled.
bool screen(const std::vector<Course>& courses, const Scorer& scorer, PermitBook& permits,
            const std::function<bool(double)>& progress, std::vector<Candidate>& candidates) {
    const std::size_t first = candidates.size();
    candidates.resize(first + courses.size());
    const auto try_course = [&](std::size_t i) {
        const Setting& setting = scorer.setting();
        const Schedule schedule = fit(assign(courses[i], setting), setting, permits);
        candidates[first + i] = {courses[i], schedule.burden, scorer.chance_of(schedule, 0)->clear};
    };
    const auto most = static_cast<double>(most_courses_for(scorer.setting()));
    const auto tell = [&](double share) {
        const double tried = static_cast<double>(first) + share * static_cast<double>(courses.size());
        return !progress || progress(std::min(1.0, tried / most));
    };
    return branching::side_by_side(courses.size(), tell, try_course);
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

/// Which of these candidates is the best.
std::size_t best_of(const std::vector<std::size_t>& some, const std::vector<Candidate>& candidates,
                    const Goal& goal) {
    const auto best = std::min_element(some.begin(), some.end(), [&](std::size_t a, std::size_t b) {
        return is_better(merit_of(candidates[a]), merit_of(candidates[b]), goal);
    });
    return static_cast<std::size_t>(std::distance(some.begin(), best));
}

/// Of the frontier those whose neighbours were not asked for yet, a few: the best, and those next to it.
std::vector<std::size_t> to_expand(std::vector<Candidate>& candidates, const Goal& goal) {
    const std::vector<std::size_t> front = frontier(candidates, goal.prefer);
    const std::size_t chosen = best_of(front, candidates, goal);
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

/// Tells of the best of all that were tried, where it is better than what was told before.
class BestSoFar {
  public:
    BestSoFar(const Setting& setting, PermitBook& permits, const Goal& goal)
        : setting_(setting), permits_(permits), goal_(goal) {}

    void tell(const std::vector<Candidate>& candidates) {
        if (!goal_.best_so_far || candidates.empty()) return;
        const std::vector<std::size_t> front = frontier(candidates, goal_.prefer);
        const Candidate& best = candidates[front[best_of(front, candidates, goal_)]];
        if (told_ && !is_better(merit_of(best), merit_of(*told_), goal_)) return;
        told_ = best;
        Schedule schedule = fit(assign(best.course, setting_), setting_, permits_);
        goal_.best_so_far(
            {best.course, best.burden, best.clear, schedule.does, std::move(schedule.assignment.rounds)});
    }

  private:
    const Setting& setting_;
    PermitBook& permits_;
    const Goal& goal_;
    std::optional<Candidate> told_;
};

}  // namespace

std::vector<Candidate> explore(const Scorer& scorer, PermitBook& permits, const Goal& goal,
                               const std::function<bool(double)>& progress) {
    std::vector<Candidate> candidates;
    std::vector<records::EnclosureId> by_worth;
    if (!rank_tubs(scorer, permits, progress, candidates, by_worth)) return {};
    const TubPlaces tubs(by_worth, scopes_of(scorer.setting()), scorer.setting());
    std::vector<Course> next = first_courses(scorer.setting(), tubs);
    BestSoFar best(scorer.setting(), permits, goal);
    while (!next.empty()) {
        if (!screen(next, scorer, permits, progress, candidates)) return {};
        best.tell(candidates);
        next = next_courses(candidates, scorer.setting(), goal, tubs);
    }
    return candidates;
}

}  // namespace mitefall::plan
