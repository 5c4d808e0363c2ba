#pragma once

#include <cstdint>
#include <vector>

#include "base/band.h"
#include "base/random.h"
#include "belief/belief.h"

// Weighted histories and what they say together.
namespace mitefall::belief {

struct History {
    std::uint32_t draw = 0;
    std::uint32_t family = 0;              ///< of histories with the same beginning
    std::vector<std::uint32_t> cells;      ///< of the sources, ascending
    std::vector<std::uint32_t> newcomers;  ///< their introductions, of the sources
    std::vector<double> entered;           ///< days, per cell, then per newcomers
    std::vector<std::pair<std::uint32_t, double>>
        doubts;             ///< looks, and how far each rests on a wrong record
    double log_weight = 0;  ///< with its hope
    double hope = 0;        ///< ln, of what is still to be explained
    Course course;

    /// All introductions it has, in the order of `entered`.
    [[nodiscard]] std::vector<std::uint32_t> introductions(const Sources& sources) const;
};

struct Posterior {
    const std::vector<History>& histories;
    const std::vector<double>& weights;
    double nothing = 0;  ///< weight, for each draw, that nothing came in
    std::vector<double> draw_weight;
    std::size_t simulated = 0;  ///< histories begun
    const Sources& sources;
    bool sighted = false;
};

/// Kish 1965: (sum w)^2 / sum w^2; 0 of nothing.
[[nodiscard]] double effective_number(const std::vector<double>& weights);

/// The same of families of histories: those with the same beginning count as one (after Lee & Whiteley 2018,
/// Biometrika 105:609-625, who measure the error of a particle filter by them); and of `draws` times that
/// nothing came in, with weight `nothing` each.
[[nodiscard]] double effective_families(const std::vector<History>& histories,
                                        const std::vector<double>& weights, double nothing,
                                        std::size_t draws);

/// Chances of the introductions, days, information, effective numbers, doubts.
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
