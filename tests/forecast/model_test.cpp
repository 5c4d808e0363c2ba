#include <gtest/gtest.h>

#include <boost/math/tools/roots.hpp>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>
#include <cmath>

#include "branching/expected_course.h"
#include "mites/rates.h"
#include "scenario/seen.h"
#include "shared/fixtures.h"

namespace mitefall::forecast {
namespace {

using namespace fixtures;

double mean_duration(mites::Stage stage, double celsius, double humidity = 85) {
    const mites::StageRates rates =
        mites::stage_rates(stage, small_ensemble().fixed, small_ensemble().mode, climate(celsius, humidity));
    return rates.substages / rates.advance;
}

double egg_to_adult(double celsius) {
    return mean_duration(mites::Stage::egg, celsius) + mean_duration(mites::Stage::larva, celsius) +
           mean_duration(mites::Stage::protonymph_feeding, celsius) +
           mean_duration(mites::Stage::deutonymph, celsius);
}

// Camin 1953 as tabulated in Kaplan 2002: 98 h + 47 h + 14 d + 26 h at 20 C; 28 h + 18 h + 3 d + 13 h at 30
// C.
TEST(Development, egg_to_adult_is_as_published) {
    EXPECT_NEAR(egg_to_adult(20), 21.1, 0.05);
    EXPECT_NEAR(egg_to_adult(30), 5.5, 0.05);
}

// Camin 1953: eggs hatch in 40-56 h at 25 C, a temperature the straight line was not fitted to.
TEST(Development, egg_at_25_degrees_is_as_published) {
    EXPECT_GE(mean_duration(mites::Stage::egg, 25) * 24, 40);
    EXPECT_LE(mean_duration(mites::Stage::egg, 25) * 24, 56);
}

// Wozniak & DeNardo 2000: 13-19 d from egg to egg at the temperatures of collections, animals at hand (no
// time spent seeking). Mean age of a mother when she lays: half the laying time.
TEST(Development, egg_to_egg_is_as_published) {
    for (const double celsius : {26.0, 27.0, 28.0}) {
        const double days = egg_to_adult(celsius) + mean_duration(mites::Stage::adult_feeding_1, celsius) +
                            mean_duration(mites::Stage::adult_laying_1, celsius) / 2;
        EXPECT_GE(days, 13) << celsius;
        EXPECT_LE(days, 19) << celsius;
    }
}

// Straight-line constants computed by hand from the same durations: T0 = 20 - 10 r20 / (r30 - r20), K = 10 /
// (r30 - r20).
TEST(Development, degree_hour_constants_are_those_of_the_published_durations) {
    const mites::FixedParameters& fixed = small_ensemble().fixed;
    const struct {
        const mites::Development& stage;
        double threshold, constant;
    } rows[] = {{fixed.egg, 16.0, 392},
                {fixed.larva, 13.8, 292},
                {fixed.protonymph, 17.3, 916},
                {fixed.deutonymph, 10.0, 260}};
    for (const auto& row : rows) {
        EXPECT_NEAR(mites::development_rate(row.stage, fixed, 27) / 24, (27 - row.threshold) / row.constant,
                    0.0005);
        EXPECT_EQ(mites::development_rate(row.stage, fixed, row.threshold - 0.5), 0);
        EXPECT_EQ(mites::development_rate(row.stage, fixed, 33),
                  mites::development_rate(row.stage, fixed, 30));
        EXPECT_NEAR(mites::development_rate(row.stage, fixed, 35.5),
                    mites::development_rate(row.stage, fixed, 30) / 2, 1e-12);
        EXPECT_EQ(mites::development_rate(row.stage, fixed, 38), 0);
    }
}

TEST(Survival, background_death_gives_the_stated_share) {
    for (const mites::Stage stage : {mites::Stage::egg, mites::Stage::larva, mites::Stage::deutonymph}) {
        const mites::StageRates rates =
            mites::stage_rates(stage, small_ensemble().fixed, small_ensemble().mode, climate(27, 85));
        const double survival = std::pow(rates.advance / (rates.advance + rates.loss), rates.substages);
        const double stated = stage == mites::Stage::egg     ? 0.75
                              : stage == mites::Stage::larva ? 0.85
                                                             : 0.95;  // evidence tables
        EXPECT_NEAR(survival, stated, 1e-12);
    }
}

/// Laplace transform of a stage: E[exp(-r X); survives], X the time spent.
double transform(mites::Stage stage, double r, double finding, const records::Climate& at,
                 const mites::MiteParameters& draw) {
    const mites::StageRates rates = mites::stage_rates(stage, small_ensemble().fixed, draw, at);
    const double step = rates.advance / (rates.advance + rates.loss + finding + r);
    if (!mites::is_seeking(mites::activity_of(stage))) return std::pow(step, rates.substages);
    double sum = 0;  // found from substage m, each reached with step^m
    for (int m = 0; m < rates.substages; ++m)
        sum += std::pow(step, m) * finding / (rates.advance + finding + r);
    return sum;
}

/// Expected daughters, each discounted by exp(-r age of mother): the next-generation operator has one
/// dimension (every life begins as an egg), so its dominant eigenvalue is this sum. Diekmann, Heesterbeek &
/// Metz 1990.
double discounted_daughters(double r, const records::Climate& at, const mites::MiteParameters& draw) {
    const double pn = mites::finding_rate(mites::Stage::protonymph_seeking, draw);
    const double ad = mites::finding_rate(mites::Stage::adult_seeking_1, draw);
    double reach = transform(mites::Stage::egg, r, 0, at, draw) *
                   transform(mites::Stage::larva, r, 0, at, draw) *
                   transform(mites::Stage::protonymph_seeking, r, pn, at, draw) *
                   transform(mites::Stage::protonymph_feeding, r, 0, at, draw) *
                   transform(mites::Stage::deutonymph, r, 0, at, draw);
    const mites::StageRates laying =
        mites::stage_rates(mites::Stage::adult_laying_1, small_ensemble().fixed, draw, at);
    const double over_stage = transform(mites::Stage::adult_laying_1, r, 0, at, draw);
    const double eggs = mites::laying_rate(small_ensemble().fixed, draw, at) *
                        (r == 0 ? laying.substages / laying.advance : (1 - over_stage) / r);
    double sum = 0;
    for (int meal = 1; meal <= mites::meal_count; ++meal) {
        reach *= transform(mites::Stage::adult_seeking_1, r, ad, at, draw) *
                 transform(mites::Stage::adult_feeding_1, r, 0, at, draw);
        sum += reach * eggs;
        reach *= over_stage * mites::chance_of_next_meal(meal, draw);
    }
    return sum;
}

double growth_by_next_generation(const records::Climate& at, const mites::MiteParameters& draw) {
    std::uintmax_t iterations = 200;
    const auto root = boost::math::tools::bracket_and_solve_root(
        [&](double growth) { return std::log(discounted_daughters(std::log(growth), at, draw)); }, 1.05, 1.1,
        false, boost::math::tools::eps_tolerance<double>(45), iterations);
    return std::log((root.first + root.second) / 2);
}

double growth_by_expected_course(const records::Climate& at, const mites::MiteParameters& draw) {
    scenario::Scenario scenario;
    scenario.places = {tub("tub", scenario::nowhere)};
    scenario.places[0].climate = at;
    const auto block = block_of(draw);
    const network::MiteNetwork compiled =
        network::compile(scenario, network::lump(scenario), small_ensemble().fixed, block);
    std::vector<branching::Lanes> start(compiled.network.type_count);
    start[0] = branching::Lanes::all(1);
    const auto course = branching::expected_course(compiled.network, 0, start, {900, 1000});
    return std::log(course[1][0][0] / course[0][0][0]) / 100;
}

TEST(Growth, linearised_sweep_grows_at_the_dominant_eigenvalue_of_the_next_generation) {
    for (const double celsius : {22.0, 25.0, 27.0, 31.0}) {
        const records::Climate at = climate(celsius, 85);
        EXPECT_NEAR(growth_by_expected_course(at, small_ensemble().mode),
                    growth_by_next_generation(at, small_ensemble().mode), 1e-7)
            << celsius;
    }
}

// Wall et al. 1999 saw a related mite double in 6.3 d; untreated snake mites should double in 5 to 9 d.
TEST(Growth, untreated_mites_double_in_five_to_nine_days) {
    for (const double celsius : {26.0, 27.0, 28.0}) {
        const double days =
            std::log(2) / growth_by_next_generation(climate(celsius, 85), small_ensemble().mode);
        EXPECT_GE(days, 5) << celsius;
        EXPECT_LE(days, 9) << celsius;
    }
}

TEST(Lumping, classes_give_the_same_answer_as_every_place_by_itself) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        scenario::Scenario scenario = random_scenario(seed, true);
        const std::size_t first = scenario.places.size();
        for (int copy = 0; copy < 5; ++copy) scenario.places.push_back(tub("copy", copy % 2 == 0 ? 0 : 1));
        for (scenario::PlaceIndex p = first; p < scenario.places.size(); ++p) {
            scenario.events.push_back(
                {41, scenario::Kill{p, mites::Reach::mobile_nest, scenario::Amount::number(0.5), 1}});
            scenario.events.push_back(
                {41, scenario::Contact{p, 2, mites::Reach::on_animal, scenario::Amount::number(0.3)}});
        }
        const network::Classes classes = network::lump(scenario);
        EXPECT_LT(classes.members.size(), scenario.places.size());
        const Swept lumped(scenario, classes, small_ensemble().mode, 0, 45, branching::Question::no_survivor,
                           {1e-11, 1e-16});
        const Swept apart(scenario, network::keep_apart(scenario), small_ensemble().mode, 0, 45,
                          branching::Question::no_survivor, {1e-11, 1e-16});
        for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p) {
            EXPECT_NEAR(lumped.failure(p, mites::Stage::egg), apart.failure(p, mites::Stage::egg), 1e-10);
            EXPECT_NEAR(lumped.failure(p, mites::Stage::adult_laying_2),
                        apart.failure(p, mites::Stage::adult_laying_2), 1e-10);
        }
    }
}

