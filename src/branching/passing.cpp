#include "branching/passing.h"

#include <algorithm>
#include <boost/numeric/odeint.hpp>

#include "base/contract.h"
#include "branching/timeline.h"

namespace mitefall::branching {
namespace {

namespace odeint = boost::numeric::odeint;

/// q of every type for one question, then for the other.
using State = std::vector<double>;

constexpr double relative = 1e-9;
constexpr double first_step = 1e-3;  // days

/// One draw on one smooth stretch; its time runs back from `end`.
class Slope {
  public:
    Slope(const Network& network, const Stretch& stretch, double end, std::size_t lane)
        : network_(network), stretch_(stretch), end_(end), lane_(lane), hazard_(network.runs.size()) {}

    void operator()(const State& q, State& slope, double back) {
        std::fill(hazard_.begin(), hazard_.end(), 0.0);
        for (const HazardWindow* const window : stretch_.hazards) {
            const double level = level_of(*window, end_ - back)[lane_];
            for (const std::uint32_t run : window->runs) hazard_[run] += level;
        }
        for (std::size_t first : {std::size_t{0}, std::size_t{network_.type_count}}) {
            for (std::size_t r = 0; r < network_.runs.size(); ++r)
                of_run(network_.runs[r], hazard_[r], q.data() + first, slope.data() + first);
        }
    }

  private:
    [[nodiscard]] double value(ValueIndex index) const { return (*stretch_.values)[index][lane_]; }

    void of_run(const Run& run, double hazard, const double* q, double* slope) const {
        const double advance = value(run.advance);
        const double death = value(run.loss) + hazard;
        double beyond = 1;  // who goes nowhere is dead, and passes
        for (std::uint32_t e = run.ends.first; e < run.ends.first + run.ends.count; ++e)
            beyond += value(network_.ends[e].share) * (q[network_.ends[e].target] - 1);
        double born = 0;
        for (std::uint32_t b = run.births.first; b < run.births.first + run.births.count; ++b)
            born += value(network_.births[b].rate) * (q[network_.births[b].target] - 1);
        for (std::uint32_t m = run.count; m-- > 0;) {
            const double here = q[run.first + m];
            double sum = advance * (beyond - here) + death * (1 - here) + born * here;
            for (std::uint32_t e = run.exits.first; e < run.exits.first + run.exits.count; ++e) {
                const Exit& exit = network_.exits[e];
                sum += value(exit.rate) * (q[exit.target + (exit.same_substage ? m : 0)] - here);
            }
            slope[run.first + m] = sum;
            beyond = here;
        }
    }

    const Network& network_;
    const Stretch& stretch_;
    double end_;
    std::size_t lane_;
    std::vector<double> hazard_;  ///< per run
};

/// q just before the jump, from q just after it. A check kills nobody: what it does not show goes on.
void pass(const Jump& jump, std::size_t lane, double* q) {
    const double keep = jump.keep[lane];
    const double move = jump.move[lane];
    const double dies = jump.seen[lane] > 0 ? 0.0 : std::max(0.0, 1 - keep - move);
    for (std::uint32_t m = 0; m < jump.count; ++m) {
        const double there = jump.target == no_type ? 0.0 : q[jump.target + m];
        q[jump.first + m] = dies + keep * q[jump.first + m] + move * there;
    }
}

class Sweeper {
  public:
    Sweeper(const Network& network, double from, double to) : network_(network), from_(from), to_(to) {}

    State sweep(const std::vector<double>& at_horizon, std::size_t lane) {
        State q(2 * std::size_t{network_.type_count}, 1.0);
        for (std::size_t i = 0; i < at_horizon.size(); ++i) q[i] = 1 - at_horizon[i];
        const std::vector<double> bounds = smooth_bounds(network_, from_, to_);
        std::size_t pending = network_.jumps.size();
        for (std::size_t i = bounds.size(); i-- > 0;) {
            for (; pending > 0 && network_.jumps[pending - 1].time >= bounds[i]; --pending) {
                if (network_.jumps[pending - 1].time > to_) continue;
                pass(network_.jumps[pending - 1], lane, q.data());
                pass(network_.jumps[pending - 1], lane, q.data() + network_.type_count);
            }
            if (i > 0) go_back(bounds[i - 1], bounds[i], lane, q);
        }
        return q;
    }

  private:
    /// What passes the checks tells how small an error matters: that is never 0.
    void go_back(double begin, double end, std::size_t lane, State& q) const {
        const double least =
            *std::min_element(q.begin() + static_cast<std::ptrdiff_t>(network_.type_count), q.end());
        if (!(least > 0)) return;  // nothing passes: there is nothing to tell
        const Stretch stretch = stretch_between(network_, begin, end);
        odeint::integrate_adaptive(
            odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(relative * least, relative),
            Slope(network_, stretch, end, lane), q, 0.0, end - begin, std::min(first_step, end - begin));
    }

    const Network& network_;
    double from_;
    double to_;
};

}  // namespace

Passing passing(const Network& network, double from, double to, const std::vector<double>& at_horizon) {
    base::expects(at_horizon.size() == network.type_count, "a value at the horizon for every type");
    check_network(network);
    Passing result{std::vector<Lanes>(network.type_count), std::vector<Lanes>(network.type_count)};
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const State q = Sweeper(network, from, to).sweep(at_horizon, lane);
        for (std::size_t i = 0; i < network.type_count; ++i) {
            result.clear[i][lane] = std::clamp(q[i], 0.0, 1.0);
            result.clean[i][lane] = std::clamp(q[network.type_count + i], 0.0, 1.0);
        }
    }
    return result;
}

}  // namespace mitefall::branching
