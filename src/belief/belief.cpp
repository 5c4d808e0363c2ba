#include "belief/belief.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>
#include <mutex>
#include <numeric>

#include "base/contract.h"
#include "belief/posterior.h"
#include "belief/proposal.h"
#include "branching/lanes.h"

namespace mitefall::belief {
namespace {

constexpr std::uint32_t choice_stream = 11;
constexpr std::uint32_t history_stream = 12;
constexpr std::uint32_t resampling_stream = 13;
constexpr double second_introduction = 0.15;        // of the histories aimed at two finds
constexpr double keep_aiming = 0.4;                 // of a pass aimed as the first one was
constexpr std::size_t most_remembered = 2'000'000;  // rows of mites, 24 bytes each
constexpr double spread_evenly = 0.5;  // of a pass shared out among draws regardless of their weight

/// The whole computation, pass by pass.
class Believer {
  public:
    Believer(const BeliefRequest& request, const GoesOn& goes_on)
        : request_(request),
          goes_on_(goes_on),
          ensemble_(*request.ensemble),
          terrain_(*request.scenario, request.looks, request.at),
          sources_(list_sources(*request.scenario, {request.arrivals, request.outside}, request.looks,
                                request.at, request.prior)) {
        for (const mites::MiteParameters& draw : ensemble_.draws)
            paces_.emplace_back(terrain_, ensemble_.fixed, draw);
        for (const scenario::Look& look : request.looks) finds_ += scenario::is_find(look) ? 1U : 0U;
    }

    std::optional<Belief> run() {
        aim_first();
        for (std::size_t pass = 0; pass < request_.options.most_passes; ++pass) {
            if (pass > 0) aim_again();
            simulate_pass(pass);
            if (is_cancelled_) return std::nullopt;
            weigh();
            if (is_enough()) break;
        }
        Belief belief = summarise_histories(posterior());
        return is_cancelled_ ? std::nullopt : std::optional(std::move(belief));
    }

  private:
    /// Asks, unless another thread is asking. What is cancelled stays so.
    [[nodiscard]] bool is_cancelled() {
        if (!goes_on_ || is_cancelled_) return is_cancelled_;
        const std::unique_lock lock(asking_, std::try_to_lock);
        if (lock.owns_lock() && !is_cancelled_ && !goes_on_()) is_cancelled_ = true;
        return is_cancelled_;
    }

    [[nodiscard]] std::size_t draw_count() const { return ensemble_.draws.size(); }

    [[nodiscard]] bool is_enough() const {
        const double wanted = request_.options.enough_effective * static_cast<double>(draw_count());
        return effective_number(weights_) >= wanted;
    }

    void aim_first() {
        found_ = chances_to_be_found(*request_.scenario, sources_, request_.looks, request_.at,
                                     ensemble_.fixed, ensemble_.mode);
        proposals_.emplace_back(sources_, found_, finds_ > 1 ? second_introduction : 0);
    }

    /// Towards what the passes so far found more likely than it was before.
    void aim_again() {
        std::vector<double> pull(sources_.cells.size());
        for (std::size_t i = 0; i < histories_.size(); ++i) {
            for (const std::uint32_t cell : histories_[i].cells) pull[cell] += weights_[i];
        }
        for (std::size_t c = 0; c < pull.size(); ++c)
            pull[c] = std::max(0.0, pull[c] - sources_.cells[c].chance);
        const double gained = std::accumulate(pull.begin(), pull.end(), 0.0);
        const std::vector<double>& first = proposals_.front().pull();
        for (std::size_t c = 0; c < pull.size(); ++c)
            pull[c] = keep_aiming * first[c] + (gained > 0 ? (1 - keep_aiming) * pull[c] / gained : 0);
        proposals_.emplace_back(sources_, std::move(pull), finds_ > 1 ? second_introduction : 0);
    }

    /// Histories per draw in this pass: half alike, half by the weight of the draw.
    [[nodiscard]] std::vector<std::uint32_t> share_out(std::size_t pass) const {
        const std::size_t n = draw_count();
        std::vector<std::uint32_t> counts(n, static_cast<std::uint32_t>(request_.options.histories));
        if (pass == 0) return counts;
        const std::vector<double> by_draw = draw_weights();
        const auto all = static_cast<double>(n * request_.options.histories);
        double up_to = 0;
        double given = 0;
        for (std::size_t d = 0; d < n; ++d) {
            up_to += all * (spread_evenly / static_cast<double>(n) + (1 - spread_evenly) * by_draw[d]);
            const double whole = std::floor(up_to + 0.5);
            counts[d] = static_cast<std::uint32_t>(whole - given);
            given = whole;
        }
        return counts;
    }

