#include "forecast/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <set>
#include <string_view>

#include "base/contract.h"
#include "base/random.h"

namespace mitefall::forecast {
namespace {

using base::expects;
using Numbers = std::vector<double>;
using Order = std::vector<std::size_t>;

constexpr std::size_t shuffles = 200;
constexpr std::size_t shuffles_below = 190;  ///< 19 of 20
constexpr std::uint64_t shuffle_seed = 1;
constexpr double least_classes = 3;
constexpr double most_classes = 40;
constexpr double one_in_a_million = 1e-6;

/// Variance below this part of the mean square is rounding.
constexpr double rounding = 1e-24;

/// Ranks are sums of weights: one this near to the edge of a class lies on the edge, and counts to the class
/// above it whichever way the sum was rounded.
constexpr double edge_rounding = 1e-9;

Order count_up(std::size_t size) {
    Order order(size);
    std::iota(order.begin(), order.end(), std::size_t{0});
    return order;
}

/// Weights that add up to 1.
Numbers normalised(const SensitivityRequest& request) {
    const std::size_t n = request.measure.size();
    if (request.weights.empty()) return Numbers(n, 1.0 / static_cast<double>(n));
    Numbers weights = request.weights;
    double sum = 0;
    for (const double w : weights) {
        expects(w >= 0 && std::isfinite(w), "weights are finite and not negative");
        sum += w;
    }
    expects(sum > 0, "some draw has a weight");
    for (double& w : weights) w /= sum;
    return weights;
}

/// Per draw the weight of all lower values and half that of its equals, 0 to 1.
Numbers ranks_of(const Numbers& values, const Numbers& weights) {
    Order order = count_up(values.size());
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    Numbers ranks(values.size());
    double below = 0;
    for (std::size_t i = 0; i < order.size();) {
        std::size_t end = i;
        double here = 0;
        for (; end < order.size() && values[order[end]] == values[order[i]]; ++end)
            here += weights[order[end]];
        for (; i < end; ++i) ranks[order[i]] = below + here / 2;
        below += here;
    }
    return ranks;
}

std::vector<std::uint32_t> classes_of(const Numbers& ranks, std::size_t count) {
    std::vector<std::uint32_t> class_of(ranks.size());
    const double last = static_cast<double>(count) - 1;
    for (std::size_t i = 0; i < ranks.size(); ++i)
        class_of[i] = static_cast<std::uint32_t>(
            std::clamp(std::floor(ranks[i] * (last + 1) + edge_rounding), 0.0, last));
    return class_of;
}

/// A quantity of the draws, centred on its mean, with the sums every share of it needs.
struct Spread {
    Numbers about_mean;
    double variance = 0;
    double weight_squares = 0;  ///< 1 / effective draws
    bool varies = false;
};

Spread spread_of(const Numbers& measure, const Numbers& weights) {
    Spread spread{measure, 0, 0, false};
    double mean = 0;
    for (std::size_t i = 0; i < measure.size(); ++i) mean += weights[i] * measure[i];
    for (std::size_t i = 0; i < measure.size(); ++i) {
        spread.about_mean[i] -= mean;
        spread.variance += weights[i] * spread.about_mean[i] * spread.about_mean[i];
        spread.weight_squares += weights[i] * weights[i];
    }
    spread.varies = spread.variance > rounding * (1 + mean * mean);
    return spread;
}

struct Share {
    double plain = 0;
    double corrected = 0;
};

/// Variance between classes. With weights w and classes k the means of classes that differ by chance alone
/// have E[between] = noise (B - sum w^2), E[within] = noise (1 - B), B = sum_k sum_{i in k} w_i^2 / W_k.
/// Draw i counts to the class of draw order[i].
Share share_between(const std::vector<std::uint32_t>& class_of, std::size_t count, const Spread& spread,
                    const Numbers& weights, const Order& order) {
    Numbers weight(count), sum(count), squares(count);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const std::uint32_t k = class_of[order[i]];
        weight[k] += weights[i];
        sum[k] += weights[i] * spread.about_mean[i];
        squares[k] += weights[i] * weights[i];
    }
    double between = 0;
    double freedom = 0;
    for (std::size_t k = 0; k < count; ++k) {
        if (!(weight[k] > 0)) continue;
        between += sum[k] * sum[k] / weight[k];
        freedom += squares[k] / weight[k];
    }
    if (!(freedom < 1)) return {1, 0};  // a draw to a class: it tells nothing
    const double noise = (spread.variance - between) / (1 - freedom);
    const double total = spread.variance / (1 - spread.weight_squares);
    return {between / spread.variance, (between - noise * (freedom - spread.weight_squares)) / total};
}

Order shuffled(std::size_t size, std::uint32_t number) {
    Order order = count_up(size);
    base::RandomStream random(shuffle_seed, number, 0);
    for (std::size_t i = size - 1; i > 0; --i) {
        const double at = random.uniform() * static_cast<double>(i + 1);
        std::swap(order[i], order[static_cast<std::size_t>(at)]);
    }
    return order;
}

/// An input while the search goes on.
struct Candidate {
    Influence influence;
    std::vector<std::uint32_t> class_of;
};

/// What the best candidate explains of `left` when draws are dealt out anew; the 95th percentile, not below
/// 0.
double chance_level_of(const std::vector<Candidate>& candidates, std::size_t count, const Spread& left,
                       const Numbers& weights) {
    Numbers best(shuffles);
    for (std::size_t s = 0; s < shuffles; ++s) {
        const Order order = shuffled(weights.size(), static_cast<std::uint32_t>(s));
        for (const Candidate& candidate : candidates)
            best[s] =
                std::max(best[s], share_between(candidate.class_of, count, left, weights, order).corrected);
    }
    std::sort(best.begin(), best.end());
    return best[shuffles_below];
}

/// What is left of a quantity once each class is told by its mean.
Numbers without_class_means(const std::vector<std::uint32_t>& class_of, std::size_t count, Numbers values,
                            const Numbers& weights) {
    Numbers weight(count), sum(count);
    for (std::size_t i = 0; i < values.size(); ++i) {
        weight[class_of[i]] += weights[i];
        sum[class_of[i]] += weights[i] * values[i];
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::uint32_t k = class_of[i];
        if (weight[k] > 0) values[i] -= sum[k] / weight[k];
    }
    return values;
}

bool explains_more(const Influence& a, const Influence& b) { return a.explained > b.explained; }

bool less_telling(const Candidate& a, const Candidate& b) { return explains_more(b.influence, a.influence); }

/// Names the strongest candidate, takes what it explains away, and asks the others anew, until the strongest
/// does no better than chance. Draws of many inputs resemble one another; so what only looks like a strong
/// input falls behind it.
Sensitivity search(std::vector<Candidate> candidates, std::size_t count, const Spread& all,
                   const Numbers& weights) {
    Sensitivity found;
    found.effective_draws = 1 / all.weight_squares;
    const Order as_drawn = count_up(weights.size());
    Spread left = all;
    while (all.varies && left.varies && !candidates.empty()) {
        const double part = left.variance / all.variance;
        for (Candidate& candidate : candidates)
            candidate.influence.explained =
                part * share_between(candidate.class_of, count, left, weights, as_drawn).corrected;
        found.chance_level = part * chance_level_of(candidates, count, left, weights);
        const auto best = std::max_element(candidates.begin(), candidates.end(), less_telling);
        if (!(best->influence.explained > found.chance_level)) break;
        found.named.push_back(best->influence);
        left = spread_of(without_class_means(best->class_of, count, left.about_mean, weights), weights);
        candidates.erase(best);
    }
    for (const Candidate& candidate : candidates) found.rest.push_back(candidate.influence);
    std::stable_sort(found.named.begin(), found.named.end(), explains_more);
    std::stable_sort(found.rest.begin(), found.rest.end(), explains_more);
    return found;
}

double correlation(const Numbers& a, const Numbers& b, const Numbers& weights) {
    const Spread of_a = spread_of(a, weights);
    const Spread of_b = spread_of(b, weights);
    if (!of_a.varies || !of_b.varies) return 0;
    double together = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        together += weights[i] * of_a.about_mean[i] * of_b.about_mean[i];
    return together / std::sqrt(of_a.variance * of_b.variance);
}

/// Where the outer thirds of an input lie and what the answer is there.
void tell_thirds(const DrawnInput& input, const Numbers& ranks, const Numbers& answer, const Numbers& weights,
                 Influence& influence) {
    const auto third = classes_of(ranks, 3);
    double weight[2] = {0, 0};
    double sum[2] = {0, 0};
    influence.low_up_to = *std::min_element(input.values.begin(), input.values.end());
    influence.high_from = *std::max_element(input.values.begin(), input.values.end());
    for (std::size_t i = 0; i < answer.size(); ++i) {
        if (third[i] == 1 || !(weights[i] > 0)) continue;
        const std::size_t high = third[i] == 2 ? 1 : 0;
        weight[high] += weights[i];
        sum[high] += weights[i] * answer[i];
        double& edge = high == 1 ? influence.high_from : influence.low_up_to;
        edge = high == 1 ? std::min(edge, input.values[i]) : std::max(edge, input.values[i]);
    }
    const double mean = std::inner_product(answer.begin(), answer.end(), weights.begin(), 0.0);
    influence.if_low = weight[0] > 0 ? sum[0] / weight[0] : mean;
    influence.if_high = weight[1] > 0 ? sum[1] / weight[1] : mean;
}

void check_request(const SensitivityRequest& request) {
    const std::size_t n = request.measure.size();
    expects(n > 1 && request.answer.size() == n, "an answer for every draw, and more than one draw");
    expects(request.weights.empty() || request.weights.size() == n, "a weight for every draw");
    const auto finite = [](const Numbers& numbers) {
        return std::all_of(numbers.begin(), numbers.end(), [](double x) { return std::isfinite(x); });
    };
    expects(finite(request.measure) && finite(request.answer), "answers are finite");
    for (const DrawnInput& input : request.inputs)
        expects(input.values.size() == n && finite(input.values), "a finite value for every draw");
}

Candidate candidate_of(const DrawnInput& input, const SensitivityRequest& request, std::size_t count,
                       const Spread& spread, const Numbers& weights) {
    const Numbers ranks = ranks_of(input.values, weights);
    Candidate candidate{{}, classes_of(ranks, count)};
    Influence& influence = candidate.influence;
    influence.key = input.key;
    tell_thirds(input, ranks, request.answer, weights, influence);
    if (!spread.varies) return candidate;
    influence.explained_plain =
        share_between(candidate.class_of, count, spread, weights, count_up(weights.size())).plain;
    influence.direction = correlation(ranks, ranks_of(request.answer, weights), weights);
    return candidate;
}

std::size_t class_count(const SensitivityRequest& request, const Spread& spread) {
    if (request.classes > 0) return request.classes;
    const double wanted = std::round(std::cbrt(1 / spread.weight_squares));
    return static_cast<std::size_t>(std::clamp(wanted, least_classes, most_classes));
}

}  // namespace

