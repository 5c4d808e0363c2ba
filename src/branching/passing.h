#pragma once

#include <vector>

#include "branching/network.h"

namespace mitefall::branching {

/// Chances of one particle, per type and draw, just before what happens at `from`.
struct Passing {
    std::vector<Lanes> clear;  ///< that nothing that counts is alive at the horizon and every check is clean
    std::vector<Lanes> clean;  ///< that every check is clean
};

/// The sweep once more in q = 1 - v, for particles that checks all but certainly show: there 1 - v is lost in
/// rounding, and with it the ratio of the two chances. One draw at a time, by the method of Dormand & Prince
/// (1980) from Boost.Odeint; some hundred times slower than sweep.h.
///   dq_i/dtau = sum_j r_ij (q_j - q_i) + mu_i (1 - q_i) + q_i sum_e b_ie (q_e - 1)
/// `at_horizon`: per type, 1 where a survivor counts, else 0. Throws ContractViolation on a malformed
/// network.
[[nodiscard]] Passing passing(const Network& network, double from, double to,
                              const std::vector<double>& at_horizon);

}  // namespace mitefall::branching
