#include "belief/filter.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

#include "base/contract.h"
#include "belief/crowd.h"

namespace mitefall::belief {
namespace {

constexpr std::uint32_t choice_stream = 11;
constexpr std::uint32_t history_stream = 12;  // and 256 more for every moment
constexpr std::uint32_t selection_stream = 14;
constexpr std::size_t tries = 32;          // sets of cells looked at for one history, where mites were found
constexpr double carry_on = 0.5;           // of the histories; with more effective ones nothing is chosen
constexpr double mites_carried = 500'000;  // in all histories together, about
constexpr double fewest = 0.33;            // of the histories may be left at one choice
constexpr double worth_it = 0.7;           // choosing only to have fewer: if so much of them is left
constexpr std::size_t grain = 32;          // histories one thread takes at a time

class Filter {
  public:
    Filter(const FilterSetting& setting, const Proposal& proposal, std::span<const std::uint32_t> counts,
           std::size_t first, const std::function<bool()>& is_cancelled)
        : with_(setting), proposal_(proposal), counts_(counts), first_(first), is_cancelled_(is_cancelled) {
        for (std::uint32_t d = 0; d < counts.size(); ++d) {
            for (std::uint32_t i = 0; i < counts[d]; ++i) histories_.emplace_back().draw = d;
        }
    }

    std::vector<History> run() {
        const std::size_t moments = with_.prospects.times().size();
        for_each([this](Lineage&, std::size_t i) { begin(i); });
        for (std::size_t k = 0; k <= moments && !is_cancelled_(); ++k) {
            for_each([this, k](Lineage& lineage, std::size_t i) { go_on(lineage, i, k); });
            if (k < moments) choose(k);
        }
        return std::move(histories_);
    }

  private:
    template <typename F>
    void for_each(const F& f) {
        const std::size_t chunks = (histories_.size() + grain - 1) / grain;
        tbb::parallel_for(std::size_t{0}, chunks, [&](std::size_t chunk) {
            if (is_cancelled_()) return;
            Lineage lineage(with_.terrain, with_.request.options.carried_of(with_.request.prior.errors));
            const std::size_t end = std::min(chunk * grain + grain, histories_.size());
            for (std::size_t i = chunk * grain; i < end; ++i) f(lineage, i);
        });
    }

    [[nodiscard]] base::RandomStream random_of(std::size_t index, std::uint32_t stream) const {
        return {with_.request.seed, static_cast<std::uint32_t>(first_ + index), stream};
    }

    [[nodiscard]] bool looks_ahead() const { return !with_.prospects.times().empty(); }

    /// One of several sets of cells, picked by its hope and its weight (sampling-importance resampling, Rubin
    /// 1988): the mean weight goes on with it.
    void begin(std::size_t index) {
        History& history = histories_[index];
        base::RandomStream random = random_of(index, choice_stream);
        const std::size_t sets = looks_ahead() ? tries : 1;
        double best = -std::numeric_limits<double>::infinity();
        double sum = 0;  // of weights over the best so far
        for (std::size_t t = 0; t < sets; ++t) {
            std::vector<std::uint32_t> cells = proposal_.draw(random);
            const double hope = looks_ahead() ? with_.prospects.hope(with_.paces[history.draw], cells) : 0;
            const double weight = hope - std::log(proposal_.ratio(cells));
            if (weight > best) sum *= std::exp(best - weight);
            best = std::max(best, weight);
            const double scaled = std::exp(weight - best);
            sum += scaled;
            if (t > 0 && random.uniform() * sum >= scaled) continue;
            history.cells = std::move(cells);
            history.hope = hope;
        }
        history.family = static_cast<std::uint32_t>(first_ + index);
        history.log_weight = best + std::log(sum / static_cast<double>(sets) / counts_[history.draw]);
        let_in(history, random);
    }

    void let_in(History& history, base::RandomStream& random) const {
        std::vector<Founder>& founders = history.course.to_come;
        history.course.cause.assign(history.cells.size(), 0.0);
        for (std::uint32_t slot = 0; slot < history.cells.size(); ++slot) {
            const std::size_t before = founders.size();
            add_founders(with_.sources, history.cells[slot], slot, with_.paces[history.draw], random,
                         founders);
            history.entered.push_back(founders[before].time);
        }
    }

    /// To the next moment, or to the end.
    void go_on(Lineage& lineage, std::size_t index, std::size_t k) {
        History& history = histories_[index];
        const Pace& pace = with_.paces[history.draw];
        const bool last = k == with_.prospects.times().size();
        const double until = last ? with_.request.at : with_.prospects.times()[k];
        const std::size_t known = history.course.newcomers.size();
        const auto stream = history_stream + 256 * static_cast<std::uint32_t>(k);
        const Sights sights = lineage.advance(pace, history.course, until, random_of(index, stream));
        const double hope = last ? 0 : with_.prospects.hope(k, pace, history.course, history.cells);
        history.log_weight += weigh(sights, history) + hope - history.hope;
        history.hope = hope;
        for (std::size_t n = known; n < history.course.newcomers.size(); ++n) {
            const scenario::Look& look = with_.request.looks[history.course.newcomers[n]];
            history.newcomers.push_back(with_.sources.just_then(look.place));
            history.entered.push_back(look.time);
        }
    }

