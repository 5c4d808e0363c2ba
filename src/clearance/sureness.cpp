#include "clearance/sureness.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/contract.h"

namespace mitefall::clearance {
namespace {

using base::expects;

void check_draws(const Draws& draws) {
    const std::size_t n = draws.log_clear.size();
    expects(n > 0 && draws.log_clean.size() == n && draws.prior.size() == n, "draws of one ensemble");
    const auto is_log_chance = [](double x) { return x <= 0; };  // ln 0 is one, NaN is not
    expects(std::all_of(draws.log_clear.begin(), draws.log_clear.end(), is_log_chance) &&
                std::all_of(draws.log_clean.begin(), draws.log_clean.end(), is_log_chance),
            "chances between 0 and 1");
}

}  // namespace

std::vector<double> posterior_weights(const Draws& draws) {
    check_draws(draws);
    std::vector<double> weights = base::weigh(draws.prior, draws.log_clean);
    expects(std::any_of(weights.begin(), weights.end(), [](double weight) { return weight > 0; }),
            "a draw that counts, and allows the checks to be clean");
    return weights;
}

Sureness sureness_of(const Draws& draws) {
    const std::vector<double> weights = posterior_weights(draws);
    std::vector<double> clear, risk;
    for (const double log_clear : draws.log_clear) {
        clear.push_back(std::exp(log_clear));
        risk.push_back(0 - std::expm1(log_clear));  // nothing, not less than nothing
    }
    const double squares = std::inner_product(weights.begin(), weights.end(), weights.begin(), 0.0);
    return {base::band_of(clear, weights), base::band_of(risk, weights), 1 / squares};
}

}  // namespace mitefall::clearance
