#include "belief/lineage.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scenario/actions.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

namespace mitefall::belief {
namespace {

using namespace fixtures;

constexpr double at = 38.5;
constexpr std::uint32_t runs = 20'000;

scenario::PlaceIndex first_inhabited(const scenario::Scenario& scenario) {
    scenario::PlaceIndex place = 2;
    while (place + 1 < scenario.places.size() && scenario.places[place].animals == 0) ++place;
    return place;
}

/// A random scenario without imports, and a usual look into one enclosure on day 20.5.
struct Case {
    scenario::Scenario scenario;
    std::vector<scenario::Look> looks;
    scenario::PlaceIndex place = 0;

    explicit Case(std::uint64_t seed) : scenario(random_scenario(seed, false)) {
        std::erase_if(scenario.events, [](const scenario::Event& e) {
            return std::holds_alternative<scenario::Import>(e.what);
        });
        place = first_inhabited(scenario);
        const auto after = std::find_if(scenario.events.begin(), scenario.events.end(),
                                        [](const scenario::Event& e) { return e.time > 20.5; });
        looks.push_back({place, 20.5, static_cast<std::size_t>(after - scenario.events.begin()),
                         scenario::LookedAt::both, records::SeenCount::none});
        scenario.events.insert(after, {20.5, scenario::clean_check(place, records::CheckMethod::look_over)});
        // The look stands before the check it is a copy of.
    }
};

/// So many eggs of a generation; 0: all.
LineageOptions carried_by(std::size_t crowd) {
    if (crowd == 0) return {everybody, everybody, {}};
    return {{crowd, 0, crowd}, {4 * crowd, 0, 4 * crowd}, {}};
}

struct Totals {
    double alive = 0, clean = 0, mites = 0, squares = 0;
    [[nodiscard]] double error_of_mean() const {
        return std::sqrt((squares / runs - mites / runs * mites / runs) / runs);
    }
};

Totals run_lineages(const Case& given, const mites::MiteParameters& draw, std::size_t crowd) {
    const Terrain terrain(given.scenario, given.looks, at);
    const Pace pace(terrain, small_ensemble().fixed, draw);
    const std::vector<Founder> founders{{given.place, mites::Stage::adult_seeking_1, 0, 0, 0, 0},
                                        {given.place, mites::Stage::adult_feeding_2, 0, 0, 0, 0}};
    Lineage lineage(terrain, carried_by(crowd));
    Totals totals;
    for (std::uint32_t run = 0; run < runs; ++run) {
        const Outcome outcome = lineage.run(pace, founders, 1, base::RandomStream(5, run, 3));
        double mites = 0;
        for (const scenario::MiteCount& group : outcome.mites) mites += group.count;
        totals.alive += outcome.alive ? 1 : 0;
        totals.mites += mites;
        totals.squares += mites * mites;
        double clean = 1;
        for (const auto& [look, seen] : outcome.sights.visible)
            clean *= chance_of_count(given.looks[look], seen, pace.eyes_of(given.looks[look]));
        totals.clean += clean;
    }
    return totals;
}

class LineageNetworks : public testing::TestWithParam<int> {};

// Two programs of one model: mite by mite through all substages, and stage by stage with crowds thinned. Four
// standard errors of the difference: about one false alarm in 16,000 comparisons.
TEST_P(LineageNetworks, agree_with_the_simulator_within_four_standard_errors) {
    const auto seed = static_cast<std::uint64_t>(GetParam());
    const Case given(seed);
    ASSERT_TRUE(scenario::check_scenario(given.scenario));
    const mites::MiteParameters draw = restless(small_draw(static_cast<std::size_t>(seed)), 0.3);
    simulator::SimulationRequest request;
    request.scenario = &given.scenario;
    request.fixed = small_ensemble().fixed;
    request.draw = draw;
    request.start = {{given.place, mites::Stage::adult_seeking_1, 1},
                     {given.place, mites::Stage::adult_feeding_2, 1}};
    request.to = at;
    request.runs = runs;
    request.seed = seed;
    request.report_times = {at};
    const simulator::SimulationResult simulated = simulator::simulate(request);
    for (const std::size_t crowd : {std::size_t{0}, std::size_t{256}, std::size_t{24}}) {
        const Totals totals = run_lineages(given, draw, crowd);
        const double both = std::sqrt(2.0);
        EXPECT_NEAR(totals.alive / runs, 1 - simulated.clear.value, 4 * both * simulated.clear.standard_error)
            << crowd;
        EXPECT_NEAR(totals.clean / runs, simulated.clean.value, 4 * both * simulated.clean.standard_error)
            << crowd;
        EXPECT_NEAR(totals.mites / runs, simulated.counts.at(0).mean, 4 * both * totals.error_of_mean())
            << crowd;
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, LineageNetworks, testing::Range(1, 9));

// A thinned crowd must keep the spread of the numbers, too. The outbreaks are large.
TEST(Lineage, thinning_a_crowd_keeps_mean_and_spread) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("tub", 0)};
    const Terrain terrain(scenario, {}, 30);
    const Pace pace(terrain, small_ensemble().fixed, small_ensemble().mode);
    const std::vector<Founder> founders(40, {1, mites::Stage::adult_feeding_1, 0, 0, 0, 0});
    const auto moments = [&](std::size_t crowd) {
        constexpr int times = 2000;
        Lineage lineage(terrain, carried_by(crowd));
        double sum = 0;
        double squares = 0;
        for (std::uint32_t run = 0; run < times; ++run) {
            double mites = 0;
            for (const scenario::MiteCount& m :
                 lineage.run(pace, founders, 1, base::RandomStream(1, run, 4)).mites)
                mites += m.count;
            sum += mites;
            squares += mites * mites;
        }
        const double mean = sum / times;
        return std::pair(mean, std::sqrt(squares / times - mean * mean));
    };
    const auto [mean, spread] = moments(0);
    const auto [thinned_mean, thinned_spread] = moments(256);
    EXPECT_GT(mean, 256) << "large enough to be thinned";
    EXPECT_NEAR(thinned_mean, mean, 4 * std::sqrt(2.0 / 2000) * spread);
    // Thinning adds about 1/256 of the mean squared each generation; a spread is known to 1/sqrt(2 * 2000).
    const double added = std::hypot(spread, mean * 2 / std::sqrt(256.0));
    EXPECT_GT(thinned_spread, spread * 0.9);
    EXPECT_LT(thinned_spread, added * 1.1);
}

}  // namespace
}  // namespace mitefall::belief
