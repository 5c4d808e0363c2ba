#include "clearance/notice.h"

#include <gtest/gtest.h>

#include <cmath>

#include "clearance/after.h"
#include "scene.h"
#include "simulator/simulator.h"

// One female comes in unseen: how soon somebody who looks again and again sees her or hers.
namespace mitefall::clearance {
namespace {

Scenario untouched() {
    using fixtures::room, fixtures::tub;
    Scenario scenario;
    scenario.places = {room("room"), tub("sighted", 0), tub("neighbour", 0), tub("other", 0)};
    return scenario;
}

MiteParameters slow_breeder() {
    MiteParameters draw = ensemble().draws[2];
    draw.eggs_per_meal *= 0.3;
    return draw;
}

NoticeRequest ask(const Scenario& scenario, const mites::Ensemble& draws, std::vector<Routine> routines) {
    NoticeRequest request;
    request.scenario = &scenario;
    request.ensemble = &draws;
    request.within = 30;
    request.entrances = {{sighted, 1}};
    request.routines = std::move(routines);
    return request;
}

simulator::SimulationResult followed(const Scenario& scenario, const MiteParameters& draw,
                                     std::uint64_t seed) {
    simulator::SimulationRequest request;
    request.scenario = &scenario;
    request.fixed = ensemble().fixed;
    request.draw = draw;
    request.start = {{sighted, Stage::adult_seeking_1, 1}};
    request.to = 30;
    request.runs = 10'000;
    request.seed = seed;
    return simulator::simulate(request);
}

// Individuals followed one by one: a look on day 5, 15 or 25 of the thirty, each alike. The share of runs
// alive on day 30 in which it showed something; four standard errors of the shares it is made of.
TEST(Notice, of_a_monthly_look_is_the_share_of_living_runs_in_which_it_shows_something) {
    const Scenario scenario = untouched();
    const MiteParameters draw = slow_breeder();
    const mites::Ensemble draws = only(draw);
    for (const CheckMethod method : {CheckMethod::paper_trap, CheckMethod::look_over}) {
        const auto told = notice(ask(scenario, draws, {{method, 30}}));
        ASSERT_TRUE(told);
        const auto unseen = followed(scenario, draw, 10);
        const double alive = 1 - unseen.clear.value;
        double missed = 0;
        double error = unseen.clear.standard_error;
        std::uint64_t seed = 11;
        for (const double day : {5.0, 15.0, 25.0}) {
            const auto looked = followed(
                with_events(scenario, {{day, scenario::clean_check(sighted, method)}}), draw, seed++);
            const double clean = looked.clean.value;
            const double left = 1 - looked.clear_given_clean.value;
            missed += clean * left / 3;
            error +=
                (looked.clean.standard_error * left + clean * looked.clear_given_clean.standard_error) / 3;
        }
        EXPECT_NEAR(told->front().chance.mean, 1 - missed / alive, 4 * error / alive)
            << records::to_text(method);
        EXPECT_GT(told->front().chance.mean, 0.02);
        EXPECT_LT(told->front().chance.mean, 0.98);
    }
}

TEST(Notice, looking_more_often_or_at_the_animal_notices_more) {
    const Scenario scenario = untouched();
    const auto told = notice(ask(scenario, ensemble(),
                                 {{CheckMethod::paper_trap, 30},
                                  {CheckMethod::paper_trap, 14},
                                  {CheckMethod::paper_trap, 7},
                                  {CheckMethod::look_over, 7}}));
    ASSERT_TRUE(told);
    for (std::size_t i = 1; i < told->size(); ++i)
        EXPECT_GT((*told)[i].chance.mean, (*told)[i - 1].chance.mean) << i;
}

// A look every 120 days comes within 30 days in a quarter of the cases at most: of the three phases tried
// (days 20, 60 and 100) in one.
TEST(Notice, of_a_routine_that_hardly_ever_comes_in_time_is_small_and_of_none_is_none) {
    const Scenario scenario = untouched();
    const auto told =
        notice(ask(scenario, ensemble(), {{CheckMethod::look_over, 120}, {CheckMethod::look_over, 400}}));
    ASSERT_TRUE(told);
    EXPECT_LT((*told)[0].chance.mean, 1.0 / 3);
    EXPECT_GT((*told)[0].chance.mean, 0);
    EXPECT_EQ((*told)[1].chance.mean, 0);
}

TEST(Notice, is_given_up_where_it_is_cancelled) {
    const Scenario scenario = untouched();
    NoticeRequest request = ask(scenario, ensemble(), {{CheckMethod::look_over, 30}});
    request.progress = [](double) { return false; };
    EXPECT_FALSE(notice(request));
}

TEST(OtherDiseases, name_their_source_and_those_that_mites_may_carry_come_first) {
    const auto diseases = other_diseases(fixtures::tables());
    ASSERT_GE(diseases.size(), 6U);
    EXPECT_TRUE(
        std::is_partitioned(diseases.begin(), diseases.end(), [](const Told& one) { return one.by_mites; }));
    for (const Told& disease : diseases) {
        EXPECT_EQ(disease.tag, evidence::Tag::memory);
        EXPECT_FALSE(disease.source.empty());
    }
}

}  // namespace
}  // namespace mitefall::clearance
