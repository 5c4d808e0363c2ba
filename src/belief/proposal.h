#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/random.h"
#include "belief/introductions.h"

// Where to look for histories that fit the records.
namespace mitefall::belief {

/// A way to draw sets of cells that is not the prior: one cell is made to happen, picked by `pull`, and in a
/// part of the draws further ones, up to `most_picks`, picked likewise; all others happen with their own
/// chances.
class Proposal {
  public:
    static constexpr std::size_t most_ways_in = 6;

    /// `pull` per cell, not negative; scaled to sum to 1. A part of it is always that of the prior, which
    /// bounds the weights (defensive mixture, Hesterberg 1995).
    Proposal(const Sources& sources, std::vector<double> pull, std::size_t most_picks);

    /// Ascending, never empty.
    [[nodiscard]] std::vector<std::uint32_t> draw(base::RandomStream& random) const;

    /// Chance of drawing this set, over its chance before anything was seen.
    [[nodiscard]] double ratio(std::span<const std::uint32_t> cells) const;

    [[nodiscard]] const std::vector<double>& pull() const { return pull_; }

  private:
    [[nodiscard]] std::uint32_t pick(base::RandomStream& random) const;

    const Sources* sources_;
    std::vector<double> pull_;
    std::vector<double> up_to_;            ///< running sums of pull_
    std::vector<double> chance_of_picks_;  ///< of 1, 2, ...
};

}  // namespace mitefall::belief
