#include "mixing/measure_search.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace mitefall::mixing {
namespace {

constexpr double decimal_rounding = 1e-9;  // mL; sums of graduations are decimal fractions held in binary

long capacity_in_graduations(const Tool& tool) {
    return std::lround(std::floor(tool.capacity / tool.graduation + decimal_rounding));
}

long in_rounding_units(units::Volume volume) {
    return std::lround(units::in_millilitres(volume) / decimal_rounding);
}

void add_measures(Measurement& measurement, const Tool& tool, long graduations, int times) {
    if (times == 0) return;
    measurement.measures.push_back({tool, tool.graduation * static_cast<double>(graduations), times});
}

}  // namespace

units::Volume ToolUse::volume() const {
    return times == 0 ? units::Volume{} : tool->graduation * static_cast<double>(graduations);
}

units::Volume ToolUse::reading_error() const {
    return times == 0 ? units::Volume{} : tool->reading_error * times;
}

int ToolUse::different_amounts() const {
    if (times == 0) return 0;
    return graduations % times == 0 ? 1 : 2;
}

std::optional<Measurement> MeasureSearch::fewest_steps(units::Share error_limit) const {
    for (int steps = 1; steps <= most_steps_; ++steps) {
        std::optional<Candidate> best;
        for (std::size_t i = 0; i < tools_.size(); ++i) {
            for (std::size_t j = i; j < tools_.size(); ++j)
                try_tools(tools_[i], tools_[j], steps, error_limit, best);
        }
        if (effort_->is_spent()) return std::nullopt;
        if (best) return write_out(*best);
    }
    return std::nullopt;
}

void MeasureSearch::try_tools(const Tool& first, const Tool& second, int steps, units::Share error_limit,
                              std::optional<Candidate>& best) const {
    if (&first == &second) return complete({}, second, steps, error_limit, best);
    const long most = capacity_in_graduations(first);
    const units::Volume most_wanted = wanted_ * (1 + units::as_fraction(deviation_limit_));
    for (int times = 1; times < steps; ++times) {
        const int other = steps - times;
        if (!can_be_acceptable(first.reading_error * times + second.reading_error * other, error_limit))
            continue;
        for (long graduations = least_of(first, times, second, other); graduations <= times * most;
             ++graduations) {
            const ToolUse use{&first, times, graduations};
            if (use.volume() > most_wanted || effort_->is_spent()) break;
            complete(use, second, other, error_limit, best);
        }
    }
}

/// Fewest graduations of the first tool with which the second, filled to the top, reaches what is wanted.
long MeasureSearch::least_of(const Tool& first, int times, const Tool& second, int other) const {
    const units::Volume reached =
        second.graduation * static_cast<double>(other * capacity_in_graduations(second));
    const double share = 1 - units::as_fraction(deviation_limit_);
    const double needed = std::floor((wanted_ * share - reached) / first.graduation) - 1;
    return needed > times ? std::lround(needed) : times;
}

/// Whether any deviation is left to a sequence with that reading error.
bool MeasureSearch::can_be_acceptable(units::Volume reading_error, units::Share error_limit) const {
    return reading_error <=
           wanted_ * units::as_fraction(error_limit) + units::millilitres(2 * decimal_rounding);
}

/// Fills what the first tool leaves with the multiple of the second tool's graduation that comes nearest.
void MeasureSearch::complete(const ToolUse& first, const Tool& second, int times, units::Share error_limit,
                             std::optional<Candidate>& best) const {
    if (!effort_->spend()) return;
    const double least = times;
    const double most = static_cast<double>(times * capacity_in_graduations(second));
    const double nearest = std::round((wanted_ - first.volume()) / second.graduation);
    const Candidate candidate{first, {&second, times, std::lround(std::clamp(nearest, least, most))}};
    if (is_acceptable(candidate, error_limit) && (!best || is_better(candidate, *best))) best = candidate;
}

units::Volume MeasureSearch::deviation(const Candidate& candidate) const {
    const units::Volume total = candidate.first.volume() + candidate.second.volume();
    return units::millilitres(std::fabs(units::in_millilitres(total - wanted_)));
}

bool MeasureSearch::is_acceptable(const Candidate& candidate, units::Share error_limit) const {
    const units::Volume off = deviation(candidate);
    const units::Volume all = off + candidate.first.reading_error() + candidate.second.reading_error();
    const units::Volume slack = units::millilitres(decimal_rounding);
    return off <= wanted_ * units::as_fraction(deviation_limit_) + slack &&
           all <= wanted_ * units::as_fraction(error_limit) + slack;
}

bool MeasureSearch::is_better(const Candidate& a, const Candidate& b) const {
    const auto merits = [this](const Candidate& c) {
        return std::tuple(in_rounding_units(deviation(c)),
                          in_rounding_units(c.first.reading_error() + c.second.reading_error()),
                          c.first.different_amounts() + c.second.different_amounts());
    };
    return merits(a) < merits(b);
}

Measurement MeasureSearch::write_out(const Candidate& candidate) const {
    Measurement measurement;
    units::Volume error;
    for (const ToolUse& use : {candidate.first, candidate.second}) {
        if (use.times == 0) continue;
        const int larger = static_cast<int>(use.graduations % use.times);
        add_measures(measurement, *use.tool, use.graduations / use.times + 1, larger);
        add_measures(measurement, *use.tool, use.graduations / use.times, use.times - larger);
        measurement.steps += use.times;
        measurement.total += use.volume();
        error += use.reading_error();
    }
    std::stable_sort(measurement.measures.begin(), measurement.measures.end(),
                     [](const Measure& a, const Measure& b) { return a.tool.capacity > b.tool.capacity; });
    measurement.low = measurement.total - error;
    measurement.high = measurement.total + error;
    measurement.deviation = units::share(deviation(candidate) / wanted_);
    return measurement;
}

}  // namespace mitefall::mixing
