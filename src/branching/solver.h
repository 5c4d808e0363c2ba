#pragma once

#include <array>
#include <functional>
#include <vector>

#include "branching/split.h"
#include "branching/step_kernel.h"
#include "branching/sweep.h"
#include "branching/timeline.h"

namespace mitefall::branching {

/// Solves the backward equations over smooth stretches, later stretches first. All draws share each step;
/// steps are powers of two of a day, so that the weights of chains are worked out once for each length.
/// In single precision two blocks of draws go side by side.
template <class L>
class SolverOf {
  public:
    static constexpr std::size_t blocks = L::blocks;
    /// One network for each block of draws; they differ in numbers and hazards alone.
    using Networks = std::array<const Network*, blocks>;

    SolverOf(const Networks& networks, Tolerance tolerance);

    /// Sees the solution at the end of the stretch and after every step: time (days), values and slopes (per
    /// day back in time) by cell.
    using Witness =
        std::function<void(double time, const std::vector<L>& cells, const std::vector<L>& slopes)>;

    /// Takes `v` (per type, then the imported) back over a stretch from `end` to `begin` (days).
    /// Throws ContractViolation if the step collapses (a rate that is not finite).
    void go_back(double begin, double end, std::vector<L>& v, const Witness& witness = {});

    /// Where a witness finds a type; ContractViolation for the later substages of a chain, which have no
    /// cell.
    [[nodiscard]] TypeIndex cell_of(TypeIndex type) const;

    /// The next stretch is gone over as if it were the first; what was worked out of the networks stays.
    void begin_anew();

    [[nodiscard]] std::size_t steps() const { return steps_; }

  private:
    using Numbers = std::array<Lanes, blocks>;
    using Windows = std::array<std::vector<const HazardWindow*>, blocks>;
    /// Chains of one speed share their weights.
    struct Speed {
        Numbers advance;
        Numbers loss;
        std::uint32_t count = 0;
        friend bool operator==(const Speed&, const Speed&) = default;
    };
    struct WeightBlock {
        double step = 0;
        std::vector<L> lanes;
    };

    void enter(double begin, double end);
    void read_values(const std::array<Stretch, blocks>& stretches);
    void group_hazards(const std::array<Stretch, blocks>& stretches);
    void load(const std::vector<L>& v);
    void unload(std::vector<L>& v) const;
    void set_length(double step, double elapsed, double end);
    void set_hazards(double step, double time);
    const L* weights_for(std::size_t speed, double step);
    [[nodiscard]] Step<L> step_of(double length);

    Networks networks_;
    Split split_;
    Tolerance tolerance_;
    std::vector<Speed> speeds_;
    std::vector<std::vector<WeightBlock>> weights_;  ///< per speed
    std::vector<std::uint32_t> speed_of_chain_;
    std::array<const std::vector<Lanes>*, blocks> tables_{};  ///< that values_ are from
    std::vector<L> values_;
    std::vector<Windows> groups_;  ///< of runs under the same hazards
    std::vector<std::uint32_t> group_of_run_;
    std::vector<StepHazard<L>> hazards_;
    std::vector<SourceCell<L>> sources_;
    std::vector<ChainWeights<L>> chain_weights_;
    std::vector<L> cells_, end_cells_, slope_, end_slope_, types_, end_types_, work_;
    std::vector<ChainWork<L>> chain_work_;
    double weighted_for_ = 0;  ///< length of the step for which chain_weights_ stand
    static constexpr double first_step = 0.125;
    static constexpr double usual_error_ratio = 16;
    double step_ = first_step;                ///< days
    double error_ratio_ = usual_error_ratio;  ///< of a step to one half as long, as last seen
    double lengthened_at_ = 0;  ///< error of the step after which the step was lengthened; 0: it was not
    std::size_t steps_ = 0;
};

/// Of one block of draws.
class BackwardSolver : public SolverOf<Lanes> {
  public:
    BackwardSolver(const Network& network, Tolerance tolerance) : SolverOf({&network}, tolerance) {}
};

}  // namespace mitefall::branching
