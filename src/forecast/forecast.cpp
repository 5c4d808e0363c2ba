#include "forecast/forecast.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
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

using Draws = std::span<const mites::MiteParameters>;

/// In single precision two blocks of draws of one shape go together.
enum class Precision { single, full };

/// Blocks of draws of one shape, asked side by side.
template <std::size_t n>
struct Together {
    std::array<Draws, n> draws;
    std::array<std::size_t, n> index{};  ///< in the ensemble
};

/// The same, compiled for one scenario. Keeps references.
template <std::size_t n>
struct Compiled {
    Together<n> of;
    std::array<network::MiteNetwork, n> compiled;
    std::vector<CompiledBlock> blocks;

    Compiled(const Together<n>& together, const scenario::Scenario& scenario, const network::Classes& classes,
             const mites::FixedParameters& fixed)
        : of(together) {
        for (std::size_t b = 0; b < n; ++b) {
            compiled[b] = network::compile(scenario, classes, fixed, of.draws[b]);
            blocks.push_back({compiled[b], classes, fixed, of.draws[b], of.index[b]});
        }
    }
    Compiled(const Compiled&) = delete;
    Compiled& operator=(const Compiled&) = delete;
    ~Compiled() = default;

    [[nodiscard]] std::array<const branching::Network*, n> networks() const {
        std::array<const branching::Network*, n> all{};
        for (std::size_t b = 0; b < n; ++b) all[b] = &compiled[b].network;
        return all;
    }
};

class Ensembler {
  public:
    /// `with_checks`: what serves the question where there are some, if the tolerance asks for no more.
    Ensembler(const ForecastRequest& request, Precision with_checks)
        : request_(request),
          tolerance_(request.tolerance),
          scenario_(set_places_apart(request)),
          classes_(network::lump(scenario_)),
          after_(aftermath_of(scenario_, request.from, request.to)) {
        // A second solver works out its own weights: worth it where places fall together or tails are shared.
        const bool is_coarser = after_ && after_->classes.members.size() < classes_.members.size();
        if (request.tails == nullptr && !is_coarser) after_.reset();
        has_checks_ =
            std::any_of(scenario_.events.begin(), scenario_.events.end(), [&](const scenario::Event& event) {
                return event.time >= request.from && std::holds_alternative<scenario::CleanCheck>(event.what);
            });
        if (has_checks_ && with_checks == Precision::full) tolerance_.in_single = false;
        if (after_ && request.tails != nullptr)
            after_->key = fmt::format("{} {} {} {}", tolerance_.in_single ? "single" : "full", after_->begin,
                                      request.to, network::signature_of(after_->scenario));
        base::expects(!request.only_mode || !std::holds_alternative<const belief::Belief*>(request.start),
                      "a belief has no draw at the most likely values");
    }

    [[nodiscard]] std::size_t class_count() const { return classes_.members.size(); }
    [[nodiscard]] bool has_checks() const { return has_checks_; }
    [[nodiscard]] Precision precision() const {
        return tolerance_.in_single ? Precision::single : Precision::full;
    }

    template <std::size_t n>
    [[nodiscard]] std::array<BlockResult, n> run(const Together<n>& of) const {
        const Compiled<n> all(of, scenario_, classes_, request_.ensemble->fixed);
        std::array<branching::SweepResult, n> clear = ask(branching::Question::no_survivor, all);
        std::optional<std::array<branching::SweepResult, n>> clean;
        if (has_checks_) clean = ask(branching::Question::any_check_fails, all);
        std::array<BlockResult, n> results;
        for (std::size_t b = 0; b < n; ++b)
            results[b] = result_of(all.blocks[b], clear[b], clean ? &(*clean)[b] : nullptr);
        return results;
    }

