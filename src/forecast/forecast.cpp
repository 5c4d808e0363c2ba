#include "forecast/forecast.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/contract.h"
#include "forecast/compile.h"
#include "forecast/posterior.h"
#include "forecast/rates.h"
#include "forecast/side_by_side.h"

namespace mitefall::forecast {
namespace {

/// What one block of draws contributes.
struct BlockResult {
    Lanes log_clear;               ///< ln P(clear and every check clean)
    Lanes log_clean;               ///< ln P(every check clean)
    Lanes weight = Lanes::all(1);  ///< of each draw, before the checks
    Lanes mites;
    std::vector<Lanes> mites_by_place;
    std::size_t type_count = 0;
    std::size_t steps = 0;
};

TypeIndex type_of(const MiteNetwork& compiled, const Classes& classes, PlaceIndex place, Stage stage) {
    return compiled.layout.first[classes.class_of[place]][static_cast<std::size_t>(stage)];
}

/// Expected number of mites one look at the sighted place would show.
Lanes visible_numbers(const MiteNetwork& compiled, const Classes& classes, const Sighting& sighting,
                      const std::vector<Lanes>& numbers, const FixedParameters& fixed,
                      std::span<const MiteParameters> draws) {
    Lanes visible;
    for (const Stage stage : all_stages) {
        const Activity activity = activity_of(stage);
        if (!can_be_seen(activity, sighting.on_animal)) continue;
        const TypeIndex first = type_of(compiled, classes, sighting.seen_at, stage);
        for (std::uint32_t m = 0; m < compiled.layout.substages(stage); ++m) {
            for (std::size_t lane = 0; lane < lane_count; ++lane) visible[lane] += numbers[first + m][lane];
        }
    }
    return for_each_lane([&](std::size_t lane) {
        const double part = sighting.on_animal ? 1.0 : draws[lane].detection_nest_part;
        return visible[lane] * part * detection_per_mite(fixed, draws[lane]);
    });
}

/// Expected visible mites per entering female below which a lineage cannot explain a sighting.
constexpr double least_visible = 1e-9;

double number_seen(const Sighting& sighting, const MiteParameters& draw) {
    return sighting.seen_low * std::pow(sighting.seen_high / sighting.seen_low, draw.sighting_quantile);
}

/// Adds the expected numbers by type at `from` of the lineage behind one sighting.
void add_lineage(const MiteNetwork& compiled, const Classes& classes, const Sighting& sighting, double from,
                 Tolerance tolerance, const FixedParameters& fixed, std::span<const MiteParameters> draws,
                 std::vector<Lanes>& numbers) {
    std::vector<Lanes> entering(compiled.network.type_count);
    entering[type_of(compiled, classes, sighting.entered_at, Stage::adult_feeding_1)] = Lanes::all(1);
    std::vector<double> times{sighting.seen_on};
    if (from > sighting.seen_on) times.push_back(from);
    const auto course = expected_course(compiled.network, sighting.entered_on, entering, times, tolerance);
    const Lanes visible = visible_numbers(compiled, classes, sighting, course.front(), fixed, draws);
    const TypeIndex feeding = type_of(compiled, classes, sighting.seen_at, Stage::adult_feeding_1);
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const double seen = number_seen(sighting, draws[lane]);
        if (!(visible[lane] > least_visible)) {
            // This draw's lineage would have died out before the sighting: what was seen came in just then.
            numbers[feeding][lane] += seen / detection_per_mite(fixed, draws[lane]);
            continue;
        }
        const double scale = seen / visible[lane];
        for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i][lane] += scale * course.back()[i][lane];
    }
}

std::vector<Lanes> sighted_numbers(const MiteNetwork& compiled, const Classes& classes,
                                   const SightedStart& sightings, double from, Tolerance tolerance,
                                   const FixedParameters& fixed, std::span<const MiteParameters> draws) {
    std::vector<Lanes> numbers(compiled.network.type_count);
    for (const Sighting& sighting : sightings) {
        add_lineage(compiled, classes, sighting, from, tolerance, fixed, draws, numbers);
    }
    return numbers;
}

