#include "branching/solver.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <type_traits>

#include "base/contract.h"

namespace mitefall::branching {
namespace {

constexpr double longest_step = 2;         // days
constexpr double smallest_step = 0x1p-30;  // days; a tenth of a millisecond
constexpr double error_wanted = 0.6;       // after the step was lengthened
constexpr double least_error_ratio = 4;    // of a step twice as long; at most 60
constexpr double greatest_error_ratio = 60;
constexpr std::size_t odd_lengths_kept = 12;  // weights of lengths that are no power of two

/// Level of a hazard at `time`, summed over its windows.
Lanes level_at(const std::vector<const HazardWindow*>& windows, double time) {
    Lanes level;
    for (const HazardWindow* const window : windows) {
        const Lanes one = level_of(*window, time);
        for (std::size_t lane = 0; lane < lane_count; ++lane) level[lane] += one[lane];
    }
    return level;
}

/// The same integrated over time.
Lanes past_through(const std::vector<const HazardWindow*>& windows, double begin, double end) {
    Lanes sum;
    for (const HazardWindow* const window : windows) {
        const Lanes one = hazard_through(*window, begin, end);
        for (std::size_t lane = 0; lane < lane_count; ++lane) sum[lane] += one[lane];
    }
    return sum;
}

bool is_same(const HazardWindow& a, const HazardWindow& b) {
    return a.decays_from.x == b.decays_from.x && a.level.x == b.level.x && a.half_life.x == b.half_life.x;
}

bool are_same(const std::vector<const HazardWindow*>& a, const std::vector<const HazardWindow*>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const HazardWindow* x, const HazardWindow* y) { return is_same(*x, *y); });
}

template <class L>
StepHazard<L> no_hazard() {
    StepHazard<L> none;
    for (int i = 0; i < 2; ++i) none.survive[i] = none.recover[i] = L::all(1);
    return none;
}

/// A hazard that spares less than exp(-60) of what it meets spares nothing; the reciprocal of more would not
/// be a number in single precision.
template <class L>
constexpr double most_hazard = std::is_same_v<typename L::Number, float>
                                   ? 60.0
                                   : std::numeric_limits<double>::infinity();

}  // namespace

template <class L>
SolverOf<L>::SolverOf(const Networks& networks, Tolerance tolerance)
    : networks_(networks), split_(split(*networks.front())), tolerance_(tolerance) {
    base::expects(tolerance.relative > 0 && tolerance.absolute > 0, "tolerances are positive");
    const std::size_t cells = split_.type_of_cell.size();
    for (auto* const array : {&cells_, &end_cells_, &slope_, &end_slope_}) array->resize(cells);
    types_.resize(networks.front()->type_count);
    end_types_.resize(networks.front()->type_count);
    work_.resize(3 * cells);
    chain_work_.resize(split_.chains.size());
    chain_weights_.resize(split_.chains.size());
    speed_of_chain_.resize(split_.chains.size());
    group_of_run_.resize(split_.open_runs.size() + split_.chains.size());
}

template <class L>
void SolverOf<L>::go_back(double begin, double end, std::vector<L>& v, const Witness& witness) {
    enter(begin, end);
    load(v);
    const double length = end - begin;
    double elapsed = 0;
    set_hazards(0, end);
    initial_slope(step_of(0), slope_.data());
    if (witness) witness(end, cells_, slope_);
    while (elapsed < length) {
        const double left = length - elapsed;
        double now = step_;
        while (now - left > smallest_step) now /= 2;
        // A length that is off by less than the smallest step is that length: no weights are worked out anew.
        const bool last = left - now < smallest_step;
        set_length(now, elapsed, end);
        const double error = take_step(step_of(now));
        ++steps_;
        if (lengthened_at_ > 0 && now == step_) {
            const double ratio = std::isfinite(error) ? error / lengthened_at_ : greatest_error_ratio;
            error_ratio_ = std::clamp(ratio, least_error_ratio, greatest_error_ratio);
        }
        lengthened_at_ = 0;
        if (error <= 1) {
            elapsed = last ? length : elapsed + now;
            cells_.swap(end_cells_);
            slope_.swap(end_slope_);
            types_.swap(end_types_);
            if (witness) witness(last ? begin : end - elapsed, cells_, slope_);
            if (error * error_ratio_ < error_wanted && now >= step_ && step_ < longest_step) {
                step_ *= 2;
                lengthened_at_ = error;
            }
        } else {
            step_ = std::exp2(std::floor(std::log2(now * 0.75)));
            base::expects(step_ > smallest_step, "every rate of the network is finite");
        }
    }
    unload(v);
}