    /// ln of the chances of the draws; see log_chances.
    template <std::size_t n>
    [[nodiscard]] std::array<branching::Lanes, n> log_chances_of(branching::Question question,
                                                                 const Together<n>& of) const {
        const Compiled<n> all(of, scenario_, classes_, request_.ensemble->fixed);
        const std::array<branching::SweepResult, n> swept = ask(question, all);
        std::array<branching::Lanes, n> chances;
        for (std::size_t b = 0; b < n; ++b)
            chances[b] =
                BlockStart(request_.start, all.blocks[b], request_.from, tolerance_).log_chance(swept[b]);
        return chances;
    }

  private:
    /// Of ln P(clean), in units of the error of a step: more would show in an answer.
    static constexpr double error_left = 10;

    [[nodiscard]] BlockResult result_of(const CompiledBlock& block, branching::SweepResult& clear,
                                        branching::SweepResult* clean) const {
        const BlockStart start(request_.start, block, request_.from, tolerance_);
        BlockResult result;
        result.type_count = block.compiled.network.type_count;
        result.steps = clear.steps;
        result.weight = start.weight();
        if (clean != nullptr) {
            result.steps += clean->steps;
            if (start.error_of(*clean, tolerance_) > error_left * tolerance_.relative) {
                branching::Passing exact =
                    branching::passing(block.compiled.network, request_.from, request_.to, at_horizon(block));
                clear.passing = std::move(exact.clear);
                clean->passing = std::move(exact.clean);
            }
            result.log_clean = start.log_chance(*clean);
        }
        result.log_clear = start.log_chance(clear);
        if (!request_.counts) return result;
        result.mites_by_place = start.by_place(clean);
        for (const branching::Lanes& here : result.mites_by_place) {
            for (std::size_t lane = 0; lane < branching::lane_count; ++lane) result.mites[lane] += here[lane];
        }
        return result;
    }

    template <std::size_t n>
    [[nodiscard]] std::array<branching::SweepResult, n> ask(branching::Question question,
                                                            const Compiled<n>& all) const {
        if (question == branching::Question::any_check_fails || !after_) {
            return branching::go_on(all.networks(), request_.from, request_.to, horizon_of(question, all),
                                    tolerance_);
        }
        const std::shared_ptr<const Tail> tail = tail_of(all);
        std::array<branching::SweepResult, n> beyond;
        for (std::size_t b = 0; b < n; ++b) beyond[b] = spread(*tail, tail->swept[b], all.blocks[b]);
        return branching::go_on(all.networks(), request_.from, after_->last_event, std::move(beyond),
                                tolerance_);
    }

    /// What a sweep begins with.
    template <std::size_t n>
    [[nodiscard]] std::array<branching::SweepResult, n> horizon_of(branching::Question question,
                                                                   const Compiled<n>& all) const {
        std::array<branching::SweepResult, n> horizon;
        for (std::size_t b = 0; b < n; ++b) {
            const CompiledBlock& block = all.blocks[b];
            const std::vector<double> v = question == branching::Question::no_survivor
                                              ? at_horizon(block)
                                              : std::vector<double>(block.compiled.network.type_count);
            for (const double chance : v) horizon[b].failure.push_back(branching::Lanes::all(chance));
        }
        return horizon;
    }

    template <std::size_t n>
    [[nodiscard]] std::shared_ptr<const Tail> tail_of(const Compiled<n>& whole) const {
        const auto sweep_tail = [&] {
            const Compiled<n> all(whole.of, after_->scenario, after_->classes, request_.ensemble->fixed);
            auto swept = branching::go_on(all.networks(), after_->begin, request_.to,
                                          horizon_of(branching::Question::no_survivor, all), tolerance_);
            return Tail{all.compiled.front().layout,
                        {std::make_move_iterator(swept.begin()), std::make_move_iterator(swept.end())}};
        };
        if (request_.tails == nullptr) return std::make_shared<const Tail>(sweep_tail());
        std::string key = after_->key;
        for (const CompiledBlock& block : whole.blocks) key += fmt::format(" {}", block.index);
        return request_.tails->find(key, sweep_tail);
    }

