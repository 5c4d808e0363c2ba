#pragma once

#include <vector>

#include "base/random.h"
#include "branching/sweep.h"
#include "mites/parameters.h"
#include "network/compile.h"
#include "scenario/actions.h"
#include "scenario/scenario.h"
#include "scenario/things.h"
#include "shared/tables.h"

namespace mitefall::fixtures {

inline const mites::Ensemble& small_ensemble() {
    static const mites::Ensemble drawn = mites::draw_parameters(tables(), 4 * branching::lane_count, 7);
    return drawn;
}

/// A draw that walks, carries and dies more than is likely, so that every path of the model matters.
inline mites::MiteParameters restless(mites::MiteParameters draw, double eggs = 0.25) {
    draw.leaving_rate = 0.05;
    draw.room_crossing_rate = 0.1;
    draw.adult_survival_per_cycle *= 0.5;
    draw.eggs_per_meal *= eggs;
    return draw;
}

/// The draw of that number, counted round.
inline const mites::MiteParameters& small_draw(std::size_t index) {
    return small_ensemble().draws[index % small_ensemble().draws.size()];
}

inline records::Climate climate(double celsius, double humidity) {
    return {units::celsius(celsius), units::celsius(celsius), units::relative_humidity_percent(humidity)};
}

inline scenario::Place room(std::string name, double celsius = 25,
                            std::vector<scenario::PlaceIndex> adjoining = {}) {
    scenario::Place place;
    place.name = std::move(name);
    place.is_room = true;
    place.adjoining = std::move(adjoining);
    place.climate = climate(celsius, 60);
    return place;
}

inline scenario::Place tub(std::string name, scenario::PlaceIndex in, double celsius = 28, int animals = 1,
                           double humidity = 80) {
    scenario::Place place;
    place.name = std::move(name);
    place.room = in;
    place.climate = climate(celsius, humidity);
    place.animals = animals;
    return place;
}

/// Eight copies of the most likely draw.
inline std::vector<mites::MiteParameters> block_of(const mites::MiteParameters& draw) {
    return std::vector<mites::MiteParameters>(branching::lane_count, draw);
}

/// Failure probabilities for one draw: per place and stage (first substage).
class Swept {
  public:
    Swept(const scenario::Scenario& scenario, const network::Classes& classes,
          const mites::MiteParameters& draw, double from, double to,
          branching::Question question = branching::Question::no_survivor,
          branching::Tolerance tolerance = {})
        : classes_(classes) {
        const auto block = block_of(draw);
        network::MiteNetwork compiled = network::compile(scenario, classes, small_ensemble().fixed, block);
        layout_ = compiled.layout;
        result_ = branching::sweep(compiled.network, from, to, question, tolerance);
    }
    [[nodiscard]] double failure(scenario::PlaceIndex place, mites::Stage stage, int substage = 0) const {
        const branching::TypeIndex first =
            layout_.first[classes_.class_of[place]][static_cast<std::size_t>(stage)];
        return result_.failure[first + static_cast<branching::TypeIndex>(substage)][0];
    }
    [[nodiscard]] double log_chance(const std::vector<scenario::MiteCount>& start) const {
        double sum = -result_.imported[0];
        for (const scenario::MiteCount& group : start)
            sum += group.count * std::log1p(-failure(group.place, group.stage, group.substage));
        return sum;
    }