/// A lineage must not be spread over the members of a class: the places it enters and is seen at stand alone.
Scenario set_apart(Scenario scenario, const SightedStart& sightings) {
    for (const Sighting& sighting : sightings) {
        scenario.places[sighting.entered_at].set_apart = true;
        scenario.places[sighting.seen_at].set_apart = true;
    }
    return scenario;
}

Scenario set_places_apart(const ForecastRequest& request) {
    const auto* const sightings = std::get_if<SightedStart>(&request.start);
    Scenario scenario = sightings != nullptr ? set_apart(*request.scenario, *sightings) : *request.scenario;
    for (const PlaceIndex place : request.counted) scenario.places.at(place).set_apart = true;
    return scenario;
}

/// ln sum w_p exp(a_p); -infinity of nothing.
class LogSum {
  public:
    void add(double log_term) {
        if (log_term > most_) {
            sum_ = 1 + sum_ * std::exp(most_ - log_term);
            most_ = log_term;
        } else if (log_term > -std::numeric_limits<double>::infinity()) {
            sum_ += std::exp(log_term - most_);
        }
    }
    [[nodiscard]] double value() const { return most_ + std::log(sum_); }
    [[nodiscard]] bool is_empty() const { return sum_ == 0; }

  private:
    double most_ = -std::numeric_limits<double>::infinity();
    double sum_ = 0;
};

/// Where the particles of each draw begin, and at the end where the last ones stop.
std::vector<std::size_t> particles_by_draw(const Belief& belief, std::size_t draws) {
    std::vector<std::size_t> first;
    std::size_t next = 0;
    for (std::size_t d = 0; d < draws; ++d) {
        while (next < belief.particles.size() && belief.particles[next].draw < d) ++next;
        first.push_back(next);
    }
    while (next < belief.particles.size() && belief.particles[next].draw < draws) ++next;
    first.push_back(next);
    return first;
}

struct StartNumbers {
    std::vector<Lanes> numbers;  ///< per type
    bool poisson = false;
};

/// Known numbers, or Poisson means from sightings.
StartNumbers start_numbers(const ForecastRequest& request, const MiteNetwork& compiled,
                           const Classes& classes, std::span<const MiteParameters> draws) {
    if (const auto* const sightings = std::get_if<SightedStart>(&request.start)) {
        return {sighted_numbers(compiled, classes, *sightings, request.from, request.tolerance,
                                request.ensemble->fixed, draws),
                true};
    }
    StartNumbers start{std::vector<Lanes>(compiled.network.type_count), false};
    for (const MiteCount& group : std::get<KnownStart>(request.start)) {
        const TypeIndex first = type_of(compiled, classes, group.place, group.stage);
        base::expects(first != no_type, "a stage that can live at its place");
        const auto last = static_cast<int>(compiled.layout.substages(group.stage)) - 1;
        Lanes& cell = start.numbers[first + static_cast<TypeIndex>(std::clamp(group.substage, 0, last))];
        for (std::size_t lane = 0; lane < lane_count; ++lane) cell[lane] += group.count;
    }
    return start;
}

/// The type a particle's mites are, whatever number of substages they were counted in.
TypeIndex type_of_mites(const MiteNetwork& compiled, const Classes& classes, const MiteCount& mites,
                        int shape) {
    const TypeIndex first = type_of(compiled, classes, mites.place, mites.stage);
    base::expects(first != no_type, "a stage that can live at its place");
    const auto count = static_cast<int>(compiled.layout.substages(mites.stage));
    const int counted_in = is_seeking(activity_of(mites.stage)) ? count : shape;
    return first + static_cast<TypeIndex>(std::clamp(mites.substage * count / counted_in, 0, count - 1));
}

class Ensembler {
  public:
    explicit Ensembler(const ForecastRequest& request)
        : request_(request), scenario_(set_places_apart(request)), classes_(lump(scenario_)) {
        has_checks_ = std::any_of(scenario_.events.begin(), scenario_.events.end(), [&](const Event& event) {
            return event.time >= request.from && std::holds_alternative<CleanCheck>(event.what);
        });
        if (const auto* const belief = std::get_if<const Belief*>(&request.start)) {
            base::expects(!request.only_mode, "a belief has no draw at the most likely values");
            belief_ = *belief;
            first_particle_ = particles_by_draw(*belief_, belief_->draw_weight.size());
        }
    }