/// Six rooms in a ring of six, every third one alike, of two kinds of enclosures each.
scenario::Scenario ring_of_rooms() {
    scenario::Scenario scenario;
    for (scenario::PlaceIndex r = 0; r < 6; ++r)
        scenario.places.push_back(room("room", r % 3 == 0 ? 22 : 25, {(r + 1) % 6, (r + 5) % 6}));
    for (scenario::PlaceIndex r = 0; r < 6; ++r) {
        for (int i = 0; i < 3; ++i) scenario.places.push_back(tub("tub", r, i == 0 ? 26 : 29));
    }
    for (scenario::PlaceIndex p = 6; p < scenario.places.size(); ++p) {
        if (scenario.places[p].room % 3 == 1)
            scenario.events.push_back(
                {3, scenario::Kill{p, mites::Reach::on_animal, scenario::Amount::number(0.7), 1}});
    }
    return scenario;
}

TEST(Lumping, rooms_alike_with_alike_neighbours_are_one_class) {
    const scenario::Scenario scenario = ring_of_rooms();
    const network::Classes classes = network::lump(scenario);
    // Of the rooms 0..5 each is like the one across the ring; in each, two classes of enclosures.
    EXPECT_EQ(classes.members.size(), 9U);
    EXPECT_EQ(classes.class_of[0], classes.class_of[3]);
    EXPECT_NE(classes.class_of[1], classes.class_of[2]);
    const branching::Tolerance fine{1e-11, 1e-16};
    const Swept lumped(scenario, classes, small_ensemble().mode, 0, 45, branching::Question::no_survivor,
                       fine);
    const Swept apart(scenario, network::keep_apart(scenario), small_ensemble().mode, 0, 45,
                      branching::Question::no_survivor, fine);
    for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p)
        EXPECT_NEAR(lumped.failure(p, mites::Stage::adult_laying_1),
                    apart.failure(p, mites::Stage::adult_laying_1), 1e-10);
}

