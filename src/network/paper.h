#pragma once

#include <limits>
#include <vector>

#include "branching/network.h"
#include "scenario/scenario.h"

namespace mitefall::network {

/// One sheet of paper and what was sprayed on it, for one block of draws.
class Paper {
  public:
    /// `level` (per day) and `half_life` (days): those of the residue, draw by draw. In order of time (days).
    void lay(double time, const scenario::Residue& residue, const branching::Lanes& level,
             const branching::Lanes& half_life);
    void take_out(double time);
    [[nodiscard]] bool is_gone() const { return gone_ < std::numeric_limits<double>::infinity(); }

    /// The death it brings: at every moment and in every draw that of the strongest residue. In order of
    /// time, one after another; without runs.
    [[nodiscard]] std::vector<branching::HazardWindow> strongest() const;

  private:
    struct Laid {
        branching::HazardWindow window;  ///< by itself
        scenario::Residue residue;
    };
    [[nodiscard]] std::vector<double> bounds() const;
    [[nodiscard]] branching::HazardWindow between(double begin, double end) const;

    std::vector<Laid> laid_;
    double gone_ = std::numeric_limits<double>::infinity();
};

}  // namespace mitefall::network