    [[nodiscard]] std::size_t class_count() const { return classes_.members.size(); }
    [[nodiscard]] bool has_checks() const { return has_checks_; }

    [[nodiscard]] BlockResult run(std::span<const MiteParameters> draws, std::size_t block) const {
        const FixedParameters& fixed = request_.ensemble->fixed;
        const MiteNetwork compiled = compile(scenario_, classes_, fixed, draws);
        BlockResult result;
        result.type_count = compiled.network.type_count;
        const SweepResult clear =
            sweep(compiled.network, request_.from, request_.to, at_horizon(compiled), request_.tolerance);
        result.steps = clear.steps;
        std::optional<SweepResult> clean;
        if (has_checks_) {
            clean = sweep(compiled.network, request_.from, request_.to, Question::any_check_fails,
                          request_.tolerance);
            result.steps += clean->steps;
        }
        if (belief_ != nullptr) {
            weigh_particles(compiled, clear, clean, block, result);
            return result;
        }
        const StartNumbers start = start_numbers(request_, compiled, classes_, draws);
        result.log_clear = log_chance(start, clear);
        if (clean) result.log_clean = log_chance(start, *clean);
        count_mites(compiled, start.numbers, result);
        return result;
    }

    /// ln of the chance of one block's draws; see log_chances.
    [[nodiscard]] Lanes log_chance_of(Question question, std::span<const MiteParameters> draws,
                                      std::size_t block) const {
        const MiteNetwork compiled = compile(scenario_, classes_, request_.ensemble->fixed, draws);
        const SweepResult swept =
            question == Question::no_survivor
                ? sweep(compiled.network, request_.from, request_.to, at_horizon(compiled),
                        request_.tolerance)
                : sweep(compiled.network, request_.from, request_.to, question, request_.tolerance);
        if (belief_ == nullptr) return log_chance(start_numbers(request_, compiled, classes_, draws), swept);
        return for_each_lane([&](std::size_t lane) { return log_pass_of(compiled, swept, block, lane); });
    }

  private:
    /// v at the horizon: 1 where a survivor counts.
    [[nodiscard]] std::vector<double> at_horizon(const MiteNetwork& compiled) const {
        if (request_.counted.empty()) return std::vector<double>(compiled.network.type_count, 1.0);
        std::vector<double> v(compiled.network.type_count);
        for (const PlaceIndex place : request_.counted) {
            for (const Stage stage : all_stages) {
                const TypeIndex first = type_of(compiled, classes_, place, stage);
                if (first == no_type) continue;
                std::fill_n(v.begin() + first, compiled.layout.substages(stage), 1.0);
            }
        }
        return v;
    }

    /// ln prod (1 - v)^n for known numbers, ln E prod (1 - v)^N = -sum m v for Poisson ones.
    static Lanes log_chance(const StartNumbers& start, const SweepResult& swept) {
        return for_each_lane([&](std::size_t lane) {
            double sum = -swept.imported[lane];
            for (std::size_t i = 0; i < start.numbers.size(); ++i) {
                const double n = start.numbers[i][lane];
                if (n > 0)
                    sum += n * (start.poisson ? -swept.failure[i][lane]
                                              : std::log1p(-std::min(1.0, swept.failure[i][lane])));
            }
            return sum;
        });
    }

    void count_mites(const MiteNetwork& compiled, const std::vector<Lanes>& numbers,
                     BlockResult& result) const {
        result.mites_by_place.resize(scenario_.places.size());
        for (PlaceIndex place = 0; place < scenario_.places.size(); ++place) {
            const std::size_t c = classes_.class_of[place];
            const auto members = static_cast<double>(classes_.members[c].size());
            for (const Stage stage : all_stages) {
                const TypeIndex first = type_of(compiled, classes_, place, stage);
                if (first == no_type) continue;
                for (std::uint32_t m = 0; m < compiled.layout.substages(stage); ++m) {
                    for (std::size_t lane = 0; lane < lane_count; ++lane) {
                        result.mites_by_place[place][lane] += numbers[first + m][lane] / members;
                        result.mites[lane] += numbers[first + m][lane] / members;
                    }
                }
            }
        }
    }

