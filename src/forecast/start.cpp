#include "forecast/start.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/contract.h"
#include "forecast/expected_course.h"
#include "forecast/looks.h"
#include "forecast/rates.h"

namespace mitefall::forecast {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Expected number of mites one look at the sighted place would show.
Lanes visible_numbers(const CompiledBlock& block, const Sighting& sighting,
                      const std::vector<Lanes>& numbers) {
    Lanes visible;
    for (const Stage stage : all_stages) {
        const Activity activity = activity_of(stage);
        if (!can_be_seen(activity, sighting.on_animal)) continue;
        const TypeIndex first = block.type_of(sighting.seen_at, stage);
        for (std::uint32_t m = 0; m < block.compiled.layout.substages(stage); ++m) {
            for (std::size_t lane = 0; lane < lane_count; ++lane) visible[lane] += numbers[first + m][lane];
        }
    }
    return for_each_lane([&](std::size_t lane) {
        const double part = sighting.on_animal ? 1.0 : block.draws[lane].detection_nest_part;
        return visible[lane] * part * detection_per_mite(block.fixed, block.draws[lane]);
    });
}

/// Expected visible mites per entering female below which a lineage cannot explain a sighting.
constexpr double least_visible = 1e-9;

double number_seen(const Sighting& sighting, const MiteParameters& draw) {
    return sighting.seen_low * std::pow(sighting.seen_high / sighting.seen_low, draw.sighting_quantile);
}

/// Adds the expected numbers by type at `from` of the lineage behind one sighting.
void add_lineage(const CompiledBlock& block, const Sighting& sighting, double from, Tolerance tolerance,
                 std::vector<Lanes>& numbers) {
    const Network& network = block.compiled.network;
    std::vector<Lanes> entering(network.type_count);
    entering[block.type_of(sighting.entered_at, Stage::adult_feeding_1)] = Lanes::all(1);
    std::vector<double> times{sighting.seen_on};
    if (from > sighting.seen_on) times.push_back(from);
    const auto course = expected_course(network, sighting.entered_on, entering, times, tolerance);
    const Lanes visible = visible_numbers(block, sighting, course.front());
    const TypeIndex feeding = block.type_of(sighting.seen_at, Stage::adult_feeding_1);
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const double seen = number_seen(sighting, block.draws[lane]);
        if (!(visible[lane] > least_visible)) {
            // This draw's lineage would have died out before the sighting: what was seen came in just then.
            numbers[feeding][lane] += seen / detection_per_mite(block.fixed, block.draws[lane]);
            continue;
        }
        const double scale = seen / visible[lane];
        for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i][lane] += scale * course.back()[i][lane];
    }
}

std::vector<Lanes> sighted_numbers(const CompiledBlock& block, const SightedStart& sightings, double from,
                                   Tolerance tolerance) {
    std::vector<Lanes> numbers(block.compiled.network.type_count);
    for (const Sighting& sighting : sightings) add_lineage(block, sighting, from, tolerance, numbers);
    return numbers;
}

/// The type mites are, whatever number of substages they were counted in.
TypeIndex type_of_mites(const CompiledBlock& block, const MiteCount& mites, int shape) {
    const TypeIndex first = block.type_of(mites.place, mites.stage);
    base::expects(first != no_type, "a stage that can live at its place");
    const auto count = static_cast<int>(block.compiled.layout.substages(mites.stage));
    const int counted_in = is_seeking(activity_of(mites.stage)) ? count : shape;
    return first + static_cast<TypeIndex>(std::clamp(mites.substage * count / counted_in, 0, count - 1));
}

/// ln sum w_p exp(a_p); -infinity of nothing.
class LogSum {
  public:
    void add(double log_term) {
        if (log_term > most_) {
            sum_ = 1 + sum_ * std::exp(most_ - log_term);
            most_ = log_term;
        } else if (log_term > -infinity) {
            sum_ += std::exp(log_term - most_);
        }
    }
    [[nodiscard]] double value() const { return most_ + std::log(sum_); }

  private:
    double most_ = -infinity;
    double sum_ = 0;
};

/// ln of the chance that a mite with this chance to fail does not.
double log_pass(double failure) { return std::log1p(-std::min(1.0, failure)); }

/// The same of all mites of a state: sum n ln(1 - v).
double log_pass(const std::vector<std::pair<TypeIndex, double>>& mites, const SweepResult& swept,
                std::size_t lane) {
    double sum = -swept.imported[lane];
    for (const auto& [type, n] : mites) sum += n * log_pass(swept.failure[type][lane]);
    return sum;
}

}  // namespace

BlockStart::BlockStart(const Start& start, const CompiledBlock& block, double from, Tolerance tolerance)
    : block_(block) {
    if (const auto* const sightings = std::get_if<SightedStart>(&start)) {
        means_ = sighted_numbers(block, *sightings, from, tolerance);
        is_poisson_ = true;
    } else if (const auto* const known = std::get_if<KnownStart>(&start)) {
        count(*known);
    } else {
        read(*std::get<const Belief*>(start));
    }
}

void BlockStart::count(const KnownStart& groups) {
    means_.resize(block_.compiled.network.type_count);
    for (const MiteCount& group : groups) {
        const int shape = static_cast<int>(block_.compiled.layout.substages(group.stage));
        Lanes& cell = means_[type_of_mites(block_, group, shape)];
        for (std::size_t lane = 0; lane < lane_count; ++lane) cell[lane] += group.count;
    }
}