    /// ln of the chance of the looks; what is doubtful about them is noted. A clean check that no mite was in
    /// sight of is certain.
    [[nodiscard]] double weigh(const Sights& sights, History& history) const {
        double sum = 0;
        for (const Find& find : sights.finds) {
            sum += std::log(find.likelihood);
            history.doubts.emplace_back(find.look, find.doubt);
        }
        const RecordErrors& errors = with_.request.prior.errors;
        for (const auto& [index, mites] : sights.visible) {
            const scenario::Look& look = with_.request.looks[index];
            if (scenario::is_find(look)) continue;
            const Eyes& eyes = with_.paces[history.draw].eyes_of(look);
            sum += std::log(likelihood_of(look, mites, eyes, errors));
            const double doubt = doubt_of(look, mites, eyes, errors) - errors.careless;
            if (doubt > 0) history.doubts.emplace_back(index, doubt);
        }
        return sum;
    }

    /// Systematic resampling, where few carry the weight or all together carry more mites than they need.
    void choose(std::size_t k) {
        std::vector<double> weights(histories_.size());
        const double most = scaled_weights(weights);
        const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
        const auto n = static_cast<double>(histories_.size());
        const double wanted = number_to_keep(weights, sum);
        if (effective_number(weights) > carry_on * n && wanted > worth_it * n) return;
        const double step = sum / wanted;
        base::RandomStream random = random_of(k, selection_stream);
        std::vector<History> chosen;
        chosen.reserve(static_cast<std::size_t>(wanted) + 1);
        lay_comb(
            weights.size(), random.uniform() * step, step, [&](std::size_t i) { return weights[i]; },
            [&](std::size_t i) {
                chosen.push_back(histories_[i]);
                chosen[chosen.size() - 1].log_weight = most + std::log(step);
            });
        histories_ = std::move(chosen);
    }

    /// Over the largest of them, whose logarithm is given back.
    double scaled_weights(std::vector<double>& weights) const {
        double most = -std::numeric_limits<double>::infinity();
        for (const History& history : histories_) most = std::max(most, history.log_weight);
        base::expects(std::isfinite(most), "some history explains the records");
        for (std::size_t i = 0; i < weights.size(); ++i)
            weights[i] = std::exp(histories_[i].log_weight - most);
        return most;
    }

    /// Large outbreaks need fewer histories: each is a sample of many lives.
    [[nodiscard]] double number_to_keep(const std::vector<double>& weights, double sum) const {
        double mites = 0;
        for (std::size_t i = 0; i < weights.size(); ++i)
            mites += weights[i] / sum * static_cast<double>(histories_[i].course.mites.size());
        const auto n = static_cast<double>(histories_.size());
        return std::clamp(std::floor(mites_carried / (1 + mites)), std::ceil(fewest * n), n);
    }

    const FilterSetting& with_;
    const Proposal& proposal_;
    std::span<const std::uint32_t> counts_;
    std::size_t first_;
    const std::function<bool()>& is_cancelled_;
    std::vector<History> histories_;
};

}  // namespace

std::vector<History> filter(const FilterSetting& setting, const Proposal& proposal,
                            std::span<const std::uint32_t> counts, std::size_t first,
                            const std::function<bool()>& is_cancelled) {
    return Filter(setting, proposal, counts, first, is_cancelled).run();
}

std::vector<double> moments_to_choose(std::span<const scenario::Look> looks, double at) {
    constexpr std::array<double, 4> before{1, 2, 4, 7};  // days before a find
    constexpr double apart = 6;                          // days, at most
    constexpr std::size_t many_days = 4;  // days of finds, before all of which it would be too often
    std::set<double> days;
    std::set<double> wanted;
    for (const scenario::Look& look : looks) {
        if (scenario::is_find(look)) days.insert(std::floor(look.time));
    }
    if (days.empty()) return {};
    for (const double day : days) {
        const std::size_t close = days.size() > many_days && day != *days.rbegin() ? 2 : 0;
        for (std::size_t i = close; i < before.size(); ++i) wanted.insert(day - before[i]);
    }
    for (double day = std::floor(at) - before.back() - 3; day > 0; day -= apart) wanted.insert(day);
    std::vector<double> moments;
    for (const double day : wanted) {
        if (day >= 1 && day + between_events < at) moments.push_back(day + between_events);
    }
    return moments;
}

}  // namespace mitefall::belief
