#include "belief/proposal.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "base/contract.h"
#include "branching/sweep.h"
#include "network/classes.h"
#include "network/compile.h"

namespace mitefall::belief {
namespace {

constexpr double defensive_part = 0.2;
constexpr int rough_shape = 4;
constexpr branching::Tolerance rough{1e-3, 1e-9};
constexpr double between_events = 0.37;  // events happen at whole days

void scale(std::vector<double>& values, double sum) {
    for (double& value : values) value *= sum;
}

/// The past with its finds as checks that fail, and no other checks.
scenario::Scenario with_finds(const scenario::Scenario& scenario, std::span<const scenario::Look> looks,
                              double at) {
    scenario::Scenario past{scenario.places, {}};
    auto look = looks.begin();
    const auto add_looks_before = [&](std::size_t event) {
        for (; look != looks.end() && look->next_event <= event; ++look) {
            if (look->seen == records::SeenCount::none) continue;
            past.events.push_back(
                {look->time,
                 scenario::CleanCheck{look->place,
                                      {},
                                      scenario::Amount::drawn(&mites::MiteParameters::detection_nest_part),
                                      true}});
        }
    };
    for (std::size_t i = 0; i < scenario.events.size() && scenario.events[i].time < at; ++i) {
        add_looks_before(i);
        const scenario::Happening& what = scenario.events[i].what;
        if (!std::holds_alternative<scenario::CleanCheck>(what) &&
            !std::holds_alternative<scenario::Import>(what))
            past.events.push_back(scenario.events[i]);
    }
    add_looks_before(scenario.events.size());
    return past;
}

mites::Stage stage_of(IntroductionKind kind) {
    return is_single(kind) ? mites::Stage::adult_seeking_1 : mites::Stage::adult_feeding_1;
}

double time_of(const Cell& cell, double at) {
    const double middle = std::floor((cell.first_day + cell.last_day) / 2) + between_events;
    return std::min(middle, at - between_events / 2);
}

}  // namespace

Proposal::Proposal(const Sources& sources, std::vector<double> pull, double second)
    : sources_(&sources), pull_(std::move(pull)), second_(second) {
    base::expects(pull_.size() == sources.cells.size() && !pull_.empty(), "a pull for every cell");
    double chances = 0;
    for (const Cell& cell : sources.cells) chances += cell.chance;
    const double sum = std::accumulate(pull_.begin(), pull_.end(), 0.0);
    scale(pull_, sum > 0 ? (1 - defensive_part) / sum : 0);
    const double rest = (sum > 0 ? defensive_part : 1) / chances;
    for (std::size_t i = 0; i < pull_.size(); ++i) pull_[i] += rest * sources.cells[i].chance;
    up_to_.assign(pull_.size(), 0.0);
    std::partial_sum(pull_.begin(), pull_.end(), up_to_.begin());
}

std::uint32_t Proposal::pick(base::RandomStream& random) const {
    const auto found = std::upper_bound(up_to_.begin(), up_to_.end(), random.uniform() * up_to_.back());
    const auto index = static_cast<std::size_t>(std::distance(up_to_.begin(), found));
    return static_cast<std::uint32_t>(std::min(index, up_to_.size() - 1));
}

std::vector<std::uint32_t> Proposal::draw(base::RandomStream& random) const {
    std::vector<std::uint32_t> cells{pick(random)};
    if (random.uniform() < second_) cells.push_back(pick(random));
    draw_cells(*sources_, random, cells);
    std::sort(cells.begin(), cells.end());
    cells.erase(std::unique(cells.begin(), cells.end()), cells.end());
    return cells;
}

// With r_i = pull_i / chance_i: one forced cell gives sum r_i; two picks give the sum of r_i r_j over pairs
// of different cells, and of pull_i r_i where both picks were the same.
double Proposal::ratio(std::span<const std::uint32_t> cells) const {
    double once = 0;
    double squares = 0;
    double same = 0;
    for (const std::uint32_t cell : cells) {
        const double r = pull_[cell] / sources_->cells[cell].chance;
        once += r;
        squares += r * r;
        same += pull_[cell] * r;
    }
    return (1 - second_) * once + second_ * (once * once - squares + same);
}

std::vector<double> chances_to_be_found(const scenario::Scenario& scenario, const Sources& sources,
                                        std::span<const scenario::Look> looks, double at,
                                        const mites::FixedParameters& fixed,
                                        const mites::MiteParameters& mode) {
    std::vector<double> found(sources.cells.size());
    const scenario::Scenario past = with_finds(scenario, looks, at);
    const bool any = std::any_of(looks.begin(), looks.end(), [](const scenario::Look& look) {
        return look.seen != records::SeenCount::none;
    });
    if (!any) return found;
    std::vector<mites::MiteParameters> draws(branching::lane_count, mode);
    for (mites::MiteParameters& draw : draws) draw.erlang_shape = rough_shape;
    const network::Classes classes = network::lump(past);
    const network::MiteNetwork compiled = network::compile(past, classes, fixed, draws);
    std::map<double, std::vector<std::uint32_t>, std::greater<>> by_time;
    for (std::uint32_t c = 0; c < sources.cells.size(); ++c)
        by_time[time_of(sources.cells[c], at)].push_back(c);
    std::vector<double> v(compiled.network.type_count);
    double until = at;
    for (const auto& [time, cells] : by_time) {
        const branching::SweepResult swept = branching::sweep(compiled.network, time, until, v, rough);
        for (std::size_t i = 0; i < v.size(); ++i) v[i] = std::clamp(swept.failure[i][0], 0.0, 1.0);
        until = time;
        for (const std::uint32_t c : cells) {
            const Introduction& from = sources.of(c);
            const auto stage = static_cast<std::size_t>(stage_of(from.kind));
            const branching::TypeIndex type = compiled.layout.first[classes.class_of[from.place]][stage];
            found[c] = sources.cells[c].chance * v[type];
        }
    }
    return found;
}

}  // namespace mitefall::belief
