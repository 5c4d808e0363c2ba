#include "branching/integrator.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"
#include "branching/kernel.h"

namespace mitefall::branching {
namespace {

constexpr int stage_count = 7;
constexpr double smallest_forward_step = 1e-9;  // days; a tenth of a millisecond

// Dormand & Prince 1980, table 2 (RK5(4)7M).
const std::vector<double> nodes{0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1};
const std::vector<std::vector<double>> couplings{
    {},
    {1.0 / 5},
    {3.0 / 40, 9.0 / 40},
    {44.0 / 45, -56.0 / 15, 32.0 / 9},
    {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
    {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
    {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
};
/// Fifth order minus embedded fourth order.
const std::vector<double> error_weights{71.0 / 57600,      0,          -71.0 / 16695, 71.0 / 1920,
                                        -17253.0 / 339200, 22.0 / 525, -1.0 / 40};

}  // namespace

Integrator::Integrator(std::size_t size, Tolerance tolerance)
    : tolerance_(tolerance), slopes_(stage_count, std::vector<Lanes>(size)), stage_(size) {
    base::expects(tolerance.relative > 0 && tolerance.absolute > 0, "tolerances are positive");
}

double Integrator::try_step(const std::vector<Lanes>& state, double elapsed, const Slope& slope) {
    for (std::size_t stage = 1; stage < stage_count; ++stage) {
        combine(state.data(), step_, couplings[stage], slopes_, stage_.data(), state.size());
        slope(elapsed + nodes[stage] * step_, stage_, slopes_[stage]);
    }
    return scaled_error(state.data(), stage_.data(), step_, error_weights, slopes_, state.size(),
                        tolerance_.absolute, tolerance_.relative);
}

void Integrator::advance(std::vector<Lanes>& state, double length, const Slope& slope) {
    double elapsed = 0;
    slope(elapsed, state, slopes_[0]);
    while (elapsed < length) {
        const double wanted = step_;
        const bool last = elapsed + step_ >= length * (1 - 1e-14);
        if (last) step_ = length - elapsed;
        const double error = try_step(state, elapsed, slope);
        ++steps_;
        const double factor = std::isfinite(error) ? 0.9 * std::pow(std::max(error, 1e-10), -0.2) : 0.1;
        if (error <= 1) {
            elapsed = last ? length : elapsed + step_;
            state.swap(stage_);
            slopes_[0].swap(slopes_[6]);  // the last slope is the first of the next step
            step_ = last ? std::max(wanted, step_) : step_ * std::clamp(factor, 0.2, 5.0);
        } else {
            step_ *= std::clamp(factor, 0.1, 0.9);
            base::expects(step_ > smallest_forward_step, "every rate of the network is finite");
        }
    }
}

}  // namespace mitefall::branching
