#include "branching/timeline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/contract.h"

namespace mitefall::branching {
namespace {

using base::expects;

void check_run(const Network& network, const Run& run) {
    const std::size_t value_count = network.values.front().size();
    expects(run.count > 0 && run.first + run.count <= network.type_count, "a run lies within the types");
    expects(run.advance < value_count && run.loss < value_count, "rates of a run are in the value table");
    expects(run.exits.first + run.exits.count <= network.exits.size(), "exits of a run exist");
    expects(run.ends.first + run.ends.count <= network.ends.size(), "ends of a run exist");
    expects(run.births.first + run.births.count <= network.births.size(), "births of a run exist");
    for (std::uint32_t e = run.exits.first; e < run.exits.first + run.exits.count; ++e) {
        const Exit& exit = network.exits[e];
        const TypeIndex last = exit.target + (exit.same_substage ? run.count - 1 : 0);
        expects(last < network.type_count && exit.rate < value_count, "an exit leads to a type");
    }
}

void check_jump(const Network& network, const Jump& jump) {
    expects(std::isfinite(jump.time), "a jump has a time");
    expects(jump.first + jump.count <= network.type_count, "a jump starts from types");
    expects(jump.target == no_type || jump.target + jump.count <= network.type_count,
            "a jump leads to types");
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        expects(jump.keep[lane] >= 0 && jump.move[lane] >= 0 && jump.seen[lane] >= 0 &&
                    jump.keep[lane] + jump.move[lane] + jump.seen[lane] <= 1 + 1e-12,
                "a jump shares out one particle");
    }
}

}  // namespace

std::vector<double> smooth_bounds(const Network& network, double from, double to) {
    std::vector<double> bounds{from, to};
    const auto add = [&](double time) {
        if (time > from && time < to) bounds.push_back(time);
    };
    for (const Segment& segment : network.segments) add(segment.begin);
    for (const HazardWindow& window : network.hazards) {
        add(window.begin);
        add(window.end);
        for (const double dry : window.decays_from.x) {
            if (dry > window.begin && dry < window.end) add(dry);
        }
    }
    for (const Source& source : network.sources) {
        add(source.begin);
        add(source.end);
    }
    for (const Jump& jump : network.jumps) add(jump.time);
    std::sort(bounds.begin(), bounds.end());
    bounds.erase(std::unique(bounds.begin(), bounds.end()), bounds.end());
    return bounds;
}

Stretch stretch_between(const Network& network, double begin, double end) {
    const double middle = begin + (end - begin) / 2;
    const auto after = std::partition_point(network.segments.begin(), network.segments.end(),
                                            [&](const Segment& segment) { return segment.begin <= middle; });
    expects(after != network.segments.begin(), "a segment covers the start");
    Stretch stretch;
    stretch.values = &network.values[std::prev(after)->value_table];
    for (const HazardWindow& window : network.hazards) {
        if (window.begin < middle && middle < window.end) stretch.hazards.push_back(&window);
    }
    for (const Source& source : network.sources) {
        if (source.begin < middle && middle < source.end) stretch.sources.push_back(&source);
    }
    return stretch;
}

Lanes level_of(const HazardWindow& window, double time) {
    return for_each_lane([&](std::size_t lane) {
        const double dry_for = time - window.decays_from[lane];
        return window.level[lane] * (dry_for > 0 ? std::exp2(-dry_for / window.half_life[lane]) : 1.0);
    });
}

Lanes hazard_through(const HazardWindow& window, double begin, double end) {
    return for_each_lane([&](std::size_t lane) {
        const double dry = std::clamp(window.decays_from[lane], begin, end);
        const double rate = std::numbers::ln2 / window.half_life[lane];
        const double at_dry = std::exp(-rate * std::max(0.0, dry - window.decays_from[lane]));
        const double faded = at_dry * -std::expm1(-rate * (end - dry)) / rate;
        return window.level[lane] * (dry - begin + faded);
    });
}

void hazards_at(const Stretch& stretch, double time, std::vector<Lanes>& hazard) {
    std::fill(hazard.begin(), hazard.end(), Lanes{});
    for (const HazardWindow* const window : stretch.hazards) {
        const Lanes now = level_of(*window, time);
        for (const std::uint32_t run : window->runs) {
            for (std::size_t lane = 0; lane < lane_count; ++lane) hazard[run][lane] += now[lane];
        }
    }
}

void check_network(const Network& network) {
    expects(!network.values.empty() && !network.segments.empty(), "a network has rates");
    for (const auto& table : network.values) {
        expects(table.size() == network.values.front().size(), "value tables are of one size");
        for (const Lanes& lanes : table) {
            for (const double value : lanes.x)
                expects(value >= 0 && std::isfinite(value), "rates are finite and not negative");
        }
    }
    for (const Run& run : network.runs) check_run(network, run);
    for (const Jump& jump : network.jumps) check_jump(network, jump);
    for (const HazardWindow& window : network.hazards) {
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            expects(window.level[lane] >= 0 && window.half_life[lane] > 0,
                    "a hazard is not negative and fades");
        }
    }
    const auto earlier = [](const auto& a, const auto& b) { return a.time < b.time; };
    expects(std::is_sorted(network.jumps.begin(), network.jumps.end(), earlier),
            "jumps are in order of time");
}

}  // namespace mitefall::branching