    /// The tail over the classes of the whole: those alike from the start are alike after the last event.
    [[nodiscard]] branching::SweepResult spread(const Tail& tail, const branching::SweepResult& swept,
                                                const CompiledBlock& whole) const {
        branching::SweepResult spread{std::vector<branching::Lanes>(whole.compiled.network.type_count),
                                      swept.imported,
                                      swept.steps,
                                      {}};
        for (std::size_t c = 0; c < classes_.members.size(); ++c) {
            const scenario::PlaceIndex place = classes_.members[c].front();
            for (const mites::Stage stage : mites::all_stages) {
                const branching::TypeIndex to = whole.type_of(place, stage);
                if (to == branching::no_type) continue;
                const branching::TypeIndex from =
                    tail.layout.first[after_->classes.class_of[place]][static_cast<std::size_t>(stage)];
                std::copy_n(swept.failure.begin() + from, tail.layout.substages(stage),
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
    branching::Tolerance tolerance_;
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

/// Numbers of the blocks that go together: two of one shape where single precision is enough, else each
/// alone.
std::vector<std::vector<std::size_t>> together(const std::vector<mites::MiteParameters>& draws,
                                               Precision precision) {
    std::vector<std::vector<std::size_t>> all;
    std::map<int, std::size_t> alone;  ///< by shape, where in `all`
    for (std::size_t block = 0; block < draws.size() / branching::lane_count; ++block) {
        const int shape = draws[block * branching::lane_count].erlang_shape;
        if (const auto other = alone.find(shape); precision == Precision::single && other != alone.end()) {
            all[other->second].push_back(block);
            alone.erase(other);
        } else {
            alone.insert_or_assign(shape, all.size());
            all.push_back({block});
        }
    }
    return all;
}

template <std::size_t n>
Together<n> those_at(const std::vector<std::size_t>& blocks, Draws draws) {
    Together<n> those;
    for (std::size_t b = 0; b < n; ++b) {
        those.index[b] = blocks[b];
        those.draws[b] = draws.subspan(blocks[b] * branching::lane_count, branching::lane_count);
    }
    return those;
}

/// `each` of all blocks of draws, those that go together at once, side by side. nullopt if cancelled.
template <class T, class F>
std::optional<std::vector<T>> over_blocks(const ForecastRequest& request, Precision precision, F each) {
    base::expects(request.scenario != nullptr && request.ensemble != nullptr,
                  "a forecast has a scenario and parameters");
    const std::vector<mites::MiteParameters> draws = draws_of(request);
    const auto units = together(draws, precision);
    std::vector<T> blocks(draws.size() / branching::lane_count);
    const auto keep = [&blocks](const auto& those, auto results) {
        for (std::size_t b = 0; b < results.size(); ++b) blocks[those.index[b]] = std::move(results[b]);
    };
    const auto run = [&](std::size_t u) {
        const auto of = [&](const auto& those) { keep(those, each(those)); };
        if (units[u].size() == 2)
            of(those_at<2>(units[u], draws));
        else
            of(those_at<1>(units[u], draws));
    };
    if (!branching::side_by_side(units.size(), request.progress, run)) return std::nullopt;
    return blocks;
}

}  // namespace

std::optional<Forecast> forecast_clear(const ForecastRequest& request) {
    // Where checks are to be clean it is 1 - v that counts, and single precision would lose it
    // (docs/decisions/0065).
    const Ensembler ensembler(request, Precision::full);
    const auto blocks = over_blocks<BlockResult>(request, ensembler.precision(),
                                                 [&](const auto& those) { return ensembler.run(those); });
    if (!blocks) return std::nullopt;
    return summarise(request, ensembler, *blocks);
}

std::optional<std::vector<double>> log_chances(const ForecastRequest& request, branching::Question question) {
    const Ensembler ensembler(request, Precision::single);
    const auto blocks = over_blocks<branching::Lanes>(request, ensembler.precision(), [&](const auto& those) {
        return ensembler.log_chances_of(question, those);
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
