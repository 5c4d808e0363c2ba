#pragma once

#include <functional>
#include <vector>

#include "branching/lanes.h"
#include "branching/sweep.h"

namespace mitefall::branching {

/// Slope of the state after `elapsed` days of the current smooth stretch.
using Slope = std::function<void(double elapsed, const std::vector<Lanes>& state, std::vector<Lanes>& slope)>;

/// Adaptive Runge-Kutta of order 5(4) (Dormand & Prince 1980, table 2), all draws sharing each step.
/// Keeps its work space and its step size from stretch to stretch.
class Integrator {
  public:
    Integrator(std::size_t size, Tolerance tolerance);

    /// Advances `state` by `length` days over a stretch on which the slope is smooth.
    /// Throws ContractViolation if the step size collapses (a rate that is not finite).
    void advance(std::vector<Lanes>& state, double length, const Slope& slope);

    [[nodiscard]] std::size_t steps() const { return steps_; }

  private:
    [[nodiscard]] double try_step(const std::vector<Lanes>& state, double elapsed, const Slope& slope);

    Tolerance tolerance_;
    std::vector<std::vector<Lanes>> slopes_;
    std::vector<Lanes> stage_;
    double step_ = 0.02;
    std::size_t steps_ = 0;
};

}  // namespace mitefall::branching
