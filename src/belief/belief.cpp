#include "belief/belief.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <iterator>
#include <limits>
#include <mutex>
#include <numeric>
#include <set>

#include "base/contract.h"
#include "belief/filter.h"
#include "belief/posterior.h"
#include "belief/proposal.h"
#include "belief/prospects.h"

namespace mitefall::belief {
namespace {

constexpr std::uint32_t resampling_stream = 13;
constexpr double keep_aiming = 0.4;    // of a pass aimed as the first one was
constexpr double spread_evenly = 0.5;  // of a pass shared out among draws regardless of their weight

/// Places where mites were found.
std::size_t places_found(std::span<const scenario::Look> looks) {
    std::set<scenario::PlaceIndex> places;
    for (const scenario::Look& look : looks) {
        if (scenario::is_find(look)) places.insert(look.place);
    }
    return places.size();
}

/// The whole computation, pass by pass.
class Believer {
  public:
    Believer(const BeliefRequest& request, const GoesOn& goes_on)
        : request_(request),
          goes_on_(goes_on),
          ensemble_(*request.ensemble),
          terrain_(*request.scenario, request.looks, request.at),
          sources_(list_sources(*request.scenario, {request.arrivals, request.outside}, request.looks,
                                request.at, request.prior)),
          prospects_(terrain_, sources_, moments_to_choose(request.looks, request.at), ensemble_.fixed,
                     ensemble_.mode),
          ways_in_(std::clamp<std::size_t>(places_found(request.looks), 1, Proposal::most_ways_in)) {
        for (const mites::MiteParameters& draw : ensemble_.draws)
            paces_.emplace_back(terrain_, ensemble_.fixed, draw);
    }