  private:
    network::Classes classes_;
    network::Layout layout_;
    branching::SweepResult result_;
};

/// A random scenario: two adjoining rooms, one to four enclosures in each, treatments, moves, contacts,
/// checks, residues, a veterinary drug, a change of climate; of odd seeds clean tubs in place of new paper,
/// of every second of them heads gone over before a spray, of every other second things washed or sprayed.
inline scenario::Scenario random_scenario(std::uint64_t seed, bool with_checks) {
    base::RandomStream random(seed, 99, 0);
    const auto pick = [&](std::size_t n) {
        return std::min(n - 1, static_cast<std::size_t>(random.uniform() * static_cast<double>(n)));
    };
    scenario::Scenario scenario;
    scenario.places = {room("room 1", 22 + 4 * random.uniform(), {1}),
                       room("room 2", 22 + 4 * random.uniform(), {0})};
    std::vector<scenario::PlaceIndex> tubs;
    for (const scenario::PlaceIndex in : {scenario::PlaceIndex{0}, scenario::PlaceIndex{1}}) {
        const std::size_t count = 1 + pick(4);
        for (std::size_t i = 0; i < count; ++i) {
            tubs.push_back(scenario.places.size());
            scenario.places.push_back(tub("tub", in, 24 + 6 * random.uniform(),
                                          random.uniform() < 0.8 ? 1 + static_cast<int>(pick(2)) : 0,
                                          40 + 50 * random.uniform()));
        }
    }
    using M = mites::MiteParameters;
    if (seed % 3 == 0) {
        scenario.events.push_back({0, scenario::Import{tubs.front(), mites::Stage::adult_seeking_1,
                                                       scenario::Amount::number(0.03), 12}});
    }
    std::vector<int> animals = scenario::animals_at(scenario, 0);
    for (double time = 0; time < 40; time += 1 + 5 * random.uniform()) {
        const scenario::PlaceIndex here = tubs[pick(tubs.size())];
        const scenario::PlaceIndex there = tubs[pick(tubs.size())];
        const auto add = [&](scenario::Happening what) {
            scenario.events.push_back({time, std::move(what)});
        };
        switch (pick(with_checks ? 10 : 8)) {
            case 0:
                if (seed % 4 == 3)
                    scenario::add_action(scenario, {records::Method::clear_head, here, time, {}, 1, 0, {}},
                                         mites::fixed_parameters(tables()));
                add(scenario::Kill{here, mites::Reach::on_animal,
                                   scenario::Amount::drawn(&M::kill_spray_on_animal_home), 1});
                break;
            case 1:
                if (seed % 4 == 1) {
                    const auto fixed = mites::fixed_parameters(tables());
                    scenario::add_things(scenario, time, here,
                                         {{true, records::ThingMethod::wash_hot},
                                          {false, records::ThingMethod::spray_and_air}},
                                         fixed);
                    break;
                }
                add(scenario::Kill{here, mites::Reach::mobile_nest, scenario::Amount::number(0.8), 0.9});
                break;
            case 2:
                if (seed % 2 == 1) {
                    scenario::add_action(scenario, {records::Method::fresh_tub, here, time, {}, 1, 0, {}},
                                         mites::fixed_parameters(tables()));
                    break;
                }
                add(scenario::ResidueGone{here});
                add(scenario::Kill{here, mites::Reach::mobile_nest,
                                   scenario::Amount::drawn(&M::substrate_nest_sealed), 1});
                add(scenario::Kill{here, mites::Reach::eggs,
                                   scenario::Amount::drawn(&M::substrate_eggs_sealed), 1});
                break;
            case 3:
                add(scenario::Residue{here, scenario::Amount::number(0.2 + random.uniform()),
                                      random.uniform() < 0.5
                                          ? scenario::Amount::drawn(&M::residual_half_life)
                                          : scenario::Amount::number(0.5 + 4 * random.uniform()),
                                      time + 4 * random.uniform()});
                break;
            case 4: {
                scenario::KillOnAnimals kill{here, {}};
                scenario::Medicated drugs{here, {}};
                for (int i = 0; i < animals[here]; ++i) {
                    const double part = random.uniform() < 0.5 ? 1 : random.uniform();
                    kill.animals.push_back({{scenario::Amount::number(0.6), part}});
                    drugs.animals.push_back({{scenario::Amount::number(0.6), part, time + 6},
                                             {scenario::Amount::number(0.9), random.uniform(), time + 3}});
                    if (random.uniform() < 0.3) drugs.animals.back().clear();
                }
                add(std::move(kill));
                add(std::move(drugs));
                break;
            }
            case 5:
                if (here != there && animals[here] > 0) {
                    add(scenario::MoveAnimal{here, there});
                    --animals[here];
                    ++animals[there];
                    for (const scenario::PlaceIndex place : {here, there})
                        add(scenario::Medicated{place, std::vector<std::vector<scenario::Dose>>(
                                                           static_cast<std::size_t>(animals[place]))});
                }
                break;
            case 6:
                if (here != there)
                    add(scenario::Contact{
                        here, there,
                        random.uniform() < 0.5 ? mites::Reach::on_animal : mites::Reach::mobile_nest,
                        scenario::Amount::number(0.2)});
                break;
            case 7: add(scenario::ClimateChange{here, climate(23 + 6 * random.uniform(), 70)}); break;
            default:
                add(scenario::CleanCheck{here, scenario::Amount::number(0.3), scenario::Amount::number(0.2),
                                         random.uniform() < 0.3});
                break;
        }
    }
    return scenario;
}

}  // namespace mitefall::fixtures
