#include "forecast/start.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/contract.h"
#include "belief/looks.h"
#include "branching/expected_course.h"
#include "mites/rates.h"

namespace mitefall::forecast {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Expected number of mites one look at the sighted place would show.
branching::Lanes visible_numbers(const CompiledBlock& block, const Sighting& sighting,
                                 const std::vector<branching::Lanes>& numbers) {
    branching::Lanes visible;
    for (const mites::Stage stage : mites::all_stages) {
        const mites::Activity activity = mites::activity_of(stage);
        if (!mites::can_be_seen(activity, sighting.on_animal)) continue;
        const branching::TypeIndex first = block.type_of(sighting.seen_at, stage);
        for (std::uint32_t m = 0; m < block.compiled.layout.substages(stage); ++m) {
            for (std::size_t lane = 0; lane < branching::lane_count; ++lane)
                visible[lane] += numbers[first + m][lane];
        }
    }
    return branching::for_each_lane([&](std::size_t lane) {
        const double part = sighting.on_animal ? 1.0 : block.draws[lane].detection_nest_part;
        return visible[lane] * part * mites::detection_per_mite(block.fixed, block.draws[lane]);
    });
}

/// Expected visible mites per entering female below which a lineage cannot explain a sighting.
constexpr double least_visible = 1e-9;

double number_seen(const Sighting& sighting, const mites::MiteParameters& draw) {
    return sighting.seen_low * std::pow(sighting.seen_high / sighting.seen_low, draw.sighting_quantile);
}

/// Adds the expected numbers by type at `from` of the lineage behind one sighting.
void add_lineage(const CompiledBlock& block, const Sighting& sighting, double from,
                 branching::Tolerance tolerance, std::vector<branching::Lanes>& numbers) {
    const branching::Network& network = block.compiled.network;
    std::vector<branching::Lanes> entering(network.type_count);
    entering[block.type_of(sighting.entered_at, mites::Stage::adult_feeding_1)] = branching::Lanes::all(1);
    std::vector<double> times{sighting.seen_on};
    if (from > sighting.seen_on) times.push_back(from);
    const auto course = branching::expected_course(network, sighting.entered_on, entering, times, tolerance);
    const branching::Lanes visible = visible_numbers(block, sighting, course.front());
    const branching::TypeIndex feeding = block.type_of(sighting.seen_at, mites::Stage::adult_feeding_1);
    for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
        const double seen = number_seen(sighting, block.draws[lane]);
        if (!(visible[lane] > least_visible)) {
            // This draw's lineage would have died out before the sighting: what was seen came in just then.
            numbers[feeding][lane] += seen / mites::detection_per_mite(block.fixed, block.draws[lane]);
            continue;
        }
        const double scale = seen / visible[lane];
        for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i][lane] += scale * course.back()[i][lane];
    }
}

std::vector<branching::Lanes> sighted_numbers(const CompiledBlock& block, const SightedStart& sightings,
                                              double from, branching::Tolerance tolerance) {
    std::vector<branching::Lanes> numbers(block.compiled.network.type_count);
    for (const Sighting& sighting : sightings) add_lineage(block, sighting, from, tolerance, numbers);
    return numbers;
}

/// The type mites are, whatever number of substages they were counted in.
branching::TypeIndex type_of_mites(const CompiledBlock& block, const scenario::MiteCount& mites, int shape) {
    const branching::TypeIndex first = block.type_of(mites.place, mites.stage);
    base::expects(first != branching::no_type, "a stage that can live at its place");
    const auto count = static_cast<int>(block.compiled.layout.substages(mites.stage));
    const int counted_in = mites::is_seeking(mites::activity_of(mites.stage)) ? count : shape;
    return first +
           static_cast<branching::TypeIndex>(std::clamp(mites.substage * count / counted_in, 0, count - 1));
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

/// ln of the chance of one mite to pass what was asked.
double log_pass(const branching::SweepResult& swept, branching::TypeIndex type, std::size_t lane) {
    return swept.passing.empty() ? log_pass(swept.failure[type][lane]) : std::log(swept.passing[type][lane]);
}

/// The same of all mites of a state: sum n ln(1 - v).
double log_pass(const std::vector<std::pair<branching::TypeIndex, double>>& mites,
                const branching::SweepResult& swept, std::size_t lane) {
    double sum = -swept.imported[lane];
    for (const auto& [type, n] : mites) sum += n * log_pass(swept, type, lane);
    return sum;
}

}  // namespace