Sensitivity rank_influences(const SensitivityRequest& request) {
    check_request(request);
    const Numbers weights = normalised(request);
    const Spread spread = spread_of(request.measure, weights);
    const std::size_t count = class_count(request, spread);
    std::vector<Candidate> candidates;
    for (const DrawnInput& input : request.inputs)
        candidates.push_back(candidate_of(input, request, count, spread, weights));
    return search(std::move(candidates), count, spread, weights);
}

std::vector<DrawnInput> drawn_inputs(const mites::Ensemble& ensemble) {
    std::vector<DrawnInput> inputs;
    const auto add = [&](std::string_view key, auto value_in) {
        inputs.push_back({key, {}});
        for (const mites::MiteParameters& draw : ensemble.draws)
            inputs.back().values.push_back(value_in(draw));
    };
    std::set<std::string_view> told;  // by the parameter that is drawn with it
    for (const mites::ParameterField& field : mites::parameter_fields()) told.insert(field.drawn_with);
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        if (!told.contains(field.key))
            add(field.key, [&](const mites::MiteParameters& draw) { return draw.*field.member; });
    }
    add("erlang_shape",
        [](const mites::MiteParameters& draw) { return static_cast<double>(draw.erlang_shape); });
    add("sighting_quantile", [](const mites::MiteParameters& draw) { return draw.sighting_quantile; });
    return inputs;
}

std::vector<double> log_odds(std::span<const double> chances) {
    std::vector<double> odds;
    for (const double chance : chances) {
        const double p = std::clamp(chance, one_in_a_million, 1 - one_in_a_million);
        odds.push_back(std::log(p) - std::log1p(-p));
    }
    return odds;
}

}  // namespace mitefall::forecast
