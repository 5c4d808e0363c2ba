#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "belief/introductions.h"
#include "belief/looks.h"
#include "mites/parameters.h"
#include "scenario/history.h"
#include "scenario/scenario.h"

// What the records say about where mites are, and how they came in: many possible histories, each as heavy as
// the records make it likely (decision 0011, docs/model.md section 7).
namespace mitefall::belief {

/// One possible state at `Belief::at`.
struct Particle {
    double weight = 0;                         ///< of all particles together: 1
    std::uint32_t draw = 0;                    ///< of the ensemble
    double entered_on = 0;                     ///< days, the first that came in; NaN if nothing did
    std::vector<std::uint32_t> introductions;  ///< into Belief::introductions; empty: nothing came in
    std::vector<scenario::MiteCount> mites;    ///< in the substages of the draw; empty: none is alive
};

/// A look that the rest of the records make unlikely.
struct Doubt {
    std::uint32_t look = 0;  ///< into the looks of the request
    double chance = 0;       ///< that the record is wrong
};

struct Belief {
    double at = 0;  ///< days; the state is that just before the events of this instant
    std::vector<Introduction> introductions;
    std::vector<Particle> particles;  ///< by draw
    std::vector<double> draw_weight;  ///< per draw of the ensemble; together 1
    std::vector<int> shapes;          ///< per draw: its substages, in which its mites are counted
    /// Kish 1965: (sum w)^2 / sum w^2, before the lightest were left out, histories that began alike as one.
    double effective_particles = 0;
    double effective_draws = 0;  ///< the same of the draws
    double information = 0;      ///< bits about the introductions: relative entropy, each by itself, summed
    double nothing_came = 0;     ///< chance that nothing came in at all
    double alive = 0;            ///< chance that any mite is alive at `at`
    bool sighted = false;        ///< some look found mites: it is taken as given that something came in
    std::size_t looks = 0;       ///< looks on record that were weighed
    std::vector<Doubt> doubts;   ///< finds and clean checks in doubt, most doubtful first
    std::size_t histories = 0;   ///< begun
};

/// Whether its chances move by points with the dice: a chance of a half by 0.5 / sqrt(effective particles).
[[nodiscard]] inline bool rests_on_few(const Belief& belief) {
    constexpr double enough = 50;  // seven points
    return belief.effective_particles < enough;
}

struct BeliefOptions {
    std::size_t histories = 12;         ///< per draw and pass
    std::size_t least_histories = 512;  ///< of a pass, however few draws there are
    std::size_t most_passes = 4;
    double least_effective = 64;      ///< effective particles before no further pass is made
    double enough_effective = 0.4;    ///< effective particles per draw at which no further pass is made
    double enough_without_finds = 8;  ///< the same where no look found mites: they cost little
    std::size_t kept = 24;            ///< particles per draw at most in the answer
    SampleSize eggs = LineageOptions{}.eggs;    ///< see Lineage
    SampleSize mites = LineageOptions{}.mites;  ///< see Lineage

    [[nodiscard]] LineageOptions carried_of(const RecordErrors& errors) const {
        return {eggs, mites, errors};
    }
};

struct BeliefRequest {
    const scenario::Scenario* scenario = nullptr;
    const mites::Ensemble* ensemble = nullptr;
    std::vector<scenario::Look> looks;  ///< ordered as they happened, none after `at`
    std::vector<scenario::ArrivalOnRecord> arrivals;
    double at = 0;  ///< days, above 0; mites may have come in from day 0 on
    IntroductionPrior prior;
    std::uint64_t seed = 1;
    BeliefOptions options;
    std::vector<scenario::OutsideOnRecord> outside{};
};

/// Particle filters over introductions, parameters and histories (filter.h), pass by pass aimed at where the
/// passes before found weight (population Monte Carlo, Cappe, Guillin, Marin & Robert 2004), all passes alike
/// in the answer. Every history has streams of its own at every moment: the same answer on any number of
/// threads.
[[nodiscard]] Belief believe(const BeliefRequest& request);

/// Asked now and then while a belief is formed, by one thread at a time; false cancels.
using GoesOn = std::function<bool()>;
/// The same; nullopt where it was cancelled.
[[nodiscard]] std::optional<Belief> believe(const BeliefRequest& request, const GoesOn& goes_on);

/// What is asked of the records of a case, for `known.from`. Both outlive the request.
[[nodiscard]] BeliefRequest request_of(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                                       const IntroductionPrior& prior, std::uint64_t seed);
/// What the records of a case say about where mites are at `known.from`.
[[nodiscard]] Belief believe_records(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                                     const IntroductionPrior& prior, std::uint64_t seed);
/// The same; nullopt where it was cancelled.
[[nodiscard]] std::optional<Belief> believe_records(const scenario::RecordedCase& known,
                                                    const mites::Ensemble& ensemble,
                                                    const IntroductionPrior& prior, std::uint64_t seed,
                                                    const GoesOn& goes_on);

/// Mites in one place, over all particles.
struct PlaceBelief {
    double any = 0;       ///< chance that there is at least one mite
    double expected = 0;  ///< mean number
    double p10 = 0, p90 = 0;
};

/// Per place, rooms included; `place_count` places. Then the same for all places together.
[[nodiscard]] std::vector<PlaceBelief> mites_by_place(const Belief& belief, std::size_t place_count);
[[nodiscard]] PlaceBelief mites_in_all(const Belief& belief);

/// Puts the blocks of draws in the order of their weight, heaviest first: the first few stand best for all.
/// The belief is one over these draws.
void put_heavy_blocks_first(mites::Ensemble& ensemble, Belief& belief);

/// A few draws that stand for all: picked by weight (systematic resampling), each as heavy as the others,
/// with their particles.
struct Shortlist {
    mites::Ensemble ensemble;
    Belief belief;
};

/// `count`: a multiple of lane_count. `shape`: substages every draw of the list gets (forecasts count the
/// particles' substages in it).
[[nodiscard]] Shortlist shorten(const mites::Ensemble& ensemble, const Belief& belief, std::size_t count,
                                int shape);

}  // namespace mitefall::belief
