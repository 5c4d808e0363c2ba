#include "belief/crowd.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "belief/lineage.h"
#include "shared/fixtures.h"

namespace mitefall::belief {
namespace {

using namespace fixtures;

struct One {
    std::size_t place = 0;
    double weight = 1;
};

// By hand: 12 for places with 1, 2, 30 and 40 leaves 9 for the last two, 4 each.
TEST(Crowd, what_small_places_do_not_use_goes_to_the_others) {
    EXPECT_EQ(share_of_each({40, 1, 30, 2}, 12), 4U);
    EXPECT_EQ(share_of_each({5, 5, 5}, 9), 3U);
    EXPECT_EQ(share_of_each({1, 2, 3}, 100), 3U) << "everybody";
    EXPECT_EQ(share_of_each({7, 7, 7, 7}, 2), 1U) << "never nobody";
}

TEST(Crowd, thinning_leaves_few_as_they_are_and_keeps_the_weight_of_every_place) {
    std::vector<One> all;
    for (int i = 0; i < 500; ++i) all.push_back({7, i % 5 == 0 ? 3.0 : 1.0});
    for (int i = 0; i < 4; ++i) all.push_back({2, 1.0});
    all.push_back({9, 2.5});
    base::RandomStream random(1, 1, 1);
    std::vector<One> scratch;
    thin_crowd(all, {60, 0, 60}, random, scratch);
    EXPECT_LE(all.size(), 60U);
    std::map<std::size_t, std::vector<double>> weights;
    for (const One& one : all) weights[one.place].push_back(one.weight);
    EXPECT_EQ(weights[2], (std::vector<double>{1, 1, 1, 1}));
    EXPECT_EQ(weights[9], (std::vector<double>{2.5}));
    double sum = 0;
    for (const double weight : weights[7]) sum += weight;
    EXPECT_NEAR(sum, 400 + 300, 1e-9) << "systematic sampling keeps the sum exactly";
}

TEST(Crowd, with_room_for_each_place_a_sample_grows_up_to_its_limit) {
    const auto left = [](std::size_t places) {
        std::vector<One> all;
        for (std::size_t i = 0; i < 5000; ++i) all.push_back({i % places, 1});
        base::RandomStream random(1, 1, 1);
        std::vector<One> scratch;
        thin_crowd(all, {100, 10, 300}, random, scratch);
        return all.size();
    };
    EXPECT_EQ(left(5), 100U);
    EXPECT_EQ(left(20), 200U);
    EXPECT_EQ(left(100), 300U);
}

/// Twenty tubs of a room, mites in one of them.
scenario::Scenario many_tubs() {
    scenario::Scenario scenario;
    scenario.places = {room("room")};
    for (int i = 0; i < 20; ++i) scenario.places.push_back(tub("tub " + std::to_string(i), 0));
    return scenario;
}

struct Spread {
    double places = 0, mites = 0, square_places = 0, square_mites = 0;
};

Spread spread_of(Lineage lineage, const Pace& pace) {
    constexpr std::uint32_t runs = 300;
    Spread spread;
    const std::vector<Founder> founders(30, {1, mites::Stage::adult_feeding_1, 0, 0, 0, 0});
    for (std::uint32_t run = 0; run < runs; ++run) {
        std::set<scenario::PlaceIndex> places;
        double mites = 0;
        for (const scenario::MiteCount& m :
             lineage.run(pace, founders, 1, base::RandomStream(3, run, 4)).mites) {
            places.insert(m.place);
            mites += m.count;
        }
        const auto reached = static_cast<double>(places.size());
        spread.places += reached / runs;
        spread.square_places += reached * reached / runs;
        spread.mites += mites / runs;
        spread.square_mites += mites * mites / runs;
    }
    return spread;
}

// A crowd must not walk as one: how many tubs it reaches is what the finds are weighed by. Four standard
// errors of the difference, and a twentieth for what a sample may leave out.
TEST(Crowd, carried_by_a_sample_reaches_as_many_tubs_as_all_of_it) {
    const scenario::Scenario scenario = many_tubs();
    const Terrain terrain(scenario, {}, 30);
    mites::MiteParameters draw = small_ensemble().mode;
    draw.leaving_rate = 0.01;
    const Pace pace(terrain, small_ensemble().fixed, draw);
    const Spread all = spread_of(Lineage(terrain, {everybody, everybody, {}}), pace);
    const Spread sample = spread_of(Lineage(terrain, {}), pace);
    const auto error = [](double mean, double square) { return std::sqrt((square - mean * mean) / 300); };
    EXPECT_GT(all.mites, 400) << "large enough to be thinned";
    EXPECT_NEAR(sample.places, all.places,
                4 * std::sqrt(2.0) * error(all.places, all.square_places) + 0.05 * all.places);
    EXPECT_NEAR(sample.mites, all.mites,
                4 * std::hypot(error(all.mites, all.square_mites), error(sample.mites, sample.square_mites)));
}

TEST(Crowd, what_stands_for_several_is_parted_where_there_is_room) {
    std::vector<One> all{{1, 40}, {1, 2.5}, {2, 1}, {3, 100}, {3, 1}};
    std::vector<One> scratch;
    part_where_few(all, 8, scratch);
    std::map<std::size_t, std::vector<double>> weights;
    for (const One& one : all) weights[one.place].push_back(one.weight);
    EXPECT_EQ(weights[1], (std::vector<double>{10, 10, 10, 10, 1.25, 1.25})) << "four each, none below one";
    EXPECT_EQ(weights[2], (std::vector<double>{1}));
    EXPECT_EQ(weights[3], (std::vector<double>{25, 25, 25, 25, 1}));
}

/// Shares of `runs` in which mites live in a place at the end, and their mean number there.
struct Left {
    double alive = 0, mites = 0, squares = 0;
};

constexpr std::uint32_t many_runs = 3000;

/// Eggs and all: the founders of a large outbreak, then what is done, stretch by stretch of four days.
Left left_in(const scenario::Scenario& scenario, scenario::PlaceIndex place, const LineageOptions& options,
             const mites::MiteParameters& draw) {
    const Terrain terrain(scenario, {}, 13.5);
    const Pace pace(terrain, small_ensemble().fixed, draw);
    Lineage lineage(terrain, options);
    Left left;
    for (std::uint32_t run = 0; run < many_runs; ++run) {
        Course course;
        course.to_come.assign(12, {1, mites::Stage::adult_feeding_1, 0, 0, 0, 0});
        course.cause.assign(1, 0.0);
        for (std::uint32_t k = 0; k < 4; ++k) {
            const double until = std::min(13.5, 3.37 + 4 * k);
            (void)lineage.advance(pace, course, until, base::RandomStream(8, run, k));
        }
        double mites = 0;
        for (const Living& living : course.mites) mites += living.place == place ? living.weight : 0;
        left.alive += (mites > 0 ? 1.0 : 0.0) / many_runs;
        left.mites += mites / many_runs;
        left.squares += mites * mites / many_runs;
    }
    return left;
}

/// A sample so small that nearly each carries many.
const LineageOptions tiny{{12, 0, 12}, {12, 4, 12}, {}};
const LineageOptions all_of_them{everybody, everybody, {}};

// A crowd carried by a sample must not die as one: whether any is left after a treatment is what is asked.
// Four standard errors of the difference.
TEST(Crowd, carried_by_a_sample_is_wiped_out_as_seldom_as_all_of_it) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("tub", 0)};
    for (const mites::Reach reach : {mites::Reach::on_animal, mites::Reach::mobile_nest, mites::Reach::eggs})
        scenario.events.push_back({13, scenario::Kill{1, reach, scenario::Amount::number(0.985), 1}});
    const Left all = left_in(scenario, 1, all_of_them, small_ensemble().mode);
    const Left sample = left_in(scenario, 1, tiny, small_ensemble().mode);
    EXPECT_GT(all.alive, 0.3);
    EXPECT_LT(all.alive, 0.98);
    EXPECT_NEAR(sample.alive, all.alive, 4 * std::sqrt(2 * 0.25 / many_runs) + 0.02);
    EXPECT_NEAR(sample.mites, all.mites, 4 * std::sqrt((all.squares + sample.squares) / many_runs));
}

// Hands carry mites one by one.
TEST(Crowd, carried_by_a_sample_is_carried_on_hands_as_often_as_all_of_it) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("tub", 0), tub("other", scenario::nowhere)};
    scenario.events.push_back(
        {13, scenario::Contact{1, 2, mites::Reach::on_animal, scenario::Amount::number(0.02)}});
    const Left all = left_in(scenario, 2, all_of_them, small_ensemble().mode);
    const Left sample = left_in(scenario, 2, tiny, small_ensemble().mode);
    EXPECT_GT(all.alive, 0.1);
    EXPECT_NEAR(sample.alive, all.alive, 4 * std::sqrt(2 * 0.25 / many_runs) + 0.02);
    EXPECT_NEAR(sample.mites, all.mites, 4 * std::sqrt((all.squares + sample.squares) / many_runs));
}

}  // namespace
}  // namespace mitefall::belief
