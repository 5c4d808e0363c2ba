#include "network/paper.h"

#include <algorithm>
#include <cmath>

#include "branching/timeline.h"

namespace mitefall::network {
namespace {

constexpr double residue_half_lives = 30;  // 2^-30: nothing left worth a step

/// Binary logarithm of the level of a residue in one draw: straight between its corners.
double log_level(const branching::HazardWindow& window, std::size_t lane, double time) {
    return std::log2(window.level[lane]) -
           std::max(0.0, time - window.decays_from[lane]) / window.half_life[lane];
}

/// Where two residues change places as the stronger one in this draw.
void add_crossings(const branching::HazardWindow& a, const branching::HazardWindow& b, std::size_t lane,
                   std::vector<double>& times) {
    const double begin = std::max(a.begin, b.begin);
    const double end = std::min(a.end, b.end);
    if (!(begin < end) || !(a.level[lane] > 0) || !(b.level[lane] > 0)) return;
    std::array<double, 4> corner{begin, std::clamp(a.decays_from[lane], begin, end),
                                 std::clamp(b.decays_from[lane], begin, end), end};
    std::sort(corner.begin(), corner.end());
    const auto lead = [&](double time) { return log_level(a, lane, time) - log_level(b, lane, time); };
    for (std::size_t i = 0; i + 1 < corner.size(); ++i) {
        const double before = lead(corner[i]);
        const double after = lead(corner[i + 1]);
        if (before * after < 0)
            times.push_back(corner[i] + (corner[i + 1] - corner[i]) * before / (before - after));
    }
}

bool goes_on_as(const branching::HazardWindow& a, const branching::HazardWindow& b) {
    return a.end == b.begin && a.level.x == b.level.x && a.half_life.x == b.half_life.x &&
           a.decays_from.x == b.decays_from.x;
}

}  // namespace

void Paper::lay(double time, const scenario::Residue& residue, const branching::Lanes& level,
                const branching::Lanes& half_life) {
    std::vector<scenario::Residue> in_force;
    for (const Laid& one : laid_) {
        if (one.window.end > time) in_force.push_back(one.residue);
    }
    const std::vector<scenario::Residue> before = in_force;
    scenario::lay(residue, in_force);
    if (in_force == before) return;
    for (Laid& one : laid_) {
        if (std::find(in_force.begin(), in_force.end(), one.residue) == in_force.end())
            one.window.end = std::min(one.window.end, time);
    }
    Laid fresh;
    fresh.residue = residue;
    fresh.window.begin = time;
    const double dry = std::max(time, residue.damp_until);
    fresh.window.decays_from = branching::Lanes::all(dry);
    fresh.window.level = level;
    fresh.window.half_life = half_life;
    fresh.window.end = dry + residue_half_lives * *std::max_element(half_life.x.begin(), half_life.x.end());
    laid_.push_back(std::move(fresh));
}

void Paper::take_out(double time) {
    gone_ = std::min(gone_, time);
    for (Laid& one : laid_) one.window.end = std::min(one.window.end, time);
}

std::vector<double> Paper::bounds() const {
    std::vector<double> times;
    for (const Laid& one : laid_) {
        times.push_back(one.window.begin);
        times.push_back(one.window.end);
    }
    for (std::size_t i = 0; i < laid_.size(); ++i) {
        for (std::size_t j = i + 1; j < laid_.size(); ++j) {
            for (std::size_t lane = 0; lane < branching::lane_count; ++lane)
                add_crossings(laid_[i].window, laid_[j].window, lane, times);
        }
    }
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

/// Within two bounds no residue begins, ends or changes places with another.
branching::HazardWindow Paper::between(double begin, double end) const {
    const double middle = begin + (end - begin) / 2;
    branching::HazardWindow strongest;
    strongest.begin = begin;
    strongest.end = begin;  // nothing yet
    branching::Lanes most;
    for (const Laid& one : laid_) {
        if (!(one.window.begin < middle && middle < one.window.end)) continue;
        const bool is_first = strongest.end == begin;
        strongest.end = end;
        const branching::Lanes level = branching::level_of(one.window, middle);
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
            if (!is_first && !(level[lane] > most[lane])) continue;
            most[lane] = level[lane];
            strongest.level[lane] = one.window.level[lane];
            strongest.half_life[lane] = one.window.half_life[lane];
            strongest.decays_from[lane] = one.window.decays_from[lane];
        }
    }
    return strongest;
}

std::vector<branching::HazardWindow> Paper::strongest() const {
    std::vector<branching::HazardWindow> windows;
    const std::vector<double> times = bounds();
    for (std::size_t i = 0; i + 1 < times.size(); ++i) {
        branching::HazardWindow next = between(times[i], times[i + 1]);
        if (next.end == next.begin) continue;
        if (!windows.empty() && goes_on_as(windows.back(), next))
            windows.back().end = next.end;
        else
            windows.push_back(std::move(next));
    }
    return windows;
}

}  // namespace mitefall::network