    /// ln of the chance that all mites of a particle pass: sum n ln(1 - v).
    static double log_pass(const std::vector<std::pair<TypeIndex, double>>& mites, const SweepResult& swept,
                           std::size_t lane) {
        double sum = -swept.imported[lane];
        for (const auto& [type, n] : mites) sum += n * std::log1p(-std::min(1.0, swept.failure[type][lane]));
        return sum;
    }

    [[nodiscard]] std::vector<std::pair<TypeIndex, double>> mites_of(const MiteNetwork& compiled,
                                                                     const Particle& particle) const {
        std::vector<std::pair<TypeIndex, double>> mites;
        for (const MiteCount& group : particle.mites)
            mites.emplace_back(type_of_mites(compiled, classes_, group, belief_->shapes[particle.draw]),
                               group.count);
        return mites;
    }

    /// ln of the chance that a draw's mites all pass, over its particles; -infinity if it has none.
    [[nodiscard]] double log_pass_of(const MiteNetwork& compiled, const SweepResult& swept, std::size_t block,
                                     std::size_t lane) const {
        const std::size_t draw = block * lane_count + lane;
        LogSum all;
        LogSum passed;
        for (std::size_t p = first_particle_.at(draw); p < first_particle_.at(draw + 1); ++p) {
            const Particle& particle = belief_->particles[p];
            all.add(std::log(particle.weight));
            passed.add(std::log(particle.weight) + log_pass(mites_of(compiled, particle), swept, lane));
        }
        return passed.value() - (all.is_empty() ? 0 : all.value());
    }

    /// P(clear and clean) and P(clean) of each draw of the block, summed over its particles.
    void weigh_particles(const MiteNetwork& compiled, const SweepResult& clear,
                         const std::optional<SweepResult>& clean, std::size_t block,
                         BlockResult& result) const {
        result.mites_by_place.resize(scenario_.places.size());
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            const std::size_t draw = block * lane_count + lane;
            LogSum all;
            LogSum cleared;
            LogSum cleaned;
            double most = -std::numeric_limits<double>::infinity();
            std::vector<double> log_weights;
            for (std::size_t p = first_particle_.at(draw); p < first_particle_.at(draw + 1); ++p) {
                const Particle& particle = belief_->particles[p];
                const auto mites = mites_of(compiled, particle);
                const double log_weight = std::log(particle.weight);
                const double log_clean = clean ? log_pass(mites, *clean, lane) : 0;
                all.add(log_weight);
                cleared.add(log_weight + log_pass(mites, clear, lane));
                cleaned.add(log_weight + log_clean);
                log_weights.push_back(log_weight + log_clean);
                most = std::max(most, log_weight + log_clean);
            }
            result.weight[lane] = belief_->draw_weight.at(draw);
            if (log_weights.empty()) result.weight[lane] = 0;
            result.log_clear[lane] = cleared.value() - all.value();
            result.log_clean[lane] = cleaned.value() - all.value();
            count_particles(first_particle_[draw], log_weights, most, lane, result);
        }
    }

    /// Expected mites of a draw, given the clean checks to come.
    void count_particles(std::size_t first, const std::vector<double>& log_weights, double most,
                         std::size_t lane, BlockResult& result) const {
        double sum = 0;
        for (const double log_weight : log_weights) sum += std::exp(log_weight - most);
        for (std::size_t i = 0; i < log_weights.size(); ++i) {
            const double share = std::exp(log_weights[i] - most) / sum;
            for (const MiteCount& group : belief_->particles[first + i].mites) {
                result.mites_by_place[group.place][lane] += share * group.count;
                result.mites[lane] += share * group.count;
            }
        }
    }

    const ForecastRequest& request_;
    Scenario scenario_;
    Classes classes_;
    bool has_checks_ = false;
    const Belief* belief_ = nullptr;
    std::vector<std::size_t> first_particle_;  ///< per draw of the belief, and the end
};

std::vector<MiteParameters> draws_of(const ForecastRequest& request) {
    const Ensemble& ensemble = *request.ensemble;
    if (request.only_mode) return std::vector<MiteParameters>(lane_count, ensemble.mode);
    const std::size_t wanted = request.blocks == 0 ? ensemble.draws.size() : request.blocks * lane_count;
    base::expects(wanted > 0 && wanted <= ensemble.draws.size(), "the ensemble has the draws asked for");
    return {ensemble.draws.begin(), ensemble.draws.begin() + static_cast<std::ptrdiff_t>(wanted)};
}

