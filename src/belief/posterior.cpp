#include "belief/posterior.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "base/band.h"
#include "base/contract.h"
#include "branching/lanes.h"

namespace mitefall::belief {
namespace {

using Weighted = std::vector<std::pair<double, double>>;

/// Relative entropy of one yes-or-no question, bits.
double bits_between(double after, double before) {
    const auto term = [](double p, double q) { return p > 0 && q > 0 ? p * std::log2(p / q) : 0; };
    return term(after, before) + term(1 - after, 1 - before);
}

/// Adds history i to the introductions it has, each once, and shares out what was seen.
void add_history(const Posterior& all, std::size_t i, Belief& belief, std::vector<Weighted>& entered) {
    const History& history = all.histories[i];
    const double weight = all.weights[i];
    const std::vector<double>& cause = history.course.cause;
    const double seen = std::accumulate(cause.begin(), cause.end(), 0.0);
    std::uint32_t before = static_cast<std::uint32_t>(-1);
    const std::vector<std::uint32_t> introductions = history.introductions(all.sources);
    for (std::size_t c = 0; c < introductions.size(); ++c) {
        const std::uint32_t index = introductions[c];
        Introduction& introduction = belief.introductions[index];
        if (index != before) introduction.posterior += weight;
        before = index;
        const double share = seen > 0 ? cause[c] / seen : 0;
        introduction.behind += weight * share;
        // Of an introduction behind what was seen the day is asked; of one that merely happened too, less.
        const double telling = seen > 0 ? share : 1;
        if (weight * telling > 0) entered[index].emplace_back(history.entered[c], weight * telling);
    }
}

void add_doubts(const Posterior& all, Belief& belief) {
    constexpr double worth_telling = 0.2;
    std::map<std::uint32_t, double> chances;
    for (std::size_t i = 0; i < all.histories.size(); ++i) {
        for (const auto& [look, doubt] : all.histories[i].doubts) chances[look] += all.weights[i] * doubt;
    }
    for (const auto& [look, chance] : chances) {
        if (chance >= worth_telling) belief.doubts.push_back({look, std::min(1.0, chance)});
    }
    std::stable_sort(belief.doubts.begin(), belief.doubts.end(),
                     [](const Doubt& a, const Doubt& b) { return a.chance > b.chance; });
}

/// Threshold c with sum min(w / c, 1) = most; 0 if there are no more than that.
double threshold_of(std::vector<double> weights, std::size_t most) {
    std::erase_if(weights, [](double w) { return !(w > 0); });
    if (weights.size() <= most) return 0;
    std::sort(weights.begin(), weights.end(), std::greater<>());
    double rest = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (std::size_t heavy = 0; heavy < most; ++heavy) {
        const double c = rest / static_cast<double>(most - heavy);
        if (weights[heavy] <= c) return c;
        rest -= weights[heavy];
    }
    return weights[most];
}

}  // namespace

std::vector<std::uint32_t> History::introductions(const Sources& sources) const {
    std::vector<std::uint32_t> all;
    for (const std::uint32_t cell : cells) all.push_back(sources.cells[cell].introduction);
    all.insert(all.end(), newcomers.begin(), newcomers.end());
    return all;
}

double effective_number(const std::vector<double>& weights) {
    double sum = 0;
    double squares = 0;
    for (const double w : weights) {
        sum += w;
        squares += w * w;
    }
    return squares > 0 ? sum * sum / squares : 0;
}

double effective_families(const std::vector<History>& histories, const std::vector<double>& weights,
                          double nothing, std::size_t draws) {
    std::map<std::uint32_t, double> families;
    for (std::size_t i = 0; i < histories.size(); ++i) families[histories[i].family] += weights[i];
    std::vector<double> together;
    if (nothing > 0) together.assign(draws, nothing);
    for (const auto& [family, weight] : families) together.push_back(weight);
    return effective_number(together);
}

Belief summarise(const Posterior& all) {
    Belief belief;
    belief.introductions = all.sources.introductions;
    belief.sighted = all.sighted;
    belief.draw_weight = all.draw_weight;
    belief.effective_draws = effective_number(all.draw_weight);
    belief.nothing_came = all.nothing * static_cast<double>(all.draw_weight.size());
    belief.histories = all.simulated;
    belief.effective_particles =
        effective_families(all.histories, all.weights, all.nothing, all.draw_weight.size());
    std::vector<Weighted> entered(belief.introductions.size());
    for (std::size_t i = 0; i < all.histories.size(); ++i) {
        add_history(all, i, belief, entered);
        if (!all.histories[i].course.mites.empty()) belief.alive += all.weights[i];
    }
    const double something = all.sighted ? 1 - all.sources.none : 1;
    for (std::size_t i = 0; i < belief.introductions.size(); ++i) {
        Introduction& one = belief.introductions[i];
        one.prior = std::min(1.0, one.prior / something);
        one.posterior = std::min(1.0, one.posterior);
        belief.information += bits_between(one.posterior, one.prior);
        one.entered_p10 = base::weighted_quantile(entered[i], 0.1);
        one.entered_p50 = base::weighted_quantile(entered[i], 0.5);
        one.entered_p90 = base::weighted_quantile(std::move(entered[i]), 0.9);
    }
    add_doubts(all, belief);
    return belief;
}

std::vector<Kept> thin(const std::vector<History>& histories, const std::vector<double>& weights,
                       std::size_t draws, std::size_t most, base::RandomStream random) {
    std::vector<std::vector<std::size_t>> by_draw(draws);
    for (std::size_t i = 0; i < histories.size(); ++i) by_draw[histories[i].draw].push_back(i);
    std::vector<Kept> kept;
    for (const auto& members : by_draw) {
        std::vector<double> of_draw;
        for (const std::size_t i : members) of_draw.push_back(weights[i]);
        const double threshold = threshold_of(std::move(of_draw), most);
        // Light ones are met by a comb with teeth one threshold apart.
        double comb = random.uniform() * threshold;
        for (const std::size_t i : members) {
            if (!(weights[i] > 0)) continue;
            if (weights[i] >= threshold) {
                kept.push_back({i, weights[i]});
                continue;
            }
            comb -= weights[i];
            if (comb >= 0) continue;
            kept.push_back({i, threshold});
            comb += threshold;
        }
    }
    return kept;
}

namespace {

void set_range(const Weighted& numbers, PlaceBelief& place) {
    const base::Band band = base::band_between(base::weighted_quantile(numbers, 0.1), place.expected,
                                               base::weighted_quantile(numbers, 0.9));
    place.p10 = band.p10;
    place.p90 = band.p90;
}

}  // namespace

std::vector<PlaceBelief> mites_by_place(const Belief& belief, std::size_t place_count) {
    std::vector<PlaceBelief> places(place_count);
    std::vector<Weighted> numbers(place_count);
    for (const Particle& particle : belief.particles) {
        for (std::size_t m = 0; m < particle.mites.size();) {
            const scenario::PlaceIndex place = particle.mites[m].place;
            double count = 0;
            for (; m < particle.mites.size() && particle.mites[m].place == place; ++m)
                count += particle.mites[m].count;
            places[place].any += particle.weight;
            places[place].expected += particle.weight * count;
            numbers[place].emplace_back(count, particle.weight);
        }
    }
    for (scenario::PlaceIndex p = 0; p < place_count; ++p) {
        places[p].any = std::min(1.0, places[p].any);
        numbers[p].emplace_back(0, 1 - places[p].any);
        set_range(numbers[p], places[p]);
    }
    return places;
}

PlaceBelief mites_in_all(const Belief& belief) {
    PlaceBelief all;
    Weighted numbers;
    for (const Particle& particle : belief.particles) {
        double count = 0;
        for (const scenario::MiteCount& mites : particle.mites) count += mites.count;
        if (count > 0) all.any += particle.weight;
        all.expected += particle.weight * count;
        numbers.emplace_back(count, particle.weight);
    }
    all.any = std::min(1.0, all.any);
    set_range(numbers, all);
    return all;
}

void put_heavy_blocks_first(mites::Ensemble& ensemble, Belief& belief) {
    constexpr std::size_t lanes = branching::lane_count;
    base::expects(belief.draw_weight.size() == ensemble.draws.size(), "a belief over these draws");
    std::vector<double> weight(ensemble.draws.size() / lanes);
    for (std::size_t d = 0; d < ensemble.draws.size(); ++d) weight[d / lanes] += belief.draw_weight[d];
    std::vector<std::size_t> order(weight.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return weight[a] > weight[b]; });
    std::vector<std::uint32_t> new_place(ensemble.draws.size());
    const mites::Ensemble draws = ensemble;
    const std::vector<double> weights = belief.draw_weight;
    const std::vector<int> shapes = belief.shapes;
    for (std::uint32_t d = 0; d < new_place.size(); ++d) {
        const std::size_t from = order[d / lanes] * lanes + d % lanes;
        new_place[from] = d;
        ensemble.draws[d] = draws.draws[from];
        belief.draw_weight[d] = weights[from];
        belief.shapes[d] = shapes[from];
    }
    for (Particle& particle : belief.particles) particle.draw = new_place[particle.draw];
    std::stable_sort(belief.particles.begin(), belief.particles.end(),
                     [](const Particle& a, const Particle& b) { return a.draw < b.draw; });
}

