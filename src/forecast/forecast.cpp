#include "forecast/forecast.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/contract.h"
#include "branching/passing.h"
#include "branching/side_by_side.h"

namespace mitefall::forecast {
namespace {

/// What one block of draws contributes.
struct BlockResult {
    branching::Lanes log_clear;                          ///< ln P(clear and every check clean)
    branching::Lanes log_clean;                          ///< ln P(every check clean)
    branching::Lanes weight = branching::Lanes::all(1);  ///< of each draw, before the checks
    branching::Lanes mites;
    std::vector<branching::Lanes> mites_by_place;
    std::size_t type_count = 0;
    std::size_t steps = 0;
};

/// What follows the last event of a scenario before the horizon.
struct Aftermath {
    double last_event = 0;  ///< days
    double begin = 0;       ///< the next moment there is: what happens at the last event is over
    scenario::Scenario scenario;
    network::Classes classes;  ///< coarser than those of the whole: only what is to come tells places apart
    std::string key;           ///< what a sweep over it depends on, but for draws and tolerance
};

std::optional<Aftermath> aftermath_of(const scenario::Scenario& scenario, double from, double to) {
    double last = from;
    for (const scenario::Event& event : scenario.events) {
        if (event.time <= to) last = std::max(last, event.time);
    }
    if (last <= from || last >= to || scenario.events.back().time > to) return std::nullopt;
    Aftermath after;
    after.last_event = last;
    after.begin = std::nextafter(last, to);
    after.scenario = scenario::forget_past(scenario, after.begin);
    after.classes = network::lump(after.scenario);
    return after;
}

scenario::Scenario set_places_apart(const ForecastRequest& request) {
    scenario::Scenario scenario = *request.scenario;
    set_apart(request.start, scenario);
    for (const scenario::PlaceIndex place : request.counted) scenario.places.at(place).set_apart = true;
    return scenario;
}

class Ensembler {
  public:
    explicit Ensembler(const ForecastRequest& request)
        : request_(request),
          scenario_(set_places_apart(request)),
          classes_(network::lump(scenario_)),
          after_(aftermath_of(scenario_, request.from, request.to)) {
        // A second solver works out its own weights: worth it where places fall together or tails are shared.
        const bool is_coarser = after_ && after_->classes.members.size() < classes_.members.size();
        if (request.tails == nullptr && !is_coarser) after_.reset();
        if (after_ && request.tails != nullptr)
            after_->key =
                fmt::format("{} {} {}", after_->begin, request.to, network::signature_of(after_->scenario));
        has_checks_ =
            std::any_of(scenario_.events.begin(), scenario_.events.end(), [&](const scenario::Event& event) {
                return event.time >= request.from && std::holds_alternative<scenario::CleanCheck>(event.what);
            });
        base::expects(!request.only_mode || !std::holds_alternative<const belief::Belief*>(request.start),
                      "a belief has no draw at the most likely values");
    }

    [[nodiscard]] std::size_t class_count() const { return classes_.members.size(); }
    [[nodiscard]] bool has_checks() const { return has_checks_; }

    [[nodiscard]] BlockResult run(std::span<const mites::MiteParameters> draws, std::size_t index) const {
        const network::MiteNetwork compiled =
            network::compile(scenario_, classes_, request_.ensemble->fixed, draws);
        const CompiledBlock block{compiled, classes_, request_.ensemble->fixed, draws, index};
        const BlockStart start(request_.start, block, request_.from, request_.tolerance);
        BlockResult result;
        result.type_count = compiled.network.type_count;
        branching::SweepResult clear = ask(branching::Question::no_survivor, block);
        result.steps = clear.steps;
        result.weight = start.weight();
        std::optional<branching::SweepResult> clean;
        if (has_checks_) {
            clean = ask(branching::Question::any_check_fails, block);
            result.steps += clean->steps;
            if (start.error_of(*clean, request_.tolerance) > error_left * request_.tolerance.relative) {
                branching::Passing exact =
                    branching::passing(compiled.network, request_.from, request_.to, at_horizon(block));
                clear.passing = std::move(exact.clear);
                clean->passing = std::move(exact.clean);
            }
            result.log_clean = start.log_chance(*clean);
        }
        result.log_clear = start.log_chance(clear);
        if (!request_.counts) return result;
        result.mites_by_place = start.by_place(clean ? &*clean : nullptr);
        for (const branching::Lanes& here : result.mites_by_place) {
            for (std::size_t lane = 0; lane < branching::lane_count; ++lane) result.mites[lane] += here[lane];
        }
        return result;
    }

    /// ln of the chance of one block's draws; see log_chances.
    [[nodiscard]] branching::Lanes log_chance_of(branching::Question question,
                                                 std::span<const mites::MiteParameters> draws,
                                                 std::size_t index) const {
        const network::MiteNetwork compiled =
            network::compile(scenario_, classes_, request_.ensemble->fixed, draws);
        const CompiledBlock block{compiled, classes_, request_.ensemble->fixed, draws, index};
        const BlockStart start(request_.start, block, request_.from, request_.tolerance);
        return start.log_chance(ask(question, block));
    }