template <class L>
void SolverOf<L>::begin_anew() {
    step_ = first_step;
    error_ratio_ = usual_error_ratio;
    lengthened_at_ = 0;
}

template <class L>
TypeIndex SolverOf<L>::cell_of(TypeIndex type) const {
    const TypeIndex cell = split_.cell_of_type.at(type);
    base::expects(cell != no_type, "the first substage of a chain, or a type of another run");
    return cell;
}

template <class L>
void SolverOf<L>::enter(double begin, double end) {
    std::array<Stretch, blocks> stretches;
    for (std::size_t b = 0; b < blocks; ++b) stretches[b] = stretch_between(*networks_[b], begin, end);
    read_values(stretches);
    sources_.clear();
    for (std::size_t s = 0; s < stretches.front().sources.size(); ++s) {
        const TypeIndex cell = split_.cell_of_type[stretches.front().sources[s]->target];
        sources_.push_back(
            {cell, from_blocks<L>([&](std::size_t b) { return stretches[b].sources[s]->rate; })});
    }
    group_hazards(stretches);
}

template <class L>
void SolverOf<L>::read_values(const std::array<Stretch, blocks>& stretches) {
    std::array<const std::vector<Lanes>*, blocks> tables{};
    for (std::size_t b = 0; b < blocks; ++b) tables[b] = stretches[b].values;
    if (tables == tables_) return;
    tables_ = tables;
    weighted_for_ = 0;
    const auto number = [&](std::size_t value) {
        return [&stretches, value](std::size_t b) -> const Lanes& { return (*stretches[b].values)[value]; };
    };
    values_.resize(tables_.front()->size());
    for (std::size_t value = 0; value < values_.size(); ++value)
        values_[value] = from_blocks<L>(number(value));
    for (std::size_t c = 0; c < split_.chains.size(); ++c) {
        const Chain& chain = split_.chains[c];
        Speed speed;
        speed.count = chain.count;
        for (std::size_t b = 0; b < blocks; ++b) {
            speed.advance[b] = (*stretches[b].values)[chain.advance];
            speed.loss[b] = (*stretches[b].values)[chain.loss];
        }
        const auto known = std::find(speeds_.begin(), speeds_.end(), speed);
        speed_of_chain_[c] = static_cast<std::uint32_t>(known - speeds_.begin());
        if (known == speeds_.end()) speeds_.push_back(speed);
    }
    weights_.resize(speeds_.size());
}

template <class L>
void SolverOf<L>::group_hazards(const std::array<Stretch, blocks>& stretches) {
    std::vector<Windows> of_run(networks_.front()->runs.size());
    for (std::size_t b = 0; b < blocks; ++b) {
        for (const HazardWindow* const window : stretches[b].hazards) {
            for (const std::uint32_t run : window->runs) of_run[run][b].push_back(window);
        }
    }
    groups_.assign(1, {});
    const auto group_of = [&](std::uint32_t run) {
        const auto known = std::find_if(groups_.begin(), groups_.end(), [&](const Windows& group) {
            return std::equal(group.begin(), group.end(), of_run[run].begin(), are_same);
        });
        const auto index = static_cast<std::uint32_t>(known - groups_.begin());
        if (known == groups_.end()) groups_.push_back(of_run[run]);
        return index;
    };
    const std::size_t open = split_.open_runs.size();
    for (std::size_t r = 0; r < open; ++r) group_of_run_[r] = group_of(split_.open_runs[r]);
    for (std::size_t c = 0; c < split_.chains.size(); ++c)
        group_of_run_[open + c] = group_of(split_.chains[c].run);
    hazards_.assign(groups_.size(), no_hazard<L>());
}

