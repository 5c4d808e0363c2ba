#pragma once

#include <functional>
#include <vector>

#include "branching/split.h"
#include "branching/step_kernel.h"
#include "branching/sweep.h"
#include "branching/timeline.h"

namespace mitefall::branching {

/// Solves the backward equations over smooth stretches, later stretches first. All draws share each step;
/// steps are powers of two of a day, so that the weights of chains are worked out once for each length.
class BackwardSolver {
  public:
    BackwardSolver(const Network& network, Tolerance tolerance);

    /// Sees the solution at the end of the stretch and after every step: time (days), values and slopes (per
    /// day back in time) by cell.
    using Witness =
        std::function<void(double time, const std::vector<Lanes>& cells, const std::vector<Lanes>& slopes)>;

    /// Takes `v` (per type, then the imported) back over a stretch from `end` to `begin` (days).
    /// Throws ContractViolation if the step collapses (a rate that is not finite).
    void go_back(double begin, double end, std::vector<Lanes>& v, const Witness& witness = {});

    /// Where a witness finds a type; ContractViolation for the later substages of a chain, which have no
    /// cell.
    [[nodiscard]] TypeIndex cell_of(TypeIndex type) const;

    [[nodiscard]] std::size_t steps() const { return steps_; }

  private:
    /// Chains of one speed share their weights.
    struct Speed {
        Lanes advance;
        Lanes loss;
        std::uint32_t count = 0;
        friend bool operator==(const Speed& a, const Speed& b) {
            return a.count == b.count && a.advance.x == b.advance.x && a.loss.x == b.loss.x;
        }
    };
    struct WeightBlock {
        double step = 0;
        std::vector<Lanes> lanes;
    };
    /// Runs under the same hazards.
    struct HazardGroup {
        std::vector<const HazardWindow*> windows;
    };

    void enter(const Stretch& stretch);
    void group_hazards(const Stretch& stretch);
    void load(const std::vector<Lanes>& v);
    void unload(std::vector<Lanes>& v) const;
    void set_length(double step, double elapsed, double end);
    void set_hazards(double step, double time);
    const Lanes* weights_for(std::size_t speed, double step);
    [[nodiscard]] Step step_of(double length);

    const Network& network_;
    Split split_;
    Tolerance tolerance_;
    std::vector<Speed> speeds_;
    std::vector<std::vector<WeightBlock>> weights_;  ///< per speed
    std::vector<std::uint32_t> speed_of_chain_;
    const std::vector<Lanes>* values_ = nullptr;
    std::vector<HazardGroup> groups_;
    std::vector<std::uint32_t> group_of_run_;
    std::vector<StepHazard> hazards_;
    std::vector<SourceCell> sources_;
    std::vector<ChainWeights> chain_weights_;
    std::vector<Lanes> cells_, end_cells_, slope_, end_slope_, types_, end_types_, work_;
    std::vector<ChainWork> chain_work_;
    double weighted_for_ = 0;   ///< length of the step for which chain_weights_ stand
    double step_ = 0.125;       ///< days
    double error_ratio_ = 16;   ///< of a step to one half as long, as last seen
    double lengthened_at_ = 0;  ///< error of the step after which the step was lengthened; 0: it was not
    std::size_t steps_ = 0;
};

}  // namespace mitefall::branching
