#pragma once

#include <span>
#include <vector>

#include "forecast/forecast.h"

namespace mitefall::clearance {

/// How sure we are that no mite is left. The risk is what is missing to certainty, kept by itself so that it
/// stays exact where the chance is all but 1.
struct Sureness {
    base::Band clear;            ///< chance, 0 to 1; p10 is the cautious end
    base::Band risk;             ///< 1 - chance; its p90 belongs to the p10 of `clear`
    double effective_draws = 0;  ///< how many even draws the weights are worth, 1 / sum w^2 (Kish 1965)
};

/// ln of what every draw says, and how much each draw counts.
struct Draws {
    std::vector<double> log_clear;  ///< ln P(clear | every check so far clean), at most 0
    std::vector<double> log_clean;  ///< ln P(every check so far clean), at most 0
    std::vector<double> prior;      ///< weight before the checks; sums to 1
};

/// Weights after the checks by Bayes' rule, prior x P(clean); they sum to 1.
[[nodiscard]] std::vector<double> posterior_weights(const Draws& draws);

/// Weighted mean and 10 and 90 % points (base::band_of). Throws ContractViolation where a number is no
/// chance, or where no draw allows the checks to be clean.
[[nodiscard]] Sureness sureness_of(const Draws& draws);

}  // namespace mitefall::clearance