BlockStart::BlockStart(const Start& start, const CompiledBlock& block, double from,
                       branching::Tolerance tolerance)
    : block_(block) {
    if (const auto* const sightings = std::get_if<SightedStart>(&start)) {
        means_ = sighted_numbers(block, *sightings, from, tolerance);
        is_poisson_ = true;
    } else if (const auto* const known = std::get_if<KnownStart>(&start)) {
        count(*known);
    } else {
        read(*std::get<const belief::Belief*>(start));
    }
}

void BlockStart::count(const KnownStart& groups) {
    means_.resize(block_.compiled.network.type_count);
    for (const scenario::MiteCount& group : groups) {
        const int shape = static_cast<int>(block_.compiled.layout.substages(group.stage));
        branching::Lanes& cell = means_[type_of_mites(block_, group, shape)];
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) cell[lane] += group.count;
    }
}

void BlockStart::read(const belief::Belief& belief) {
    belief_ = &belief;
    const std::size_t first = block_.index * branching::lane_count;
    auto particle = std::partition_point(belief.particles.begin(), belief.particles.end(),
                                         [&](const belief::Particle& p) { return p.draw < first; });
    for (; particle != belief.particles.end() && particle->draw < first + branching::lane_count; ++particle) {
        State state{&*particle, {}};
        for (const scenario::MiteCount& group : particle->mites)
            state.mites.emplace_back(type_of_mites(block_, group, belief.shapes.at(particle->draw)),
                                     group.count);
        states_[particle->draw - first].push_back(std::move(state));
    }
}

branching::Lanes BlockStart::log_chance(const branching::SweepResult& swept) const {
    return branching::for_each_lane([&](std::size_t lane) {
        if (belief_ != nullptr) return log_chance_of_states(swept, lane);
        // ln prod (1 - v)^n for known numbers, ln E prod (1 - v)^N = -sum m v for Poisson ones.
        double sum = -swept.imported[lane];
        for (std::size_t i = 0; i < means_.size(); ++i) {
            const double n = means_[i][lane];
            const double v = swept.failure[i][lane];
            if (n > 0 && is_poisson_) sum += -n * v;
            if (n > 0 && !is_poisson_) sum += n * log_pass(swept, static_cast<branching::TypeIndex>(i), lane);
        }
        return sum;
    });
}

double BlockStart::error_of(const branching::SweepResult& swept, branching::Tolerance tolerance) const {
    // Of v: a share of itself where it is small, and never more than this (docs/decisions/0013).
    const double most = 1e-3 * tolerance.relative;
    const auto of_one = [&](double v) { return std::min(most, tolerance.relative * v); };
    const auto of_ln = [&](double v) { return v < 1 ? of_one(v) / (1 - v) : infinity; };
    double largest = 0;
    for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
        double error = belief_ != nullptr ? error_of_states(swept, lane, of_ln) : 0;
        for (std::size_t i = 0; i < means_.size(); ++i) {
            const double v = swept.failure[i][lane];
            if (means_[i][lane] > 0) error += means_[i][lane] * (is_poisson_ ? of_one(v) : of_ln(v));
        }
        largest = std::max(largest, error);
    }
    return largest;
}

/// `error` of ln(1 - v), from v.
template <class ErrorOf>
double BlockStart::error_of_states(const branching::SweepResult& swept, std::size_t lane,
                                   ErrorOf error) const {
    if (states_[lane].empty()) return 0;
    if (std::isinf(log_chance_of_states(swept, lane))) return infinity;
    const std::vector<double> share = shares(&swept, lane);
    double sum = 0;
    for (std::size_t s = 0; s < share.size(); ++s) {
        if (!(share[s] > 0)) continue;
        for (const auto& [type, n] : states_[lane][s].mites)
            sum += share[s] * n * error(swept.failure[type][lane]);
    }
    return sum;
}