    std::optional<Belief> run() {
        for (std::size_t pass = 0; pass < request_.options.most_passes; ++pass) {
            go_through(pass, pass == 0 ? aimed_first() : aimed_again());
            if (is_cancelled_) return std::nullopt;
            weigh();
            if (is_enough()) break;
        }
        return summarise_histories();
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

    [[nodiscard]] bool sighted() const { return !terrain_.finds().empty(); }

    [[nodiscard]] bool is_enough() const {
        const BeliefOptions& options = request_.options;
        const double per_draw = sighted() ? options.enough_effective : options.enough_without_finds;
        const double enough = per_draw * static_cast<double>(draw_count());
        return effective_families(histories_, weights_, 0, 0) >= std::max(options.least_effective, enough);
    }

    [[nodiscard]] Proposal aimed_first() {
        std::vector<double> found(sources_.cells.size());
        for (std::uint32_t c = 0; sighted() && c < found.size(); ++c)
            found[c] = sources_.cells[c].chance * prospects_.chance_of(c);
        Proposal proposal(sources_, std::move(found), ways_in_);
        first_pull_ = proposal.pull();
        return proposal;
    }

    /// Towards what the passes so far found more likely than it was before.
    [[nodiscard]] Proposal aimed_again() const {
        std::vector<double> pull(sources_.cells.size());
        for (std::size_t i = 0; i < histories_.size(); ++i) {
            for (const std::uint32_t cell : histories_[i].cells) pull[cell] += weights_[i];
        }
        for (std::size_t c = 0; c < pull.size(); ++c)
            pull[c] = std::max(0.0, pull[c] - sources_.cells[c].chance);
        const double gained = std::accumulate(pull.begin(), pull.end(), 0.0);
        for (std::size_t c = 0; c < pull.size(); ++c)
            pull[c] = keep_aiming * first_pull_[c] + (gained > 0 ? (1 - keep_aiming) * pull[c] / gained : 0);
        return {sources_, std::move(pull), ways_in_};
    }

    /// Histories per draw in this pass: half alike, half by the weight of the draw.
    [[nodiscard]] std::vector<std::uint32_t> share_out(std::size_t pass) const {
        const std::size_t n = draw_count();
        const std::size_t each =
            std::max(request_.options.histories, (request_.options.least_histories + n - 1) / n);
        std::vector<std::uint32_t> counts(n, static_cast<std::uint32_t>(each));
        if (pass == 0) return counts;
        const std::vector<double> by_draw = draw_weights();
        const auto all = static_cast<double>(n * each);
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

    void go_through(std::size_t pass, const Proposal& proposal) {
        const std::vector<std::uint32_t> counts = share_out(pass);
        std::vector<History> gone = filter({request_, terrain_, sources_, paces_, prospects_}, proposal,
                                           counts, begun_, [this] { return is_cancelled(); });
        histories_.insert(histories_.end(), std::move_iterator(gone.begin()), std::move_iterator(gone.end()));
        begun_ += std::accumulate(counts.begin(), counts.end(), std::size_t{0});
        ++passes_;
    }

    /// Where nothing was found, that nothing came in is one more possibility; its weight is known, that of
    /// each pass.
    [[nodiscard]] double log_weight_of_nothing() const {
        return std::log(sources_.none * static_cast<double>(passes_));
    }

    void weigh() {
        double most = sighted() ? -std::numeric_limits<double>::infinity() : log_weight_of_nothing();
        for (const History& history : histories_) most = std::max(most, history.log_weight);
        base::expects(std::isfinite(most), "some history explains the records");
        weights_.clear();
        double sum = 0;
        for (const History& history : histories_)
            sum += weights_.emplace_back(std::exp(history.log_weight - most));
        nothing_ = sighted() ? 0 : std::exp(log_weight_of_nothing() - most);
        sum += nothing_ * static_cast<double>(draw_count());
        for (double& weight : weights_) weight /= sum;
        nothing_ /= sum;
    }

    [[nodiscard]] std::vector<double> draw_weights() const {
        std::vector<double> by_draw(draw_count(), nothing_);
        for (std::size_t i = 0; i < histories_.size(); ++i) by_draw[histories_[i].draw] += weights_[i];
        return by_draw;
    }

    Belief summarise_histories() {
        Belief belief =
            summarise({histories_, weights_, nothing_, draw_weights(), begun_, sources_, sighted()});
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
        std::size_t next = 0;
        for (std::uint32_t d = 0; d < draw_count(); ++d) {
            if (nothing_ > 0) belief.particles.push_back({nothing_, d, std::nan(""), {}, {}});
            for (; next < kept.size() && histories_[kept[next].history].draw == d; ++next)
                belief.particles.push_back(particle_of(kept[next]));
        }
    }

    [[nodiscard]] Particle particle_of(const Kept& kept) const {
        const History& history = histories_[kept.history];
        Particle particle{kept.weight, history.draw, 0, {}, {}};
        particle.mites = counted(terrain_, paces_[history.draw], history.course.mites);
        particle.entered_on = *std::min_element(history.entered.begin(), history.entered.end());
        for (const std::uint32_t introduction : history.introductions(sources_)) {
            if (particle.introductions.empty() || particle.introductions.back() != introduction)
                particle.introductions.push_back(introduction);
        }
        return particle;
    }

    const BeliefRequest& request_;
    const GoesOn& goes_on_;
    std::mutex asking_;
    std::atomic<bool> is_cancelled_ = false;
    const mites::Ensemble& ensemble_;
    Terrain terrain_;
    Sources sources_;
    Prospects prospects_;
    std::size_t ways_in_;
    std::vector<Pace> paces_;
    std::vector<double> first_pull_;  ///< of the first pass
    std::size_t passes_ = 0;
    std::size_t begun_ = 0;
    std::vector<History> histories_;
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
    return believe(request_of(known, ensemble, prior, seed), goes_on);
}

BeliefRequest request_of(const scenario::RecordedCase& known, const mites::Ensemble& ensemble,
                         const IntroductionPrior& prior, std::uint64_t seed) {
    BeliefRequest request;
    request.scenario = &known.scenario;
    request.ensemble = &ensemble;
    request.looks = known.looks;
    request.arrivals = known.arrivals;
    request.outside = known.outside;
    request.at = known.from;
    request.prior = prior;
    request.seed = seed;
    return request;
}

}  // namespace mitefall::belief