Shortlist shorten(const mites::Ensemble& ensemble, const Belief& belief, std::size_t count, int shape) {
    base::expects(count > 0 && count % branching::lane_count == 0, "draws come in whole blocks");
    Shortlist list{{ensemble.fixed, ensemble.mode, {}}, belief};
    list.belief.particles.clear();
    list.belief.shapes.clear();
    list.belief.draw_weight.assign(count, 1.0 / static_cast<double>(count));
    double up_to = 0;
    std::size_t draw = 0;
    for (std::uint32_t i = 0; i < count; ++i) {
        const double middle = (i + 0.5) / static_cast<double>(count);
        while (draw + 1 < belief.draw_weight.size() && up_to + belief.draw_weight[draw] < middle)
            up_to += belief.draw_weight[draw++];
        list.ensemble.draws.push_back(ensemble.draws[draw]);
        list.ensemble.draws[i].erlang_shape = shape;
        list.belief.shapes.push_back(belief.shapes[draw]);
        for (const Particle& particle : belief.particles) {
            if (particle.draw != draw) continue;
            list.belief.particles.push_back(particle);
            Particle& copy = list.belief.particles[list.belief.particles.size() - 1];
            copy.draw = i;
            copy.weight /= belief.draw_weight[draw] * static_cast<double>(count);
        }
    }
    return list;
}

}  // namespace mitefall::belief