  private:
    /// Of ln P(clean), in units of the error of a step: more would show in an answer.
    static constexpr double error_left = 10;

    [[nodiscard]] branching::SweepResult ask(branching::Question question, const CompiledBlock& block) const {
        const branching::Network& network = block.compiled.network;
        if (question == branching::Question::any_check_fails)
            return branching::sweep(network, request_.from, request_.to, question, request_.tolerance);
        if (!after_)
            return branching::sweep(network, request_.from, request_.to, at_horizon(block),
                                    request_.tolerance);
        return branching::go_on(network, request_.from, after_->last_event, spread(*tail_of(block), block),
                                request_.tolerance);
    }

    [[nodiscard]] std::shared_ptr<const Tail> tail_of(const CompiledBlock& whole) const {
        const auto sweep_tail = [&] {
            const network::MiteNetwork compiled =
                network::compile(after_->scenario, after_->classes, whole.fixed, whole.draws);
            const CompiledBlock block{compiled, after_->classes, whole.fixed, whole.draws, whole.index};
            return Tail{compiled.layout, branching::sweep(compiled.network, after_->begin, request_.to,
                                                          at_horizon(block), request_.tolerance)};
        };
        if (request_.tails == nullptr) return std::make_shared<const Tail>(sweep_tail());
        return request_.tails->find(fmt::format("{} {}", whole.index, after_->key), sweep_tail);
    }

    /// The tail over the classes of the whole: those alike from the start are alike after the last event.
    [[nodiscard]] branching::SweepResult spread(const Tail& tail, const CompiledBlock& whole) const {
        branching::SweepResult spread{std::vector<branching::Lanes>(whole.compiled.network.type_count),
                                      tail.swept.imported,
                                      tail.swept.steps,
                                      {}};
        for (std::size_t c = 0; c < classes_.members.size(); ++c) {
            const scenario::PlaceIndex place = classes_.members[c].front();
            for (const mites::Stage stage : mites::all_stages) {
                const branching::TypeIndex to = whole.type_of(place, stage);
                if (to == branching::no_type) continue;
                const branching::TypeIndex from =
                    tail.layout.first[after_->classes.class_of[place]][static_cast<std::size_t>(stage)];
                std::copy_n(tail.swept.failure.begin() + from, tail.layout.substages(stage),
                            spread.failure.begin() + to);
            }
        }
        return spread;
    }

    /// v at the horizon: 1 where a survivor counts.
    [[nodiscard]] std::vector<double> at_horizon(const CompiledBlock& block) const {
        const std::uint32_t types = block.compiled.network.type_count;
        if (request_.counted.empty()) return std::vector<double>(types, 1.0);
        std::vector<double> v(types);
        for (const scenario::PlaceIndex place : request_.counted) {
            for (const mites::Stage stage : mites::all_stages) {
                const branching::TypeIndex first = block.type_of(place, stage);
                if (first == branching::no_type) continue;
                std::fill_n(v.begin() + first, block.compiled.layout.substages(stage), 1.0);
            }
        }
        return v;
    }

    const ForecastRequest& request_;
    scenario::Scenario scenario_;
    network::Classes classes_;
    std::optional<Aftermath> after_;
    bool has_checks_ = false;
};

std::vector<mites::MiteParameters> draws_of(const ForecastRequest& request) {
    const mites::Ensemble& ensemble = *request.ensemble;
    if (request.only_mode) return std::vector<mites::MiteParameters>(branching::lane_count, ensemble.mode);
    const std::size_t wanted =
        request.blocks == 0 ? ensemble.draws.size() : request.blocks * branching::lane_count;
    base::expects(wanted > 0 && wanted <= ensemble.draws.size(), "the ensemble has the draws asked for");
    return {ensemble.draws.begin(), ensemble.draws.begin() + static_cast<std::ptrdiff_t>(wanted)};
}

template <class F>
std::vector<double> over_draws(const std::vector<BlockResult>& blocks, F value) {
    std::vector<double> values;
    for (const BlockResult& block : blocks) {
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) values.push_back(value(block, lane));
    }
    return values;
}

/// What each draw weighs: as much as before times the chance that its checks are clean (Bayes).
std::vector<double> weights_of(const std::vector<BlockResult>& blocks) {
    return base::weigh(
        over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.weight[lane]; }),
        over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.log_clean[lane]; }));
}