double BlockStart::log_chance_of_states(const branching::SweepResult& swept, std::size_t lane) const {
    LogSum all;
    LogSum passed;
    for (const State& state : states_[lane]) {
        const double log_weight = std::log(state.particle->weight);
        all.add(log_weight);
        passed.add(log_weight + log_pass(state.mites, swept, lane));
    }
    return states_[lane].empty() ? -infinity : passed.value() - all.value();
}

branching::Lanes BlockStart::weight() const {
    return branching::for_each_lane([&](std::size_t lane) {
        if (belief_ == nullptr) return 1.0;
        return states_[lane].empty() ? 0.0
                                     : belief_->draw_weight.at(block_.index * branching::lane_count + lane);
    });
}

/// Of each state of a draw; together 1.
std::vector<double> BlockStart::shares(const branching::SweepResult* swept, std::size_t lane) const {
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

std::vector<branching::Lanes> BlockStart::numbers(const branching::SweepResult* swept) const {
    std::vector<branching::Lanes> numbers = means_;
    numbers.resize(block_.compiled.network.type_count);
    for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
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

std::vector<branching::Lanes> BlockStart::by_place(const branching::SweepResult* swept) const {
    std::vector<branching::Lanes> places(block_.classes.class_of.size());
    if (belief_ == nullptr) {
        const std::vector<branching::Lanes> by_type = numbers(swept);
        for (scenario::PlaceIndex place = 0; place < places.size(); ++place) {
            const auto members =
                static_cast<double>(block_.classes.members[block_.classes.class_of[place]].size());
            for (const mites::Stage stage : mites::all_stages) {
                const branching::TypeIndex first = block_.type_of(place, stage);
                for (std::uint32_t m = 0;
                     first != branching::no_type && m < block_.compiled.layout.substages(stage); ++m) {
                    for (std::size_t lane = 0; lane < branching::lane_count; ++lane)
                        places[place][lane] += by_type[first + m][lane] / members;
                }
            }
        }
    }
    for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
        const std::vector<double> share = shares(swept, lane);
        for (std::size_t s = 0; s < share.size(); ++s) {
            for (const scenario::MiteCount& group : states_[lane][s].particle->mites)
                places[group.place][lane] += share[s] * group.count;
        }
    }
    return places;
}

void set_apart(const Start& start, scenario::Scenario& scenario) {
    // A lineage must not be spread over the members of a class: the places it enters and is seen at stand
    // alone.
    if (const auto* const sightings = std::get_if<SightedStart>(&start)) {
        for (const Sighting& sighting : *sightings) {
            scenario.places.at(sighting.entered_at).set_apart = true;
            scenario.places.at(sighting.seen_at).set_apart = true;
        }
    }
}

std::vector<scenario::MiteCount> expected_start(const scenario::Scenario& scenario,
                                                const mites::FixedParameters& fixed,
                                                const mites::MiteParameters& draw, const SightedStart& start,
                                                double from) {
    const network::Classes classes = network::keep_apart(scenario);
    const std::vector<mites::MiteParameters> draws(branching::lane_count, draw);
    const network::MiteNetwork compiled = network::compile(scenario, classes, fixed, draws);
    const CompiledBlock block{compiled, classes, fixed, draws};
    const std::vector<branching::Lanes> numbers = sighted_numbers(block, start, from, {});
    std::vector<scenario::MiteCount> counts;
    for (scenario::PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        for (const mites::Stage stage : mites::all_stages) {
            const branching::TypeIndex first = block.type_of(place, stage);
            if (first == branching::no_type) continue;
            for (std::uint32_t m = 0; m < compiled.layout.substages(stage); ++m) {
                if (numbers[first + m][0] > 0)
                    counts.push_back({place, stage, numbers[first + m][0], static_cast<int>(m)});
            }
        }
    }
    return counts;
}

}  // namespace mitefall::forecast