template <class F>
std::vector<double> over_draws(const std::vector<BlockResult>& blocks, F value) {
    std::vector<double> values;
    for (const BlockResult& block : blocks) {
        for (std::size_t lane = 0; lane < lane_count; ++lane) values.push_back(value(block, lane));
    }
    return values;
}

/// What each draw weighs: with a belief, as much as before times the chance that its checks are clean.
std::vector<double> weights_of(const ForecastRequest& request, const Ensembler& ensembler,
                               const std::vector<BlockResult>& blocks) {
    const bool checks_weigh = ensembler.has_checks() && std::holds_alternative<const Belief*>(request.start);
    std::vector<double> weights = over_draws(blocks, [&](const BlockResult& b, std::size_t lane) {
        return b.weight[lane] > 0 && checks_weigh ? b.weight[lane] * std::exp(b.log_clean[lane])
                                                  : b.weight[lane];
    });
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (double& weight : weights) weight /= sum;
    return weights;
}

Forecast summarise(const ForecastRequest& request, const Ensembler& ensembler,
                   const std::vector<BlockResult>& blocks) {
    Forecast result;
    result.chance = over_draws(blocks, [&](const BlockResult& b, std::size_t lane) {
        return std::exp(ensembler.has_checks() ? b.log_clear[lane] - b.log_clean[lane] : b.log_clear[lane]);
    });
    const std::vector<double> before =
        over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.weight[lane]; });
    result.weight = weights_of(request, ensembler, blocks);
    const bool weighted = std::holds_alternative<const Belief*>(request.start);
    const auto band = [&](const std::vector<double>& values, const std::vector<double>& weights) {
        return weighted ? band_of(values, weights) : band_of(values);
    };
    result.clear = band(result.chance, result.weight);
    result.clear_at_mode = request.only_mode ? result.chance.front() : std::nan("");
    if (ensembler.has_checks()) {
        result.clean = band(over_draws(blocks, [](const BlockResult& b,
                                                  std::size_t lane) { return std::exp(b.log_clean[lane]); }),
                            before);
    }
    result.mites_now =
        band(over_draws(blocks, [](const BlockResult& b, std::size_t lane) { return b.mites[lane]; }),
             result.weight);
    for (PlaceIndex place = 0; place < request.scenario->places.size(); ++place) {
        result.mites_now_by_place.push_back(band(
            over_draws(blocks,
                       [&](const BlockResult& b, std::size_t lane) { return b.mites_by_place[place][lane]; }),
            result.weight));
    }
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
    const std::vector<MiteParameters> draws = draws_of(request);
    std::vector<T> blocks(draws.size() / lane_count);
    const auto run = [&](std::size_t b) {
        blocks[b] = each(std::span(draws).subspan(b * lane_count, lane_count), b);
    };
    if (!side_by_side(blocks.size(), request.progress, run)) return std::nullopt;
    return blocks;
}

}  // namespace

Band band_of(std::vector<double> values) {
    base::expects(!values.empty(), "a band has values");
    Band band;
    for (const double value : values) band.mean += value / static_cast<double>(values.size());
    std::sort(values.begin(), values.end());
    const auto at = [&](double q) {
        return values[static_cast<std::size_t>(std::lround(q * static_cast<double>(values.size() - 1)))];
    };
    band.p10 = at(0.1);
    band.p90 = at(0.9);
    return band;
}

Band band_of(const std::vector<double>& values, const std::vector<double>& weights) {
    base::expects(values.size() == weights.size(), "a weight for every value");
    std::vector<std::pair<double, double>> weighted;
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!(weights[i] > 0)) continue;
        weighted.emplace_back(values[i], weights[i]);
        sum += weights[i];
    }
    base::expects(sum > 0, "a band has values");
    Band band;
    for (const auto& [value, weight] : weighted) band.mean += value * weight / sum;
    band.p10 = weighted_quantile(weighted, 0.1);
    band.p90 = weighted_quantile(std::move(weighted), 0.9);
    return band;
}

