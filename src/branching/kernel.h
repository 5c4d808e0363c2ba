#pragma once

#include <vector>

#include "branching/network.h"

// The inner loops, compiled for several instruction sets and chosen when the program runs.
namespace mitefall::branching {

/// Rates in force at one moment: a value table and the hazard on each run.
struct Moment {
    const Lanes* values = nullptr;
    const Lanes* hazard = nullptr;  ///< one per run
};

/// Derivative of the expected numbers m with respect to time.
void derive_forward(const Network& network, Moment moment, const Lanes* m, Lanes* dm);

/// out = y + step * sum_j weight[j] * slope[j], over n elements.
void combine(const Lanes* y, double step, const std::vector<double>& weights,
             const std::vector<std::vector<Lanes>>& slopes, Lanes* out, std::size_t n);

/// max_i |step * sum_j weight[j] * slope[j]_i| / (absolute + relative * max(|a_i|, |b_i|)).
[[nodiscard]] double scaled_error(const Lanes* a, const Lanes* b, double step,
                                  const std::vector<double>& weights,
                                  const std::vector<std::vector<Lanes>>& slopes, std::size_t n,
                                  double absolute, double relative);

}  // namespace mitefall::branching
