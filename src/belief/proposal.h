#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/random.h"
#include "belief/introductions.h"

// Where to look for histories that fit the records.
namespace mitefall::belief {

/// A way to draw sets of cells that is not the prior: one cell is made to happen, picked by `pull`, and with
/// chance `second` another one picked likewise; all others happen with their own chances. The density of a
/// set relative to the prior is then a plain sum over its cells, so weights are exact.
class Proposal {
  public:
    /// `pull` per cell, not negative; scaled to sum to 1. A part of it is always that of the prior, which
    /// bounds the weights (defensive mixture, Hesterberg 1995).
    Proposal(const Sources& sources, std::vector<double> pull, double second);

    /// Ascending, never empty.
    [[nodiscard]] std::vector<std::uint32_t> draw(base::RandomStream& random) const;

    /// Chance of drawing this set, over its chance before anything was seen.
    [[nodiscard]] double ratio(std::span<const std::uint32_t> cells) const;

    [[nodiscard]] const std::vector<double>& pull() const { return pull_; }

  private:
    [[nodiscard]] std::uint32_t pick(base::RandomStream& random) const;

    const Sources* sources_;
    std::vector<double> pull_;
    std::vector<double> up_to_;  ///< running sums of pull_
    double second_;
};

/// Per cell: its chance times the chance that one mite of it leads to a find of `looks`, roughly: few
/// substages, the most likely parameters, some days apart. All zero if the looks found nothing.
[[nodiscard]] std::vector<double> chances_to_be_found(const scenario::Scenario& scenario,
                                                      const Sources& sources,
                                                      std::span<const scenario::Look> looks, double at,
                                                      const mites::FixedParameters& fixed,
                                                      const mites::MiteParameters& mode);

}  // namespace mitefall::belief
