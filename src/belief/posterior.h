#pragma once

#include <cstdint>
#include <vector>

#include "base/band.h"
#include "base/random.h"
#include "belief/belief.h"

// Weighted histories and what they say together. Used by belief.cpp.
namespace mitefall::belief {

struct History {
    std::uint32_t draw = 0;
    std::vector<std::uint32_t> cells;      ///< of the sources, ascending
    std::vector<std::uint32_t> newcomers;  ///< their introductions, of the sources
    std::vector<double> entered;           ///< days, per cell, then per newcomers
    std::vector<double> cause;             ///< the same: mites the last finds show on average

    /// All introductions it has, in the order of `entered`.
    [[nodiscard]] std::vector<std::uint32_t> introductions(const Sources& sources) const;
    double log_likelihood = 0;
    bool alive = false;
};

struct Posterior {
    const std::vector<History>& histories;
    const std::vector<double>& weights;
    double nothing = 0;  ///< weight, for each draw, that nothing came in
    std::vector<double> draw_weight;
    const Sources& sources;
    bool sighted = false;
};

/// Kish 1965: (sum w)^2 / sum w^2; 0 of nothing.
[[nodiscard]] double effective_number(const std::vector<double>& weights);

/// Chances of the introductions, days, information, effective numbers.
[[nodiscard]] Belief summarise(const Posterior& all);

struct Kept {
    std::size_t history = 0;
    double weight = 0;
};

/// At most about `most` histories of each draw, by draw: the heavy ones as they are, of the light ones some,
/// each as heavy as the threshold, so that every sum over histories keeps its mean (Fearnhead & Clifford
/// 2003, J. R. Statist. Soc. B 65:887-899).
[[nodiscard]] std::vector<Kept> thin(const std::vector<History>& histories,
                                     const std::vector<double>& weights, std::size_t draws, std::size_t most,
                                     base::RandomStream random);

}  // namespace mitefall::belief