/// Being clear as well is never likelier than being clean, but for the solver's error.
double chance_of(const Ensembler& ensembler, const BlockResult& block, std::size_t lane) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    const bool is_possible = block.weight[lane] > 0 && std::isfinite(block.log_clean[lane]);
    if (!is_possible) return unknown;
    const double chance = std::exp(ensembler.has_checks() ? block.log_clear[lane] - block.log_clean[lane]
                                                          : block.log_clear[lane]);
    base::expects(chance >= 0 && chance <= 1 + branching::overshoot, "a chance lies between 0 and 1");
    return std::min(1.0, chance);
}

/// `band`: of values of all draws by their weights.
template <class BandOf>
void add_counts(const ForecastRequest& request, const std::vector<BlockResult>& blocks, BandOf band,
                Forecast& result) {
    result.mites_now =
        band(over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.mites[lane]; }),
             result.weight);
    for (scenario::PlaceIndex place = 0; place < request.scenario->places.size(); ++place) {
        result.mites_now_by_place.push_back(band(
            over_draws(blocks,
                       [&](const BlockResult& b, std::size_t lane) { return b.mites_by_place[place][lane]; }),
            result.weight));
    }
}

Forecast summarise(const ForecastRequest& request, const Ensembler& ensembler,
                   const std::vector<BlockResult>& blocks) {
    Forecast result;
    result.chance = over_draws(
        blocks, [&](const BlockResult& b, std::size_t lane) { return chance_of(ensembler, b, lane); });
    const std::vector<double> before =
        over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.weight[lane]; });
    result.weight = weights_of(blocks);
    result.checks_can_be_clean =
        std::any_of(result.weight.begin(), result.weight.end(), [](double w) { return w > 0; });
    if (!result.checks_can_be_clean) result.weight = before;
    const bool weighted =
        std::holds_alternative<const belief::Belief*>(request.start) || ensembler.has_checks();
    const auto band = [&](const std::vector<double>& values, const std::vector<double>& weights) {
        return weighted ? base::band_of(values, weights) : base::band_of(values);
    };
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    result.clear = result.checks_can_be_clean ? band(result.chance, result.weight)
                                              : base::Band{unknown, unknown, unknown};
    result.clear_at_mode = request.only_mode ? result.chance.front() : std::nan("");
    if (ensembler.has_checks()) {
        result.clean = band(over_draws(blocks, [](const BlockResult& b,
                                                  std::size_t lane) { return std::exp(b.log_clean[lane]); }),
                            before);
    }
    if (request.counts) add_counts(request, blocks, band, result);
    result.class_count = ensembler.class_count();
    result.type_count = blocks.front().type_count;
    for (const BlockResult& block : blocks) result.steps += block.steps;
    return result;
}

/// `each` of every block of draws, side by side. nullopt if cancelled.
template <class T, class F>
std::optional<std::vector<T>> over_blocks(const ForecastRequest& request, F each) {
    base::expects(request.scenario != nullptr && request.ensemble != nullptr,
                  "a forecast has a scenario and parameters");
    const std::vector<mites::MiteParameters> draws = draws_of(request);
    std::vector<T> blocks(draws.size() / branching::lane_count);
    const auto run = [&](std::size_t b) {
        blocks[b] = each(std::span(draws).subspan(b * branching::lane_count, branching::lane_count), b);
    };
    if (!branching::side_by_side(blocks.size(), request.progress, run)) return std::nullopt;
    return blocks;
}

}  // namespace

std::optional<Forecast> forecast_clear(const ForecastRequest& request) {
    const Ensembler ensembler(request);
    const auto blocks = over_blocks<BlockResult>(
        request,
        [&](std::span<const mites::MiteParameters> draws, std::size_t b) { return ensembler.run(draws, b); });
    if (!blocks) return std::nullopt;
    return summarise(request, ensembler, *blocks);
}

std::optional<std::vector<double>> log_chances(const ForecastRequest& request, branching::Question question) {
    const Ensembler ensembler(request);
    const auto blocks = over_blocks<branching::Lanes>(
        request, [&](std::span<const mites::MiteParameters> draws, std::size_t b) {
            return ensembler.log_chance_of(question, draws, b);
        });
    if (!blocks) return std::nullopt;
    std::vector<double> chances;
    for (const branching::Lanes& block : *blocks)
        chances.insert(chances.end(), block.x.begin(), block.x.end());
    return chances;
}

std::vector<double> draw_weights(const ForecastRequest& request) {
    const std::size_t draws = draws_of(request).size();
    std::vector<double> weights(draws, 1.0 / static_cast<double>(draws));
    const auto* const belief = std::get_if<const belief::Belief*>(&request.start);
    if (belief == nullptr) return weights;
    const std::vector<double>& given = (*belief)->draw_weight;
    const double sum =
        std::accumulate(given.begin(), given.begin() + static_cast<std::ptrdiff_t>(draws), 0.0);
    for (std::size_t i = 0; i < draws; ++i) weights[i] = given[i] / sum;
    return weights;
}

}  // namespace mitefall::forecast
