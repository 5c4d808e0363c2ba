#include "base/band.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/contract.h"

namespace mitefall::base {

double weighted_quantile(std::vector<std::pair<double, double>> values, double q) {
    constexpr double rounding = 1e-12;  // of a sum of weights
    if (values.empty()) return std::nan("");
    std::sort(values.begin(), values.end());
    double all = 0;
    for (const auto& [value, weight] : values) all += weight;
    double up_to = 0;
    for (const auto& [value, weight] : values) {
        up_to += weight;
        if (up_to >= q * all * (1 - rounding)) return value;
    }
    return values[values.size() - 1].first;
}

Band band_between(double p10, double mean, double p90) {
    return {mean, std::min(p10, mean), std::max(p90, mean)};
}

Band band_of(std::vector<double> values) {
    base::expects(!values.empty(), "a band has values");
    double mean = 0;
    for (const double value : values) mean += value / static_cast<double>(values.size());
    std::sort(values.begin(), values.end());
    mean = std::clamp(mean, values.front(), values.back());  // rounding may take it out
    const auto at = [&](double q) {
        return values[static_cast<std::size_t>(std::lround(q * static_cast<double>(values.size() - 1)))];
    };
    return band_between(at(0.1), mean, at(0.9));
}

Band band_of(const std::vector<double>& values, const std::vector<double>& weights) {
    base::expects(values.size() == weights.size(), "a weight for every value");
    std::vector<std::pair<double, double>> weighted;
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!(weights[i] > 0)) continue;
        weighted.emplace_back(values[i], weights[i]);
        sum += weights[i];
    }
    base::expects(sum > 0, "a band has values");
    double mean = 0;
    for (const auto& [value, weight] : weighted) mean += value * weight / sum;
    const auto [least, most] = std::minmax_element(weighted.begin(), weighted.end());
    mean = std::clamp(mean, least->first, most->first);  // rounding may take it out
    return band_between(weighted_quantile(weighted, 0.1), mean, weighted_quantile(weighted, 0.9));
}

std::vector<double> weigh(const std::vector<double>& prior, const std::vector<double>& log_likelihood) {
    base::expects(prior.size() == log_likelihood.size(), "a likelihood for every draw");
    constexpr double impossible = -std::numeric_limits<double>::infinity();
    double highest = impossible;
    for (std::size_t i = 0; i < prior.size(); ++i) {
        if (prior[i] > 0) highest = std::max(highest, log_likelihood[i]);
    }
    std::vector<double> weights(prior.size());
    if (highest == impossible) return weights;
    double sum = 0;
    for (std::size_t i = 0; i < prior.size(); ++i) {
        if (prior[i] > 0) sum += weights[i] = prior[i] * std::exp(log_likelihood[i] - highest);
    }
    for (double& weight : weights) weight /= sum;
    return weights;
}

}  // namespace mitefall::base
