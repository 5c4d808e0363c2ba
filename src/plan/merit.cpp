#include "plan/merit.h"

#include <algorithm>

namespace mitefall::plan {

bool is_lighter(const Burden& a, const Burden& b, Prefer prefer) {
    const auto order = [&](double x, double y) { return x < y ? -1 : x > y ? 1 : 0; };
    int first = 0;
    if (prefer == Prefer::work) first = order(a.tasks + a.soaks, b.tasks + b.soaks);
    if (prefer == Prefer::cost) first = order(units::in_millilitres(a.spray), units::in_millilitres(b.spray));
    if (first == 0 && prefer == Prefer::cost) first = order(a.tasks, b.tasks);
    return first != 0 ? first < 0 : a < b;
}

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

namespace {

/// Without a find: each further round must be worth its burden.
bool is_worth_more(const Merit& a, const Merit& b, const Goal& goal) {
    const auto worth = [&](const Merit& one) {
        return one.clear.mean - goal.worth_of_a_round * static_cast<double>(one.rounds);
    };
    return worth(a) != worth(b) ? worth(a) > worth(b) : is_lighter(a.burden, b.burden, goal.prefer);
}

}  // namespace

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

std::vector<std::size_t> nearest_first(std::size_t chosen, std::size_t count) {
    std::vector<std::size_t> positions{chosen};
    for (std::size_t distance = 1; distance < count; ++distance) {
        if (chosen >= distance) positions.push_back(chosen - distance);
        if (chosen + distance < count) positions.push_back(chosen + distance);
    }
    return positions;
}

}  // namespace mitefall::plan