TEST(Lumping, a_room_with_an_enclosure_set_apart_stands_alone) {
    scenario::Scenario scenario = ring_of_rooms();
    scenario.places[7].set_apart = true;
    const network::Classes classes = network::lump(scenario);
    EXPECT_NE(classes.class_of[0], classes.class_of[3]);
}

TEST(Lumping, equal_contacts_at_different_moments_of_the_target_are_kept_apart) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("a", 0), tub("b", 0), tub("target", 0), tub("c", 0)};
    scenario.events = {{1, scenario::Contact{1, 3, mites::Reach::on_animal, scenario::Amount::number(0.5)}},
                       {1, scenario::Kill{3, mites::Reach::on_animal, scenario::Amount::number(0.9), 1}},
                       {1, scenario::Contact{2, 3, mites::Reach::on_animal, scenario::Amount::number(0.5)}}};
    const network::Classes classes = network::lump(scenario);
    EXPECT_NE(classes.class_of[1], classes.class_of[2]);
    EXPECT_EQ(network::lump(scenario::Scenario{scenario.places, {}}).members.size(), 2U);
}

TEST(Tolerance, halving_it_changes_no_answer_by_more_than_a_millionth) {
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const scenario::Scenario scenario = random_scenario(seed, false);
        const network::Classes classes = network::lump(scenario);
        const mites::MiteParameters& draw = small_ensemble().draws[seed % 32];
        const branching::Tolerance usual;
        const Swept coarse(scenario, classes, draw, 0, 60, branching::Question::no_survivor, usual);
        const Swept fine(scenario, classes, draw, 0, 60, branching::Question::no_survivor,
                         {usual.relative / 2, usual.absolute / 2});
        for (const double n : {1.0, 100.0, 10'000.0}) {
            const std::vector<scenario::MiteCount> start{{2, mites::Stage::egg, n}};
            EXPECT_NEAR(std::exp(coarse.log_chance(start)), std::exp(fine.log_chance(start)), 1e-6);
        }
    }
}

