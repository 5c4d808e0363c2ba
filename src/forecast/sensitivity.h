#pragma once

#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

#include "mites/parameters.h"

// Which of the things that are not known an answer depends on, told from draws already computed.
namespace mitefall::forecast {

/// One uncertain input: its value in every draw.
struct DrawnInput {
    std::string_view key;
    std::vector<double> values;
};

/// What one input does to the answer.
struct Influence {
    std::string_view key;
    double explained = 0;  ///< share of the variance (first-order index), less what chance would explain
    double explained_plain = 0;  ///< its correlation ratio by itself, bias included, 0 to 1
    double direction = 0;        ///< rank correlation with the answer, -1 to 1; above 0: more of it helps
    double low_up_to = 0;        ///< where the lowest third of its values ends
    double high_from = 0;        ///< where the highest third begins
    double if_low = 0;           ///< mean answer over the lowest third
    double if_high = 0;          ///< mean answer over the highest third
};

struct Sensitivity {
    std::vector<Influence> named;  ///< those that explain more than chance, most first
    std::vector<Influence> rest;   ///< the others, most first
    double chance_level = 0;       ///< explained by the best of inputs that do nothing, once in twenty times
    double effective_draws = 0;    ///< (sum w)^2 / sum w^2
};

struct SensitivityRequest {
    std::vector<DrawnInput> inputs;
    std::vector<double> measure;  ///< whose variance is shared out, per draw, finite
    std::vector<double> answer;   ///< what the thirds are told in, per draw
    std::vector<double> weights;  ///< of the draws, not negative, not all zero; empty: all alike
    std::size_t classes = 0;      ///< of each input's values; 0: the cube root of the effective draws
};

/// First-order indices from given data: the variance between classes of like values of an input, as a share
/// of all (Plischke, Borgonovo & Smith 2013, Eur. J. Oper. Res. 226:536-550, section 3), less its bias
/// (Kelley 1935, Proc. Natl. Acad. Sci. 21:554-559, for weighted draws). The strongest input is named first,
/// its class means are taken away, and the others are asked about what is left: for independent inputs the
/// same indices with less noise, and an input whose draws happen to resemble a stronger one's gets only what
/// it adds. An input is named while it explains more than the best of all does in 19 of 20 shuffles of the
/// draws (Westfall & Young 1993): one answer in twenty names anything that does nothing. Equal values share a
/// class. Pure; the shuffles are always the same. Throws ContractViolation on sizes that differ or numbers
/// that are not finite.
[[nodiscard]] Sensitivity rank_influences(const SensitivityRequest& request);

/// Every drawn parameter, `erlang_shape` and `sighting_quantile` included, in the order of the draws. Of two
/// drawn together the one that names the other.
[[nodiscard]] std::vector<DrawnInput> drawn_inputs(const mites::Ensemble& ensemble);

/// ln(p / (1 - p)), p held between one and all but one in a million: what is beyond matters to nobody.
[[nodiscard]] std::vector<double> log_odds(std::span<const double> chances);

}  // namespace mitefall::forecast
