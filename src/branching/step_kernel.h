#pragma once

#include <cstddef>

#include "branching/split.h"

// One step of the backward solver: the inner loops, compiled for several instruction sets and chosen when the
// program runs.
namespace mitefall::branching {

/// What is carried through a chain in a step of one length, and what its end adds to that. P is the value its
/// end leads to, a cubic in time over the step; D its slope times the step.
///   home_half[n], home_full[n]   chance to move on by n substages, alive, in half the step and in all of it
///   half[3]                      weights of P0, D0, P(1/2) on the first substage after half the step
///   full[4]                      weights of P0, D0, P(1/2), P1 on the first substage after the step
///   refill[4 m ...]              weights of P0, D0, P1, D1 on substage m after the step
template <class L>
struct ChainWeights {
    const L* home_half = nullptr;
    const L* home_full = nullptr;
    const L* half = nullptr;
    const L* full = nullptr;
    const L* refill = nullptr;
    [[nodiscard]] static constexpr std::size_t size(std::size_t substages) { return 6 * substages + 7; }
    /// The parts of a block of `size(substages)` lanes.
    [[nodiscard]] static ChainWeights within(const L* block, std::size_t substages) {
        ChainWeights weights;
        weights.home_half = block;
        weights.home_full = weights.home_half + substages;
        weights.half = weights.home_full + substages;
        weights.full = weights.half + 3;
        weights.refill = weights.full + 4;
        return weights;
    }
};

/// Fills such a block. `advance`, `loss` per day, `step` in days. Positive quadrature (Gauss & Legendre): no
/// cancellation.
void fill_chain_weights(const Lanes& advance, const Lanes& loss, std::size_t substages, double step,
                        Lanes* block);

/// A hazard over one step: its level at the start, the middle and the end, and the chances to outlive the
/// first half and the whole of it, with their reciprocals.
template <class L>
struct StepHazard {
    L level[3];
    L survive[2];
    L recover[2];
};

/// One point of a quadrature over a step: days since the input, and weight (days).
struct QuadratureNode {
    double since;
    double weight;
};

/// What is known of each chain during a step.
template <class L>
struct ChainWork {
    L known_half,
        known_full;        ///< first substage after half the step and all of it, but for P(1/2), P1
    L input, input_slope;  ///< P0, D0
    L middle;              ///< P(1/2), grown by the hazard
};

/// What one source adds to the imported.
template <class L>
struct SourceCell {
    TypeIndex cell = 0;
    L rate;
};

/// Everything a step reads and writes; arrays over cells unless said otherwise.
template <class L>
struct Step {
    const Split* split = nullptr;
    const L* values = nullptr;
    const std::uint32_t* hazard_of_run = nullptr;  ///< index into hazards, per open run and then per chain
    const StepHazard<L>* hazards = nullptr;
    const ChainWeights<L>* weights = nullptr;  ///< per chain
    const SourceCell<L>* sources = nullptr;
    std::size_t source_count = 0;
    double length = 0;  ///< days
    double absolute = 0;
    double relative = 0;

    const L* start = nullptr;  ///< y
    const L* slope = nullptr;  ///< y'
    const L* types = nullptr;  ///< values of the network's types at the start: later substages of chains
    L* end = nullptr;          ///< y after the step
    L* end_slope = nullptr;
    L* end_types = nullptr;              ///< all substages of chains after the step
    L* work = nullptr;                   ///< three times as many as there are cells
    ChainWork<L>* chain_work = nullptr;  ///< per chain
};

/// y' at the start of a step, for all cells. Reads start, types, values, hazards (level[0]), sources.
void initial_slope(const Step<Lanes>& step, Lanes* slope);
void initial_slope(const Step<SingleLanes>& step, SingleLanes* slope);
void initial_slope(const Step<PairedLanes>& step, PairedLanes* slope);

/// Takes the step (classical Runge-Kutta of order 4 on the open cells). Returns its largest error, of order 3
/// embedded, in units of absolute + relative * |value|.
[[nodiscard]] double take_step(const Step<Lanes>& step);
[[nodiscard]] double take_step(const Step<SingleLanes>& step);
[[nodiscard]] double take_step(const Step<PairedLanes>& step);

}  // namespace mitefall::branching