void BlockStart::read(const Belief& belief) {
    belief_ = &belief;
    const std::size_t first = block_.index * lane_count;
    auto particle = std::partition_point(belief.particles.begin(), belief.particles.end(),
                                         [&](const Particle& p) { return p.draw < first; });
    for (; particle != belief.particles.end() && particle->draw < first + lane_count; ++particle) {
        State state{&*particle, {}};
        for (const MiteCount& group : particle->mites)
            state.mites.emplace_back(type_of_mites(block_, group, belief.shapes.at(particle->draw)),
                                     group.count);
        states_[particle->draw - first].push_back(std::move(state));
    }
}

Lanes BlockStart::log_chance(const SweepResult& swept) const {
    return for_each_lane([&](std::size_t lane) {
        if (belief_ != nullptr) return log_chance_of_states(swept, lane);
        // ln prod (1 - v)^n for known numbers, ln E prod (1 - v)^N = -sum m v for Poisson ones.
        double sum = -swept.imported[lane];
        for (std::size_t i = 0; i < means_.size(); ++i) {
            const double n = means_[i][lane];
            const double v = swept.failure[i][lane];
            if (n > 0 && is_poisson_) sum += -n * v;
            if (n > 0 && !is_poisson_)
                sum += n * (swept.passing.empty() ? log_pass(v) : std::log(swept.passing[i][lane]));
        }
        return sum;
    });
}

double BlockStart::least_to_pass(const SweepResult& swept) const {
    double least = 1;
    for (std::size_t i = 0; !is_poisson_ && i < means_.size(); ++i) {
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            if (means_[i][lane] > 0) least = std::min(least, 1 - swept.failure[i][lane]);
        }
    }
    return least;
}

double BlockStart::log_chance_of_states(const SweepResult& swept, std::size_t lane) const {
    LogSum all;
    LogSum passed;
    for (const State& state : states_[lane]) {
        const double log_weight = std::log(state.particle->weight);
        all.add(log_weight);
        passed.add(log_weight + log_pass(state.mites, swept, lane));
    }
    return states_[lane].empty() ? -infinity : passed.value() - all.value();
}

Lanes BlockStart::weight() const {
    return for_each_lane([&](std::size_t lane) {
        if (belief_ == nullptr) return 1.0;
        return states_[lane].empty() ? 0.0 : belief_->draw_weight.at(block_.index * lane_count + lane);
    });
}

/// Of each state of a draw; together 1.
std::vector<double> BlockStart::shares(const SweepResult* swept, std::size_t lane) const {
    std::vector<double> shares;
    for (const State& state : states_[lane])
        shares.push_back(std::log(state.particle->weight) +
                         (swept != nullptr ? log_pass(state.mites, *swept, lane) : 0));
    if (shares.empty()) return shares;
    const double most = *std::max_element(shares.begin(), shares.end());
    double sum = 0;
    for (double& share : shares) sum += share = std::exp(share - most);
    for (double& share : shares) share /= sum;
    return shares;
}

std::vector<Lanes> BlockStart::numbers(const SweepResult* swept) const {
    std::vector<Lanes> numbers = means_;
    numbers.resize(block_.compiled.network.type_count);
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        // Of Poisson numbers those that pass are Poisson again, with 1 - v of the mean.
        for (std::size_t i = 0; is_poisson_ && swept != nullptr && i < numbers.size(); ++i)
            numbers[i][lane] *= 1 - std::min(1.0, swept->failure[i][lane]);
        const std::vector<double> share = shares(swept, lane);
        for (std::size_t s = 0; s < share.size(); ++s) {
            for (const auto& [type, n] : states_[lane][s].mites) numbers[type][lane] += share[s] * n;
        }
    }
    return numbers;
}

std::vector<Lanes> BlockStart::by_place(const SweepResult* swept) const {
    std::vector<Lanes> places(block_.classes.class_of.size());
    if (belief_ == nullptr) {
        const std::vector<Lanes> by_type = numbers(swept);
        for (PlaceIndex place = 0; place < places.size(); ++place) {
            const auto members =
                static_cast<double>(block_.classes.members[block_.classes.class_of[place]].size());
            for (const Stage stage : all_stages) {
                const TypeIndex first = block_.type_of(place, stage);
                for (std::uint32_t m = 0; first != no_type && m < block_.compiled.layout.substages(stage);
                     ++m) {
                    for (std::size_t lane = 0; lane < lane_count; ++lane)
                        places[place][lane] += by_type[first + m][lane] / members;
                }
            }
        }
    }
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        const std::vector<double> share = shares(swept, lane);
        for (std::size_t s = 0; s < share.size(); ++s) {
            for (const MiteCount& group : states_[lane][s].particle->mites)
                places[group.place][lane] += share[s] * group.count;
        }
    }
    return places;
}

void set_apart(const Start& start, Scenario& scenario) {
    // A lineage must not be spread over the members of a class: the places it enters and is seen at stand
    // alone.
    if (const auto* const sightings = std::get_if<SightedStart>(&start)) {
        for (const Sighting& sighting : *sightings) {
            scenario.places.at(sighting.entered_at).set_apart = true;
            scenario.places.at(sighting.seen_at).set_apart = true;
        }
    }
}

std::vector<MiteCount> expected_start(const Scenario& scenario, const FixedParameters& fixed,
                                      const MiteParameters& draw, const SightedStart& start, double from) {
    const Classes classes = keep_apart(scenario);
    const std::vector<MiteParameters> draws(lane_count, draw);
    const MiteNetwork compiled = compile(scenario, classes, fixed, draws);
    const CompiledBlock block{compiled, classes, fixed, draws};
    const std::vector<Lanes> numbers = sighted_numbers(block, start, from, {});
    std::vector<MiteCount> counts;
    for (PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        for (const Stage stage : all_stages) {
            const TypeIndex first = block.type_of(place, stage);
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
