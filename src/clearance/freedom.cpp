#include "clearance/freedom.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"

namespace mitefall::clearance {
namespace {

using base::expects;

double log_choose(int n, int k) {
    return std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
}

/// P(k of the checked ones have mites).
double hypergeometric(int enclosures, int checked, int with_mites, int k) {
    return std::exp(log_choose(with_mites, k) + log_choose(enclosures - with_mites, checked - k) -
                    log_choose(enclosures, checked));
}

bool is_share(double x) { return x >= 0 && x <= 1; }

}  // namespace

double chance_all_look_clean(int enclosures, int checked, int with_mites, double sensitivity) {
    expects(enclosures > 0 && checked >= 0 && checked <= enclosures, "a part of the enclosures is checked");
    expects(with_mites >= 0 && with_mites <= enclosures && is_share(sensitivity), "numbers that can be");
    double clean = 0;
    const int fewest = std::max(0, checked - (enclosures - with_mites));
    for (int k = fewest; k <= std::min(checked, with_mites); ++k)
        clean += hypergeometric(enclosures, checked, with_mites, k) * std::pow(1 - sensitivity, k);
    return std::min(1.0, clean);
}

std::optional<int> enclosures_to_check(int enclosures, int with_mites, double sensitivity,
                                       double confidence) {
    expects(confidence > 0 && confidence < 1, "a confidence between 0 and 1");
    const auto is_enough = [&](int n) {
        return chance_all_look_clean(enclosures, n, with_mites, sensitivity) <= 1 - confidence;
    };
    if (!is_enough(enclosures)) return std::nullopt;
    int too_few = -1, enough = enclosures;
    while (enough - too_few > 1) {
        const int middle = too_few + (enough - too_few) / 2;
        (is_enough(middle) ? enough : too_few) = middle;
    }
    return enough;
}

}  // namespace mitefall::clearance