TEST(Parameters, every_draw_lies_in_the_published_range) {
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), 256, 1);
    ASSERT_EQ(ensemble.draws.size(), 256U);
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        double low = 1e300;
        double high = -1e300;
        for (const auto& row : tables().rows()) {
            if (row.cited.key == field.key) low = row.cited.low, high = row.cited.high;
        }
        for (const mites::MiteParameters& draw : ensemble.draws) {
            EXPECT_GE(draw.*field.member, low) << field.key;
            EXPECT_LE(draw.*field.member, high) << field.key;
        }
    }
}

// What is appended to the list takes coordinates of its own: the draws of the 48 fields of before, and of how
// many mites a sighting stands for, are those of a sequence that never knew of it.
TEST(Parameters, appended_to_the_list_change_no_older_draw) {
    constexpr std::uint64_t seed = 7;
    base::RandomStream stream(seed, 0, 0);
    std::vector<double> shift(49);
    for (double& one : shift) one = stream.uniform();
    boost::random::sobol points(shift.size());
    boost::random::uniform_01<double> unit;
    const auto& last = tables().row("arrival_founders").cited;
    for (const mites::MiteParameters& draw : mites::draw_parameters(tables(), 64, seed).draws) {
        std::vector<double> u;
        for (const double one : shift) u.push_back(std::fmod(unit(points) + one, 1.0));
        EXPECT_EQ(draw.sighting_quantile, u.at(48));
        EXPECT_EQ(draw.arrival_founders,
                  mites::triangular_quantile(last.low, last.value, last.high, u.at(47)));
    }
}

// Mean of a triangular distribution: (low + mode + high) / 3 (Evans, Hastings & Peacock 2000, chapter 40).
TEST(Parameters, quasi_random_draws_have_the_mean_of_their_distribution) {
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), 256, 1);
    double mean = 0;
    for (const mites::MiteParameters& draw : ensemble.draws) mean += draw.unfed_adult_life / 256;
    EXPECT_NEAR(mean, (20.0 + 10.0 + 45.0) / 3, 0.1);
}

// A check that finds nothing and a sighting must speak of the same mites, or a clean check would deny what it
// cannot show.
TEST(Seen, off_the_animal_only_walking_adults) {
    const scenario::CleanCheck check{1, scenario::Amount::number(0.5), scenario::Amount::number(0.2), false};
    for (const mites::Stage stage : mites::all_stages) {
        const mites::Activity activity = mites::activity_of(stage);
        const bool adult =
            activity == mites::Activity::adult_seeking || activity == mites::Activity::adult_laying;
        EXPECT_EQ(mites::can_be_seen(activity, false), adult) << to_text(stage);
        EXPECT_EQ(mites::can_be_seen(activity, true), mites::is_on_animal(activity)) << to_text(stage);
        const double seen =
            scenario::chance_to_be_seen(check, activity, small_ensemble().fixed, small_ensemble().mode);
        EXPECT_DOUBLE_EQ(seen, mites::is_on_animal(activity) ? 0.5 : adult ? 0.1 : 0) << to_text(stage);
    }
}

}  // namespace
}  // namespace mitefall::forecast