std::optional<Forecast> forecast_clear(const ForecastRequest& request) {
    const Ensembler ensembler(request);
    const auto blocks = over_blocks<BlockResult>(
        request,
        [&](std::span<const MiteParameters> draws, std::size_t b) { return ensembler.run(draws, b); });
    if (!blocks) return std::nullopt;
    return summarise(request, ensembler, *blocks);
}

std::optional<std::vector<double>> log_chances(const ForecastRequest& request, Question question) {
    const Ensembler ensembler(request);
    const auto blocks =
        over_blocks<Lanes>(request, [&](std::span<const MiteParameters> draws, std::size_t b) {
            return ensembler.log_chance_of(question, draws, b);
        });
    if (!blocks) return std::nullopt;
    std::vector<double> chances;
    for (const Lanes& block : *blocks) chances.insert(chances.end(), block.x.begin(), block.x.end());
    return chances;
}

std::vector<double> draw_weights(const ForecastRequest& request) {
    const std::size_t draws = draws_of(request).size();
    std::vector<double> weights(draws, 1.0 / static_cast<double>(draws));
    const auto* const belief = std::get_if<const Belief*>(&request.start);
    if (belief == nullptr) return weights;
    const std::vector<double>& given = (*belief)->draw_weight;
    const double sum =
        std::accumulate(given.begin(), given.begin() + static_cast<std::ptrdiff_t>(draws), 0.0);
    for (std::size_t i = 0; i < draws; ++i) weights[i] = given[i] / sum;
    return weights;
}

std::vector<Lanes> expected_numbers(const ForecastRequest& request, const MiteNetwork& compiled,
                                    const Classes& classes, std::span<const MiteParameters> draws,
                                    std::size_t block) {
    const auto* const given = std::get_if<const Belief*>(&request.start);
    if (given == nullptr) return start_numbers(request, compiled, classes, draws).numbers;
    const Belief& belief = **given;
    std::vector<Lanes> numbers(compiled.network.type_count);
    const auto first = particles_by_draw(belief, belief.draw_weight.size());
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const std::size_t draw = block * lane_count + lane;
        double sum = 0;
        for (std::size_t p = first.at(draw); p < first.at(draw + 1); ++p) sum += belief.particles[p].weight;
        for (std::size_t p = first.at(draw); p < first.at(draw + 1); ++p) {
            for (const MiteCount& group : belief.particles[p].mites) {
                const TypeIndex type = type_of_mites(compiled, classes, group, belief.shapes.at(draw));
                numbers[type][lane] += belief.particles[p].weight / sum * group.count;
            }
        }
    }
    return numbers;
}

Scenario forget_past(const Scenario& scenario, double from) {
    Scenario later{scenario.places, {}};
    const std::vector<int> animals = animals_at(scenario, from);
    for (PlaceIndex place = 0; place < later.places.size(); ++place)
        later.places[place].animals = animals[place];
    for (const Event& event : scenario.events) {
        const auto* const climate = std::get_if<ClimateChange>(&event.what);
        const bool lasts =
            std::holds_alternative<Residue>(event.what) || std::holds_alternative<ResidueGone>(event.what) ||
            std::holds_alternative<MealKill>(event.what) || std::holds_alternative<Import>(event.what);
        if (event.time >= from || lasts)
            later.events.push_back(event);
        else if (climate != nullptr)
            later.places[climate->place].climate = climate->climate;
    }
    return later;
}

std::vector<MiteCount> expected_start(const Scenario& scenario, const FixedParameters& fixed,
                                      const MiteParameters& draw, const SightedStart& start, double from) {
    const Classes classes = keep_apart(scenario);
    const std::vector<MiteParameters> draws(lane_count, draw);
    const MiteNetwork compiled = compile(scenario, classes, fixed, draws);
    const std::vector<Lanes> numbers = sighted_numbers(compiled, classes, start, from, {}, fixed, draws);
    std::vector<MiteCount> counts;
    for (PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        for (const Stage stage : all_stages) {
            const TypeIndex first = type_of(compiled, classes, place, stage);
            if (first == no_type) continue;
            for (std::uint32_t m = 0; m < compiled.layout.substages(stage); ++m) {
                if (numbers[first + m][0] > 0)
                    counts.push_back({place, stage, numbers[first + m][0], static_cast<int>(m)});
            }
        }
    }
    return counts;
}

}  // namespace mitefall::forecast
