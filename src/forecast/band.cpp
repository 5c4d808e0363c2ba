#include "forecast/band.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/contract.h"
#include "forecast/posterior.h"

namespace mitefall::forecast {

Band band_of(std::vector<double> values) {
    base::expects(!values.empty(), "a band has values");
    Band band;
    for (const double value : values) band.mean += value / static_cast<double>(values.size());
    std::sort(values.begin(), values.end());
    const auto at = [&](double q) {
        return values[static_cast<std::size_t>(std::lround(q * static_cast<double>(values.size() - 1)))];
    };
    band.p10 = at(0.1);
    band.p90 = at(0.9);
    return band;
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
    Band band;
    for (const auto& [value, weight] : weighted) band.mean += value * weight / sum;
    band.p10 = weighted_quantile(weighted, 0.1);
    band.p90 = weighted_quantile(std::move(weighted), 0.9);
    return band;
}

}  // namespace mitefall::forecast