    void simulate_pass(std::size_t pass) {
        const std::size_t first = histories_.size();
        counts_.push_back(share_out(pass));
        for (std::uint32_t d = 0; d < draw_count(); ++d) {
            for (std::uint32_t i = 0; i < counts_.back()[d]; ++i) histories_.emplace_back().draw = d;
        }
        outcomes_.resize(histories_.size());
        constexpr std::size_t grain = 64;
        const std::size_t chunks = (histories_.size() - first + grain - 1) / grain;
        tbb::parallel_for(std::size_t{0}, chunks, [&](std::size_t chunk) {
            if (is_cancelled()) return;
            Lineage lineage(terrain_, {request_.options.crowd, true, request_.prior.errors});
            const std::size_t begin = first + chunk * grain;
            const std::size_t end = std::min(begin + grain, histories_.size());
            for (std::size_t i = begin; i < end; ++i) simulate_one(lineage, i);
        });
    }

    void simulate_one(Lineage& lineage, std::size_t index) {
        History& history = histories_[index];
        base::RandomStream choice(request_.seed, static_cast<std::uint32_t>(index), choice_stream);
        history.cells = proposals_.back().draw(choice);
        Outcome outcome = follow(lineage, index);
        history.log_likelihood = log_likelihood(history.draw, outcome);
        history.cause = outcome.cause;
        history.alive = outcome.alive;
        remember(index, std::move(outcome));
    }

    /// How a history ended, as long as there is room: one that is kept and was not remembered is lived again.
    void remember(std::size_t index, Outcome outcome) {
        if (rows_remembered_.fetch_add(outcome.mites.size()) < most_remembered)
            outcomes_[index] = std::move(outcome);
    }

    /// The same history whenever it is asked for again.
    Outcome follow(Lineage& lineage, std::size_t index) {
        History& history = histories_[index];
        base::RandomStream random(request_.seed, static_cast<std::uint32_t>(index), history_stream);
        std::vector<Founder> founders;
        history.entered.clear();
        for (std::uint32_t slot = 0; slot < history.cells.size(); ++slot) {
            const std::size_t before = founders.size();
            add_founders(sources_, history.cells[slot], slot, paces_[history.draw], random, founders);
            history.entered.push_back(founders[before].time);
        }
        Outcome outcome = lineage.run(paces_[history.draw], founders, history.cells.size(), random);
        history.newcomers.clear();
        for (const std::uint32_t find : outcome.newcomers) {
            history.newcomers.push_back(sources_.just_then(request_.looks[find].place));
            history.entered.push_back(request_.looks[find].time);
        }
        return outcome;
    }

    /// A clean check that no mite was in sight of is certain.
    [[nodiscard]] double log_likelihood(std::uint32_t draw, const Outcome& outcome) const {
        double sum = 0;
        for (const Find& find : outcome.finds) sum += std::log(find.likelihood);
        for (const auto& [index, mites] : outcome.visible) {
            const scenario::Look& look = request_.looks[index];
            if (scenario::is_find(look)) continue;
            sum += std::log(likelihood_of(look, mites, paces_[draw].eyes_of(look), request_.prior.errors));
        }
        return sum;
    }

    /// ln of the weight of history i: likelihood times prior over the mixture of all passes (balance
    /// heuristic).
    [[nodiscard]] double log_weight(const History& history) const {
        double drawn = 0;
        for (std::size_t s = 0; s < proposals_.size(); ++s)
            drawn += counts_[s][history.draw] * proposals_[s].ratio(history.cells);
        return history.log_likelihood - std::log(drawn);
    }

    /// Where nothing was found, that nothing came in is one more possibility; its weight is known.
    [[nodiscard]] double log_weight_of_nothing() const { return std::log(sources_.none); }

    void weigh() {
        weights_.resize(histories_.size());
        tbb::parallel_for(std::size_t{0}, histories_.size(),
                          [&](std::size_t i) { weights_[i] = log_weight(histories_[i]); });
        double most = *std::max_element(weights_.begin(), weights_.end());
        if (finds_ == 0) most = std::max(most, log_weight_of_nothing());
        double sum = 0;
        for (double& weight : weights_) sum += weight = std::exp(weight - most);
        nothing_ = finds_ == 0 ? std::exp(log_weight_of_nothing() - most) : 0;
        sum += nothing_ * static_cast<double>(draw_count());
        for (double& weight : weights_) weight /= sum;
        nothing_ /= sum;
    }

    [[nodiscard]] std::vector<double> draw_weights() const {
        std::vector<double> by_draw(draw_count(), nothing_);
        for (std::size_t i = 0; i < histories_.size(); ++i) by_draw[histories_[i].draw] += weights_[i];
        return by_draw;
    }

    [[nodiscard]] Posterior posterior() const {
        return {histories_, weights_, nothing_, draw_weights(), sources_, finds_ > 0};
    }

    Belief summarise_histories(const Posterior& all) {
        Belief belief = summarise(all);
        belief.at = request_.at;
        belief.looks = request_.looks.size();
        for (const mites::MiteParameters& draw : ensemble_.draws) belief.shapes.push_back(draw.erlang_shape);
        collect_particles(belief);
        return belief;
    }

