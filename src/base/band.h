#pragma once

#include <utility>
#include <vector>

namespace mitefall::base {

/// Mean and range over the draws of an ensemble. The range is what lies between the 10 and the 90 % points,
/// and reaches to the mean where a few draws pull that out of it: a range always holds the number it stands
/// beside.
struct Band {
    double mean = 0;
    double p10 = 0;  ///< never above the mean
    double p90 = 0;  ///< never below it
};

/// The range that lies between two quantiles and holds the mean.
[[nodiscard]] Band band_between(double p10, double mean, double p90);

/// Quantiles are the order statistics nearest to 10 and 90 %: of n values in order, counted from 0, those
/// numbered 0.1 (n - 1) and 0.9 (n - 1), rounded, halves up.
[[nodiscard]] Band band_of(std::vector<double> values);

/// The same with weights, not negative: quantiles are the smallest values with that share of the weight at or
/// below them. Values of weight 0 do not count, whatever they are.
[[nodiscard]] Band band_of(const std::vector<double>& values, const std::vector<double>& weights);

/// The smallest value with at least the share `q` of the weight at or below it; NaN without weight.
[[nodiscard]] double weighted_quantile(std::vector<std::pair<double, double>> values_and_weights, double q);

/// Bayes' rule over draws: `prior` (not negative) times exp(`log_likelihood`), together 1. Draws of prior 0
/// stay 0, whatever their likelihood. All 0 if no draw can have shown what was seen.
[[nodiscard]] std::vector<double> weigh(const std::vector<double>& prior,
                                        const std::vector<double>& log_likelihood);

}  // namespace mitefall::base
