#pragma once

#include <optional>
#include <span>
#include <utility>
#include <variant>
#include <vector>

#include "belief/belief.h"
#include "branching/sweep.h"
#include "mites/parameters.h"
#include "network/classes.h"
#include "network/compile.h"
#include "scenario/scenario.h"

// Which mites a forecast begins with, and what a sweep over what follows says about them.
namespace mitefall::forecast {

/// Mites known to be there.
using KnownStart = std::vector<scenario::MiteCount>;

/// Mites inferred from a sighting: an egg-laying lineage is taken to have entered at `entered_at` on day
/// `entered_on`, and its expected course is scaled so that the expected number to be seen on day `seen_on`
/// equals the number seen (assumption M5 of docs/model.md). The number seen lies between `seen_low` and
/// `seen_high`.
struct Sighting {
    scenario::PlaceIndex entered_at = 0;
    double entered_on = 0;  ///< days
    scenario::PlaceIndex seen_at = 0;
    double seen_on = 0;     ///< days; entered_on <= seen_on <= start of the forecast
    bool on_animal = true;  ///< else on paper, in water or on hands
    double seen_low = 1;    ///< at least 1
    double seen_high = 1;
};

/// Several sightings are several lineages side by side; what they share is counted twice, on the safe side.
using SightedStart = std::vector<Sighting>;

/// A Belief must have been formed with the ensemble of the forecast, at its start, and outlive it.
using Start = std::variant<KnownStart, SightedStart, const belief::Belief*>;

/// A block of draws of a scenario, written as a network. Keeps references.
struct CompiledBlock {
    const network::MiteNetwork& compiled;
    const network::Classes& classes;
    const mites::FixedParameters& fixed;
    std::span<const mites::MiteParameters> draws;
    std::size_t index = 0;  ///< of the block in the ensemble

    [[nodiscard]] branching::TypeIndex type_of(scenario::PlaceIndex place, mites::Stage stage) const {
        return compiled.layout.first[classes.class_of[place]][static_cast<std::size_t>(stage)];
    }
};

/// The start of one block: numbers known, Poisson numbers with means from sightings, or the weighted states
/// of a belief.
class BlockStart {
  public:
    /// Keeps references to all of them.
    BlockStart(const Start& start, const CompiledBlock& block, double from, branching::Tolerance tolerance);

    /// ln of the chance that nothing alive, and nothing that comes in, fails what `swept` asks, per draw.
    /// -infinity for a draw that has no state.
    [[nodiscard]] branching::Lanes log_chance(const branching::SweepResult& swept) const;

    /// By how much the solver's error of v may falsify the ln of the chance of a draw, at most over the
    /// draws: of the mites together, and of a belief those of the states that pass. Infinite where all that
    /// may be there is told to fail for certain.
    [[nodiscard]] double error_of(const branching::SweepResult& swept, branching::Tolerance tolerance) const;

    /// How much each draw counts before anything is looked at: all alike, unless the start is a belief.
    [[nodiscard]] branching::Lanes weight() const;

    /// Expected mites by type of the network, all members of a class together; those of states or numbers
    /// that do not fail what `swept` asks, if given. None for a draw that has no state.
    [[nodiscard]] std::vector<branching::Lanes> numbers(const branching::SweepResult* swept = nullptr) const;

    /// The same by place: states know theirs, other starts show the mean of the class.
    [[nodiscard]] std::vector<branching::Lanes> by_place(const branching::SweepResult* swept = nullptr) const;

  private:
    /// One state of a draw.
    struct State {
        const belief::Particle* particle = nullptr;
        std::vector<std::pair<branching::TypeIndex, double>> mites;
    };

    void read(const belief::Belief& belief);
    void count(const KnownStart& groups);
    [[nodiscard]] double log_chance_of_states(const branching::SweepResult& swept, std::size_t lane) const;
    template <class ErrorOf>
    [[nodiscard]] double error_of_states(const branching::SweepResult& swept, std::size_t lane,
                                         ErrorOf error) const;
    [[nodiscard]] std::vector<double> shares(const branching::SweepResult* swept, std::size_t lane) const;

    const CompiledBlock& block_;
    std::vector<branching::Lanes> means_;  ///< by type, unless the start is a belief
    bool is_poisson_ = false;              ///< means_ are means of Poisson numbers
    const belief::Belief* belief_ = nullptr;
    std::array<std::vector<State>, branching::lane_count> states_;  ///< of a belief, per draw
};

/// Adds the places where a start lies to those never lumped with others.
void set_apart(const Start& start, scenario::Scenario& scenario);

/// Expected numbers for one draw at `from`, per place, stage and substage: what the simulator starts from.
[[nodiscard]] std::vector<scenario::MiteCount> expected_start(const scenario::Scenario& scenario,
                                                              const mites::FixedParameters& fixed,
                                                              const mites::MiteParameters& draw,
                                                              const SightedStart& start, double from);

}  // namespace mitefall::forecast