template <class L>
void SolverOf<L>::load(const std::vector<L>& v) {
    const TypeIndex types = networks_.front()->type_count;
    std::copy_n(v.begin(), types, types_.begin());
    for (std::size_t cell = 0; cell < cells_.size(); ++cell)
        cells_[cell] = cell == split_.imported() ? v[types] : v[split_.type_of_cell[cell]];
}

template <class L>
void SolverOf<L>::unload(std::vector<L>& v) const {
    for (const Chain& chain : split_.chains)
        std::copy_n(types_.begin() + chain.first, chain.count, v.begin() + chain.first);
    for (std::size_t cell = 0; cell <= split_.imported(); ++cell)
        v[cell == split_.imported() ? networks_.front()->type_count : split_.type_of_cell[cell]] =
            cells_[cell];
}

template <class L>
void SolverOf<L>::set_length(double step, double elapsed, double end) {
    set_hazards(step, end - elapsed);
    if (step == weighted_for_) return;
    weighted_for_ = step;
    for (std::size_t c = 0; c < split_.chains.size(); ++c)
        chain_weights_[c] =
            ChainWeights<L>::within(weights_for(speed_of_chain_[c], step), split_.chains[c].count);
}

/// Going back in time from `time`.
template <class L>
void SolverOf<L>::set_hazards(double step, double time) {
    for (std::size_t g = 1; g < groups_.size(); ++g) {
        StepHazard<L>& hazard = hazards_[g];
        for (int i = 0; i < 3; ++i)
            hazard.level[i] =
                from_blocks<L>([&](std::size_t b) { return level_at(groups_[g][b], time - step * i / 2); });
        for (int i = 0; i < 2; ++i) {
            Numbers survive;
            Numbers recover;
            for (std::size_t b = 0; b < blocks; ++b) {
                const Lanes past = past_through(groups_[g][b], time - step * (i + 1) / 2, time);
                for (std::size_t lane = 0; lane < lane_count; ++lane) {
                    survive[b][lane] = std::exp(-std::min(past[lane], most_hazard<L>));
                    recover[b][lane] = 1 / survive[b][lane];
                }
            }
            hazard.survive[i] = from_blocks<L>([&](std::size_t b) { return survive[b]; });
            hazard.recover[i] = from_blocks<L>([&](std::size_t b) { return recover[b]; });
        }
    }
}

template <class L>
const L* SolverOf<L>::weights_for(std::size_t speed, double step) {
    std::vector<WeightBlock>& known = weights_[speed];
    const auto found = std::find_if(known.begin(), known.end(),
                                    [&](const WeightBlock& block) { return block.step == step; });
    if (found != known.end()) return found->lanes.data();
    if (known.size() > 2 * odd_lengths_kept) known.erase(known.begin(), known.begin() + odd_lengths_kept);
    const Speed& s = speeds_[speed];
    std::array<std::vector<Lanes>, blocks> exact;
    for (std::size_t b = 0; b < blocks; ++b) {
        exact[b].resize(ChainWeights<L>::size(s.count));
        fill_chain_weights(s.advance[b], s.loss[b], s.count, step, exact[b].data());
    }
    WeightBlock block{step, std::vector<L>(exact.front().size())};
    for (std::size_t i = 0; i < block.lanes.size(); ++i)
        block.lanes[i] = from_blocks<L>([&](std::size_t b) -> const Lanes& { return exact[b][i]; });
    known.push_back(std::move(block));
    return known.back().lanes.data();
}

template <class L>
Step<L> SolverOf<L>::step_of(double length) {
    Step<L> step;
    step.split = &split_;
    step.values = values_.data();
    step.hazard_of_run = group_of_run_.data();
    step.hazards = hazards_.data();
    step.weights = chain_weights_.data();
    step.sources = sources_.data();
    step.source_count = sources_.size();
    step.length = length;
    step.absolute = tolerance_.absolute;
    step.relative = tolerance_.relative;
    step.start = cells_.data();
    step.slope = slope_.data();
    step.types = types_.data();
    step.end = end_cells_.data();
    step.end_slope = end_slope_.data();
    step.end_types = end_types_.data();
    step.work = work_.data();
    step.chain_work = chain_work_.data();
    return step;
}

template class SolverOf<Lanes>;
template class SolverOf<SingleLanes>;
template class SolverOf<PairedLanes>;

}  // namespace mitefall::branching
