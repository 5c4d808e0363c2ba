#pragma once

#include <array>
#include <memory>
#include <vector>

#include "branching/network.h"

namespace mitefall::branching {

/// How exactly the equations are solved: error of a step, of v, relative and absolute.
struct Tolerance {
    double relative = 1e-7;
    double absolute = 1e-13;
    bool in_single = false;  ///< single precision is enough
};
/// For answers to be shown: v to about 1e-7, a chance of clear to about 1e-5 (docs/decisions/0013).
inline constexpr Tolerance for_show{1e-4, 1e-10, true};
/// For telling plans apart: v to about 1e-6 and to 1 % where it is small.
inline constexpr Tolerance for_screening{3e-3, 1e-9, true};
/// An error of the solver may carry a chance over its end by a little, never by this much.
inline constexpr double overshoot = 1e-2;

/// What the sweep asks of a particle alive at the horizon.
enum class Question {
    no_survivor,      ///< v = chance that a descendant lives at the horizon
    any_check_fails,  ///< v = chance that a descendant makes some check fail; survivors do not count
};

struct SweepResult {
    /// Per type and draw: v at `from`, the chance that one particle alive then fails the question. With
    /// checks in the network and Question::no_survivor: fails it or makes some check between `from` and `to`
    /// fail.
    std::vector<Lanes> failure;
    /// Expected number of particles from `sources` that fail, over the whole time.
    Lanes imported;
    std::size_t steps = 0;
    /// 1 - failure, exact where a particle all but certainly fails (passing.h); empty: 1 - failure will do.
    std::vector<Lanes> passing = {};
};

/// Backward sweep from `to` down to `from` (days). In v = 1 - q, with tau = -t (Harris 1963, V.4):
///   dv_i/dtau = sum_j r_ij (v_j - v_i) - mu_i v_i + (1 - v_i) sum_e b_ie v_e.
/// v keeps its relative precision where survival is rare, which is what clearance is about.
/// Jumps at `from` and at `to` are both part of the sweep.
/// Solved by BackwardSolver (solver.h), one step size for all draws of the block.
/// Throws ContractViolation when from > to, the network is malformed, or a v beyond [0, 1] comes out by more
/// than its tolerance explains.
[[nodiscard]] SweepResult sweep(const Network& network, double from, double to,
                                Question question = Question::no_survivor, Tolerance tolerance = {});

/// The same with v at the horizon given per type: 1 for those whose survival counts, 0 for the others.
[[nodiscard]] SweepResult sweep(const Network& network, double from, double to,
                                const std::vector<double>& at_horizon, Tolerance tolerance = {});

/// Goes on, from `to` down to `from`, where the sweep of another network over the same types ended. Its steps
/// count too.
[[nodiscard]] SweepResult go_on(const Network& network, double from, double to, SweepResult beyond,
                                Tolerance tolerance = {});

/// The same for several blocks of draws side by side, whose networks differ in their numbers and hazards
/// alone. In single precision where `tolerance` says so, and always for two: half the work or less, and no
/// good for 1 - v where v is near 1.
[[nodiscard]] std::array<SweepResult, 1> go_on(const std::array<const Network*, 1>& networks, double from,
                                               double to, std::array<SweepResult, 1> beyond,
                                               Tolerance tolerance);
[[nodiscard]] std::array<SweepResult, 2> go_on(const std::array<const Network*, 2>& networks, double from,
                                               double to, std::array<SweepResult, 2> beyond,
                                               Tolerance tolerance);

/// The same over one network in many stretches, the latest first: what all of them need is worked out once.
/// The answers are those of `go_on`, in double precision.
class SweepInStretches {
  public:
    /// Keeps the network. Throws ContractViolation when it is malformed.
    SweepInStretches(const Network& network, Tolerance tolerance);
    SweepInStretches(const SweepInStretches&) = delete;
    SweepInStretches& operator=(const SweepInStretches&) = delete;
    ~SweepInStretches();

    [[nodiscard]] SweepResult go_on(double from, double to, SweepResult beyond);

  private:
    struct Solver;
    const Network& network_;
    std::unique_ptr<Solver> solver_;
};

/// v just before the jump of a sweep, from v just after it.
void pass_backward(const Jump& jump, std::vector<Lanes>& v);

}  // namespace mitefall::branching
