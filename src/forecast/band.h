#pragma once

#include <vector>

namespace mitefall::forecast {

/// Mean and band over the draws of an ensemble.
struct Band {
    double mean = 0;
    double p10 = 0;
    double p90 = 0;
};

/// Quantiles are the order statistics nearest to 10 and 90 %.
[[nodiscard]] Band band_of(std::vector<double> values);

/// The same with weights, not negative: quantiles are the smallest values with that share of the weight at or
/// below them. Values of weight 0 do not count, whatever they are.
[[nodiscard]] Band band_of(const std::vector<double>& values, const std::vector<double>& weights);

}  // namespace mitefall::forecast
