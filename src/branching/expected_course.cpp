#include "branching/expected_course.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "base/contract.h"
#include "branching/integrator.h"
#include "branching/kernel.h"
#include "branching/solver.h"
#include "branching/timeline.h"

namespace mitefall::branching {
namespace {

using base::expects;

/// v of some types over one stretch, as the solver stepped through it: cubics through values and slopes.
class Trace {
  public:
    /// Of mothers and their young: the types births depend on.
    explicit Trace(const Network& network) : slot_of_type_(network.type_count, no_type) {
        for (const Run& run : network.runs) {
            for (std::uint32_t b = run.births.first; b < run.births.first + run.births.count; ++b) {
                add(network.births[b].target);
                for (std::uint32_t s = 0; s < run.count; ++s) add(run.first + s);
            }
        }
    }

    /// Sweeps over the stretch from `end` to `begin`. `v` (per type): just before the jumps at `end`.
    void sweep(BackwardSolver& solver, double begin, double end, std::vector<Lanes> v) {
        knots_.clear();
        v.push_back({});
        solver.go_back(begin, end, v,
                       [&](double time, const std::vector<Lanes>& cells, const std::vector<Lanes>& slopes) {
                           Knot& knot = knots_.emplace_back();
                           knot.time = time;
                           for (const TypeIndex type : types_) {
                               const TypeIndex cell = solver.cell_of(type);
                               knot.values.push_back(cells[cell]);
                               knot.slopes.push_back(slopes[cell]);
                           }
                       });
        std::reverse(knots_.begin(), knots_.end());
    }

    /// v of mothers and young at `time`, within the stretch.
    void look_up(double time) {
        auto next = std::partition_point(knots_.begin() + 1, knots_.end() - 1,
                                         [&](const Knot& knot) { return knot.time < time; });
        const Knot& a = *std::prev(next);
        const Knot& b = *next;
        const double length = b.time - a.time;
        const double x = (time - a.time) / length;
        // Slopes are those of the sweep, which goes back in time.
        const double weight[4] = {1 + x * x * (2 * x - 3), -length * x * (1 + x * (x - 2)),
                                  x * x * (3 - 2 * x), -length * x * x * (x - 1)};
        now_.resize(types_.size());
        for (std::size_t i = 0; i < types_.size(); ++i) {
            now_[i] = for_each_lane([&](std::size_t lane) {
                return weight[0] * a.values[i][lane] + weight[1] * a.slopes[i][lane] +
                       weight[2] * b.values[i][lane] + weight[3] * b.slopes[i][lane];
            });
        }
    }

    [[nodiscard]] const Lanes& at(TypeIndex type) const { return now_[slot_of_type_[type]]; }

  private:
    struct Knot {
        double time = 0;
        std::vector<Lanes> values;  ///< per traced type
        std::vector<Lanes> slopes;
    };

    void add(TypeIndex type) {
        if (slot_of_type_[type] != no_type) return;
        slot_of_type_[type] = static_cast<TypeIndex>(types_.size());
        types_.push_back(type);
    }

    std::vector<TypeIndex> slot_of_type_;
    std::vector<TypeIndex> types_;
    std::vector<Knot> knots_;  ///< ascending
    std::vector<Lanes> now_;
};

/// The terms of births that the condition takes away.
void condition_births(const Network& network, const std::vector<Lanes>& values, const Trace& trace,
                      const std::vector<Lanes>& w, std::vector<Lanes>& slope) {
    for (const Run& run : network.runs) {
        for (std::uint32_t b = run.births.first; b < run.births.first + run.births.count; ++b) {
            const TypeIndex child = network.births[b].target;
            const Lanes& rate = values[network.births[b].rate];
            const Lanes& v_child = trace.at(child);
            for (TypeIndex mother = run.first; mother < run.first + run.count; ++mother) {
                const Lanes& v_mother = trace.at(mother);
                for (std::size_t lane = 0; lane < lane_count; ++lane) {
                    const double born = rate[lane] * w[mother][lane];
                    slope[child][lane] -= born * v_mother[lane];
                    slope[mother][lane] -= born * v_child[lane];
                }
            }
        }
    }
}

void advance(const Network& network, double begin, double end, Integrator& integrator, Trace* trace,
             std::vector<Lanes>& w) {
    const Stretch stretch = stretch_between(network, begin, end);
    std::vector<Lanes> hazard(network.runs.size());
    integrator.advance(
        w, end - begin, [&](double elapsed, const std::vector<Lanes>& state, std::vector<Lanes>& slope) {
            hazards_at(stretch, begin + elapsed, hazard);
            derive_forward(network, {stretch.values->data(), hazard.data()}, state.data(), slope.data());
            for (const Source* const source : stretch.sources) {
                for (std::size_t lane = 0; lane < lane_count; ++lane)
                    slope[source->target][lane] += source->rate[lane];
            }
            if (trace == nullptr) return;
            trace->look_up(std::min(begin + elapsed, end));
            condition_births(network, *stretch.values, *trace, state, slope);
        });
}

/// `conditional`: a check at this instant finds nothing, so whom it would have seen is not there.
void pass_forward(const Jump& jump, bool conditional, std::vector<Lanes>& w) {
    for (std::uint32_t s = 0; s < jump.count; ++s) {
        Lanes& here = w[jump.first + s];
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            if (jump.target != no_type) w[jump.target + s][lane] += jump.move[lane] * here[lane];
            here[lane] *= jump.keep[lane] + (conditional ? 0.0 : jump.seen[lane]);
        }
    }
}

std::vector<Lanes> scaled(std::vector<Lanes> numbers, const std::vector<Lanes>& v, bool divide) {
    for (std::size_t i = 0; i < v.size(); ++i) {
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            const double h = std::max(0.0, 1 - v[i][lane]);
            if (!divide)
                numbers[i][lane] *= h;
            else if (numbers[i][lane] > 0)
                numbers[i][lane] /= h;
        }
    }
    return numbers;
}

