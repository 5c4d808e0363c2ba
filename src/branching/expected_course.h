#pragma once

#include <limits>
#include <vector>

#include "branching/sweep.h"

namespace mitefall::branching {

/// Expected numbers of particles, read forward; on condition, if asked for, that every check up to a moment
/// finds nothing.
///
/// With h_i(t) = 1 - v_i(t) the chance that one particle alive at t makes none of these checks fail, the
/// process so conditioned is a branching process again (Doob's transform): rates r_ij h_j / h_i, deaths mu_i
/// / h_i, births b_ie h_e. Its expected numbers are M_i = h_i w_i, and putting that into their equations
/// leaves
///   dw_i/dt = sum_j r_ji w_j - (sum_j r_ij + mu_i) w_i + sum_j b_ji h_j w_j - w_i sum_e b_ie v_e:
/// the process as it is, but for births. v comes from a sweep, kept at the instants between smooth stretches
/// and swept again over each stretch on the way forward.
class ExpectedCourse {
  public:
    static constexpr double no_condition = -std::numeric_limits<double>::infinity();

    /// `times`: of the answers, ascending, not before `from`. `clean_until`: checks at this time and before
    /// are taken to find nothing, others to change nothing. Keeps a reference to the network.
    ExpectedCourse(const Network& network, double from, std::vector<double> times, double clean_until,
                   Tolerance tolerance);

    /// What a sweep over these checks alone says at `from`; zeros without any.
    [[nodiscard]] const SweepResult& checks() const { return checks_; }

    /// The expected number of each type at each time, just before any jump at that instant, so that a sweep
    /// may take over from there. `start`: at `from`, on the same condition.
    [[nodiscard]] std::vector<std::vector<Lanes>> follow(const std::vector<Lanes>& start) const;

  private:
    void sweep_checks();
    [[nodiscard]] bool is_conditional(double time) const { return time <= clean_until_; }

    const Network& network_;
    std::vector<double> times_;
    double clean_until_;
    Tolerance tolerance_;
    std::vector<double> bounds_;                  ///< of smooth stretches, and times_
    std::vector<std::vector<Lanes>> v_at_bound_;  ///< just before the jumps there; empty: zeros
    SweepResult checks_;
};

/// The same without condition, once. Dormand & Prince 1980 (J. Comput. Appl. Math. 6:19-26).
[[nodiscard]] std::vector<std::vector<Lanes>> expected_course(const Network& network, double from,
                                                              const std::vector<Lanes>& start,
                                                              const std::vector<double>& times,
                                                              Tolerance tolerance = {});

}  // namespace mitefall::branching