    /// Who is alive in the heavier histories.
    void collect_particles(Belief& belief) {
        const std::vector<Kept> kept = thin(histories_, weights_, draw_count(), request_.options.kept,
                                            base::RandomStream(request_.seed, 0, resampling_stream));
        std::vector<Particle> particles(kept.size());
        std::vector<std::vector<double>> doubts(kept.size());
        tbb::parallel_for(std::size_t{0}, (kept.size() + 15) / 16, [&](std::size_t chunk) {
            if (is_cancelled()) return;
            Lineage lineage(terrain_, {request_.options.crowd, true, request_.prior.errors});
            for (std::size_t i = chunk * 16; i < std::min(kept.size(), chunk * 16 + 16); ++i) {
                std::optional<Outcome>& known = outcomes_[kept[i].history];
                Outcome outcome = known ? std::move(*known) : follow(lineage, kept[i].history);
                doubts[i] = doubts_of(kept[i], outcome);
                particles[i] = particle_of(kept[i], std::move(outcome));
            }
        });
        if (is_cancelled_) return;
        add_doubts(kept, doubts, belief);
        std::size_t next = 0;
        for (std::uint32_t d = 0; d < draw_count(); ++d) {
            if (nothing_ > 0) belief.particles.push_back({nothing_, d, std::nan(""), {}, {}});
            for (; next < particles.size() && particles[next].draw == d; ++next)
                belief.particles.push_back(std::move(particles[next]));
        }
    }

    [[nodiscard]] Particle particle_of(const Kept& kept, Outcome outcome) const {
        const History& history = histories_[kept.history];
        Particle particle{kept.weight, history.draw, 0, {}, std::move(outcome.mites)};
        particle.entered_on = *std::min_element(history.entered.begin(), history.entered.end());
        for (const std::uint32_t introduction : history.introductions(sources_)) {
            if (particle.introductions.empty() || particle.introductions.back() != introduction)
                particle.introductions.push_back(introduction);
        }
        return particle;
    }

    /// Per look: how far it rests on the record being wrong, in this history.
    [[nodiscard]] std::vector<double> doubts_of(const Kept& kept, const Outcome& outcome) const {
        std::vector<double> doubts(request_.looks.size());
        for (const Find& find : outcome.finds) doubts[find.look] = find.doubt;
        const Pace& pace = paces_[histories_[kept.history].draw];
        for (const auto& [index, mites] : outcome.visible) {
            const scenario::Look& look = request_.looks[index];
            if (scenario::is_find(look)) continue;
            const double doubt = doubt_of(look, mites, pace.eyes_of(look), request_.prior.errors);
            doubts[index] = std::max(0.0, doubt - request_.prior.errors.careless);
        }
        return doubts;
    }

    void add_doubts(const std::vector<Kept>& kept, const std::vector<std::vector<double>>& doubts,
                    Belief& belief) const {
        constexpr double worth_telling = 0.2;
        for (std::uint32_t l = 0; l < request_.looks.size(); ++l) {
            double chance = 0;
            for (std::size_t i = 0; i < kept.size(); ++i) chance += kept[i].weight * doubts[i][l];
            if (chance >= worth_telling) belief.doubts.push_back({l, std::min(1.0, chance)});
        }
        std::stable_sort(belief.doubts.begin(), belief.doubts.end(),
                         [](const Doubt& a, const Doubt& b) { return a.chance > b.chance; });
    }

    const BeliefRequest& request_;
    const GoesOn& goes_on_;
    std::mutex asking_;
    std::atomic<bool> is_cancelled_ = false;
    const mites::Ensemble& ensemble_;
    Terrain terrain_;
    Sources sources_;
    std::vector<Pace> paces_;
    std::size_t finds_ = 0;
    std::vector<double> found_;
    std::vector<Proposal> proposals_;                 ///< per pass
    std::vector<std::vector<std::uint32_t>> counts_;  ///< histories per pass and draw
    std::vector<History> histories_;
    std::vector<std::optional<Outcome>> outcomes_;  ///< per history
    std::atomic<std::size_t> rows_remembered_ = 0;
    std::vector<double> weights_;  ///< of all histories; with nothing_ for every draw they sum to 1
    double nothing_ = 0;           ///< per draw: that nothing came in
};

}  // namespace

Belief believe(const BeliefRequest& request) { return *believe(request, {}); }

std::optional<Belief> believe(const BeliefRequest& request, const GoesOn& goes_on) {
    base::expects(request.scenario != nullptr && request.ensemble != nullptr, "a belief has a scenario");
    base::expects(request.options.histories > 0 && request.options.most_passes > 0, "a belief is simulated");
    return Believer(request, goes_on).run();
}

Belief believe_records(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                       const IntroductionPrior& prior, std::uint64_t seed) {
    return *believe_records(known, ensemble, prior, seed, {});
}

std::optional<Belief> believe_records(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                                      const IntroductionPrior& prior, std::uint64_t seed,
                                      const GoesOn& goes_on) {
    BeliefRequest request;
    request.scenario = &known.scenario;
    request.ensemble = &ensemble;
    request.looks = known.looks;
    request.arrivals = known.arrivals;
    request.outside = known.outside;
    request.at = known.from;
    request.prior = prior;
    request.seed = seed;
    return believe(request, goes_on);
}

}  // namespace mitefall::belief