/// The last check up to `until`; no_condition if there is none.
double last_check(const Network& network, double from, double until) {
    double last = ExpectedCourse::no_condition;
    for (const Jump& jump : network.jumps) {
        const bool is_check = *std::max_element(jump.seen.x.begin(), jump.seen.x.end()) > 0;
        if (is_check && jump.time >= from && jump.time <= until) last = jump.time;
    }
    return last;
}

}  // namespace

ExpectedCourse::ExpectedCourse(const Network& network, double from, std::vector<double> times,
                               double clean_until, Tolerance tolerance)
    : network_(network), times_(std::move(times)), tolerance_(tolerance) {
    expects(!times_.empty() && times_.front() >= from &&
                std::adjacent_find(times_.begin(), times_.end(), std::greater_equal<>()) == times_.end(),
            "reported times ascend from the start");
    check_network(network);
    clean_until_ = last_check(network, from, clean_until);
    bounds_ = smooth_bounds(network, from, std::max(times_.back(), clean_until_));
    bounds_.insert(bounds_.end(), times_.begin(), times_.end());
    std::sort(bounds_.begin(), bounds_.end());
    bounds_.erase(std::unique(bounds_.begin(), bounds_.end()), bounds_.end());
    checks_.failure.resize(network.type_count);
    if (clean_until_ > no_condition) sweep_checks();
}

/// From the last check on v is 0.
void ExpectedCourse::sweep_checks() {
    v_at_bound_.resize(bounds_.size());
    BackwardSolver solver(network_, tolerance_);
    std::vector<Lanes> v(network_.type_count + 1);
    std::size_t pending = network_.jumps.size();
    while (pending > 0 && network_.jumps[pending - 1].time > clean_until_) --pending;
    const auto beyond = std::upper_bound(bounds_.begin(), bounds_.end(), clean_until_);
    const auto last = static_cast<std::size_t>(beyond - bounds_.begin()) - 1;
    for (std::size_t i = last + 1; i-- > 0;) {
        if (i < last) solver.go_back(bounds_[i], bounds_[i + 1], v);
        for (; pending > 0 && network_.jumps[pending - 1].time >= bounds_[i]; --pending)
            pass_backward(network_.jumps[pending - 1], v);
        v_at_bound_[i].assign(v.begin(), v.end() - 1);
    }
    checks_.imported = v.back();
    v.pop_back();
    checks_.failure = std::move(v);
    checks_.steps = solver.steps();
}

std::vector<std::vector<Lanes>> ExpectedCourse::follow(const std::vector<Lanes>& start) const {
    expects(start.size() == network_.type_count, "a starting number for every type");
    std::vector<Lanes> w = scaled(start, checks_.failure, true);
    Integrator integrator(w.size(), tolerance_);
    BackwardSolver solver(network_, tolerance_);
    Trace trace(network_);
    std::vector<std::vector<Lanes>> course;
    std::size_t next_jump = 0;
    while (next_jump < network_.jumps.size() && network_.jumps[next_jump].time < bounds_.front()) ++next_jump;
    for (std::size_t i = 0; i < bounds_.size() && course.size() < times_.size(); ++i) {
        const bool conditional = is_conditional(bounds_[i]);
        if (std::binary_search(times_.begin(), times_.end(), bounds_[i]))
            course.push_back(conditional ? scaled(w, v_at_bound_[i], false) : w);
        if (course.size() == times_.size()) break;
        for (; next_jump < network_.jumps.size() && network_.jumps[next_jump].time <= bounds_[i]; ++next_jump)
            pass_forward(network_.jumps[next_jump], conditional, w);
        const bool traced = is_conditional(bounds_[i + 1]);
        if (traced) trace.sweep(solver, bounds_[i], bounds_[i + 1], v_at_bound_[i + 1]);
        advance(network_, bounds_[i], bounds_[i + 1], integrator, traced ? &trace : nullptr, w);
    }
    return course;
}

std::vector<std::vector<Lanes>> expected_course(const Network& network, double from,
                                                const std::vector<Lanes>& start,
                                                const std::vector<double>& times, Tolerance tolerance) {
    return ExpectedCourse(network, from, times, ExpectedCourse::no_condition, tolerance).follow(start);
}

}  // namespace mitefall::branching
