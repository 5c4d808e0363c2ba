#include "belief/prospects.h"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

#include "branching/sweep.h"
#include "scenario/climates.h"
#include "scenario/seen.h"

namespace mitefall::belief {
namespace {

constexpr int rough_shape = 4;
constexpr branching::Tolerance rough{1e-3, 1e-9};
constexpr std::size_t most_climates = 12;
constexpr double climate_width = 1;   // degrees Celsius, where there are more
constexpr double just_before = 1e-3;  // days, of a look: before what is done on its day
constexpr double memory = 5;  // days; finds further ahead count less, as they go together more often than
                              // one by one
constexpr double no_hope = 1e-12;  // of one find: hope may be wrong, but never is none left
constexpr double number_matters =
    3;  // days ahead in which the number seen is weighed, not only that some were

/// The past as far as it does anything to mites.
scenario::Scenario past_of(const scenario::Scenario& scenario, double at) {
    scenario::Scenario past{scenario.places, {}};
    for (const scenario::Event& event : scenario.events) {
        if (event.time >= at) break;
        if (acts_on_mites(event.what)) past.events.push_back(event);
    }
    return past;
}

/// Where hardly two enclosures have one climate, neighbouring ones are taken for one: hope may be rough.
scenario::Scenario with_few_climates(scenario::Scenario past) {
    if (scenario::climates_in(past) <= most_climates) return past;
    const std::vector<double> width(past.places.size(), climate_width);
    return scenario::with_rounded_climates(std::move(past), width);
}

/// Places alike; each where mites were found is one by itself.
network::Classes classes_of(scenario::Scenario past, const Terrain& terrain) {
    double mark = 0.5;
    for (const std::uint32_t find : terrain.finds()) {
        mark += 1e-6;
        past.events.push_back(
            {terrain.at(), scenario::CleanCheck{terrain.looks()[find].place, scenario::Amount::number(mark),
                                                scenario::Amount::number(mark), false}});
    }
    return network::lump(past);
}

mites::Stage stage_of(IntroductionKind kind) {
    return is_single(kind) ? mites::Stage::adult_seeking_1 : mites::Stage::adult_feeding_1;
}

double time_of(const Cell& cell, double at) {
    const double middle = std::floor((cell.first_day + cell.last_day) / 2) + between_events;
    return std::min(middle, at - between_events / 2);
}

/// On average.
double founders_of(const Sources& sources, std::uint32_t cell) {
    const IntroductionKind kind = sources.of(cell).kind;
    if (is_single(kind)) return 1;
    const IntroductionPrior::Founders& founders =
        kind == IntroductionKind::longer ? sources.prior.longer_founders : sources.prior.arrival_founders;
    return (founders.low + founders.mode + founders.high) / 3;
}

mites::MiteParameters with_few_substages(mites::MiteParameters draw) {
    draw.erlang_shape = rough_shape;
    return draw;
}

/// Chance that a Poisson number of mean n is what the word of a find stands for.
double chance_of_word(records::SeenCount seen, double n) {
    const scenario::SeenRange range = scenario::range_of(seen);
    if (n <= 0) return 0;
    const double at_least = boost::math::gamma_p(range.low, n);
    if (seen == records::SeenCount::masses) return at_least;
    return std::max(0.0, at_least - boost::math::gamma_p(range.high + 1, n));
}

}  // namespace

/// Something to be done at a moment of the way back.
struct Prospects::Stop {
    enum class What { find, time, cell };
    double time = 0;
    What what = What::find;
    std::size_t index = 0;
};

Prospects::Prospects(const Terrain& terrain, const Sources& sources, std::vector<double> times,
                     const mites::FixedParameters& fixed, const mites::MiteParameters& mode)
    : terrain_(terrain),
      sources_(sources),
      times_(std::move(times)),
      usual_draw_(with_few_substages(mode)),
      usual_(terrain, fixed, usual_draw_),
      finds_(terrain.finds().size()) {
    if (finds_ == 0) return;
    const scenario::Scenario past = with_few_climates(past_of(terrain_.scenario(), terrain_.at()));
    classes_ = classes_of(past, terrain_);
    chances_.assign(times_.size(), std::vector<float>(classes_.members.size() * mites::stage_total * finds_));
    of_cells_.resize(sources_.cells.size() * finds_);
    const std::vector<mites::MiteParameters> draws(branching::lane_count, usual_draw_);
    Block block{0, 0, network::compile(past, classes_, fixed, draws)};
    for (; block.first < finds_; block.first = block.last) {
        block.last = std::min(finds_, block.first + branching::lane_count);
        sweep(block);
    }
}

/// From the last to the first.
std::vector<Prospects::Stop> Prospects::stops_of(const Block& block) const {
    std::vector<Stop> stops;
    const double at = terrain_.at();
    for (std::size_t f = block.first; f < block.last; ++f) {
        const double time = look(f).time;
        stops.push_back({time < at ? std::max(0.0, time - just_before) : at, Stop::What::find, f});
    }
    for (std::size_t k = 0; k < times_.size(); ++k) stops.push_back({times_[k], Stop::What::time, k});
    for (std::size_t c = 0; c < sources_.cells.size(); ++c)
        stops.push_back({time_of(sources_.cells[c], at), Stop::What::cell, c});
    std::stable_sort(stops.begin(), stops.end(),
                     [](const Stop& a, const Stop& b) { return a.time > b.time; });
    return stops;
}

/// Lane by lane, v is the chance that one mite leads to one find.
void Prospects::sweep(const Block& block) {
    branching::SweepInStretches sweep_of_block(block.compiled.network, rough);
    branching::SweepResult swept;
    swept.failure.assign(block.compiled.network.type_count, branching::Lanes::all(0));
    double until = terrain_.at();
    for (const Stop& stop : stops_of(block)) {
        if (stop.time < until) {
            swept = sweep_of_block.go_on(stop.time, until, std::move(swept));
            until = stop.time;
        }
        switch (stop.what) {
            case Stop::What::find: see(block, stop.index, swept.failure); break;
            case Stop::What::time: keep_time(block, stop.index, swept.failure); break;
            case Stop::What::cell: keep_cell(block, stop.index, swept.failure); break;
        }
    }
}

/// What may be seen at a find.
void Prospects::see(const Block& block, std::size_t find, std::vector<branching::Lanes>& failure) const {
    const Eyes& eyes = usual_.eyes_of(look(find));
    const network::Layout& layout = block.compiled.layout;
    for (const mites::Stage stage : mites::all_stages) {
        const double seen = chance_to_see(look(find), eyes, mites::activity_of(stage));
        const auto s = static_cast<std::size_t>(stage);
        const branching::TypeIndex first = layout.first[classes_.class_of[look(find).place]][s];
        if (!(seen > 0) || first == branching::no_type) continue;
        for (branching::TypeIndex type = first; type < first + layout.substages(stage); ++type) {
            double& v = failure[type][find - block.first];
            v += (1 - v) * seen;
        }
    }
}

void Prospects::keep_time(const Block& block, std::size_t time,
                          const std::vector<branching::Lanes>& failure) {
    float* into = chances_[time].data();
    for (const auto& stages : block.compiled.layout.first) {
        for (const branching::TypeIndex type : stages) {
            for (std::size_t f = block.first; type != branching::no_type && f < block.last; ++f)
                into[f] = static_cast<float>(failure[type][f - block.first]);
            into += finds_;
        }
    }
}

void Prospects::keep_cell(const Block& block, std::size_t cell,
                          const std::vector<branching::Lanes>& failure) {
    const Introduction& from = sources_.of(static_cast<std::uint32_t>(cell));
    const auto& stages = block.compiled.layout.first[classes_.class_of[from.place]];
    const branching::TypeIndex type = stages[static_cast<std::size_t>(stage_of(from.kind))];
    const mites::Activity activity = mites::activity_of(stage_of(from.kind));
    for (std::size_t f = block.first; f < block.last; ++f) {
        double v = failure[type][f - block.first];
        // Who comes on the day of a find may be what was found.
        const bool that_day = from.place == look(f).place && sources_.cells[cell].first_day == look(f).time &&
                              sources_.cells[cell].last_day == look(f).time &&
                              from.after <= Terrain::order_of_look(look(f));
        if (that_day) v += (1 - v) * chance_to_see(look(f), usual_.eyes_of(look(f)), activity);
        of_cells_[cell * finds_ + f] = static_cast<float>(v);
    }
}

/// Near by families of mites are Poisson, each seen or not; `expected` of them show.
double Prospects::chance_of_find(std::size_t find, double ahead, double expected) const {
    const RecordErrors& errors = sources_.prior.errors;
    const double some = -std::expm1(-expected);
    if (ahead >= number_matters) return errors.unexplained + some;
    return errors.unexplained + (1 - errors.careless) * chance_of_word(look(find).seen, expected) +
           errors.careless * some / other_words;
}

/// Finds ahead happen together or not at all more often than one by one: far ahead their product counts as
/// one of them.
double Prospects::hope_of(double time, const Pace& pace, std::span<const double> expected) const {
    double later = 0;
    for (std::size_t f = 0; f < finds_; ++f) later += look(f).time >= time ? 1 : 0;
    double sum = 0;
    for (std::size_t f = 0; f < finds_; ++f) {
        const double ahead = look(f).time - time;
        if (ahead < 0) continue;
        const Eyes& own = pace.eyes_of(look(f));
        const Eyes& usual = usual_.eyes_of(look(f));
        const bool on_animal = look(f).where != scenario::LookedAt::nest && usual.on_animal > 0;
        const double sight = on_animal ? own.on_animal / usual.on_animal : own.off_animal / usual.off_animal;
        const double counts = 1 / later + (1 - 1 / later) * std::exp(-ahead / memory);
        const double shown = std::isfinite(sight) ? expected[f] * sight : expected[f];
        sum += counts * std::log(std::max(no_hope, chance_of_find(f, ahead, shown)));
    }
    return sum;
}

double Prospects::hope(std::size_t k, const Pace& pace, const Course& course,
                       std::span<const std::uint32_t> cells) const {
    std::vector<double> expected(finds_);
    for (const Living& one : course.mites) {
        const std::size_t row = classes_.class_of[one.place] * mites::stage_total;
        const float* const chance = &chances_[k][(row + static_cast<std::size_t>(one.stage)) * finds_];
        for (std::size_t f = 0; f < finds_; ++f) expected[f] += one.weight * static_cast<double>(chance[f]);
    }
    for (const Founder& founder : course.to_come) {
        const float* const chance = &of_cells_[cells[founder.introduction] * finds_];
        for (std::size_t f = 0; f < finds_; ++f) expected[f] += static_cast<double>(chance[f]);
    }
    return hope_of(times_[k], pace, expected);
}

double Prospects::hope(const Pace& pace, std::span<const std::uint32_t> cells) const {
    std::vector<double> expected(finds_);
    for (const std::uint32_t cell : cells) {
        const double founders = founders_of(sources_, cell);
        for (std::size_t f = 0; f < finds_; ++f)
            expected[f] += founders * static_cast<double>(of_cells_[cell * finds_ + f]);
    }
    return hope_of(0, pace, expected);
}

double Prospects::chance_of(std::uint32_t cell) const {
    double none = 1;
    for (std::size_t f = 0; f < finds_; ++f) none *= 1 - static_cast<double>(of_cells_[cell * finds_ + f]);
    return 1 - none;
}

}  // namespace mitefall::belief
