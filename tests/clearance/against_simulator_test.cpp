#include <gtest/gtest.h>

#include <cmath>

#include "clearance/next_check.h"
#include "clearance/release.h"
#include "scene.h"
#include "simulator/simulator.h"

// Brute force: individuals followed one by one, and those runs kept in which every check found nothing.
namespace mitefall::clearance {
namespace {

constexpr std::uint32_t runs = 40'000;

/// A draw with little breeding and much walking, so that both answers stay well inside 0 and 1.
MiteParameters slow_breeder(std::size_t index) {
    MiteParameters draw = ensemble().draws[index];
    draw.leaving_rate = 0.03;
    draw.eggs_per_meal *= 0.3;
    draw.kill_spray_on_animal_published = draw.kill_spray_on_animal_home = 0.3;
    draw.kill_spray_nest_published_sealed = draw.kill_spray_nest_home_sealed = 0.3;
    draw.damp_hazard_published = draw.damp_hazard_home = 0.05;
    return draw;
}

simulator::SimulationResult simulate_to(const Scenario& scenario, const MiteParameters& draw,
                                        std::vector<scenario::MiteCount> start, double to,
                                        std::uint64_t seed) {
    simulator::SimulationRequest request;
    request.scenario = &scenario;
    request.fixed = ensemble().fixed;
    request.draw = draw;
    request.start = std::move(start);
    request.to = to;
    request.runs = runs;
    request.seed = seed;
    return simulator::simulate(request);
}

struct Course {
    const char* name;
    Scenario scenario;
    double today;
};

std::vector<Course> courses() {
    return {
        {"looked over weekly", checked({10, 17, 24}), 24},
        {"soaked twice", checked({12, 20}, CheckMethod::soak), 21},
        {"wiped once, days ago", checked({14}, CheckMethod::wipe), 22},
        {"traps everywhere", checked({9, 16, 23}, CheckMethod::paper_trap), 23},
        {"only where they were seen", checked({10, 20}, CheckMethod::look_over, {sighted}), 20},
        {"between the treatments", checked({3, 5}, CheckMethod::soak, {sighted}), 18},
    };
}

// Four standard errors: about one false alarm in 16,000 comparisons.
TEST(AgainstSimulator, sureness_after_clean_checks_is_the_share_of_clean_runs_that_are_clear) {
    std::uint64_t seed = 1;
    for (const Course& course : courses()) {
        const MiteParameters draw = slow_breeder(seed);
        const mites::Ensemble draws = only(draw);
        const double sure = 1 - risk_today(course.scenario, course.today, draws);
        const auto simulated = simulate_to(course.scenario, draw, few_mites(), course.today, seed++);
        EXPECT_NEAR(sure, simulated.clear_given_clean.value, 4 * simulated.clear_given_clean.standard_error)
            << course.name;
        EXPECT_GT(simulated.clean.value, 0.02) << course.name << ": too few runs to tell";
        EXPECT_LT(simulated.clean.value, 0.98) << course.name << ": the checks say nothing";
    }
}

TEST(AgainstSimulator, what_a_next_check_finds_is_what_individuals_show) {
    const Scenario before = checked({10});
    for (const CheckMethod method : {CheckMethod::look_over, CheckMethod::paper_trap}) {
        const MiteParameters draw = slow_breeder(3);
        const mites::Ensemble draws = only(draw);
        NextCheckRequest request;
        request.standing = standing(before, draws, 16);
        request.candidates = {{0, sighted, method, 18}};
        const CheckValue value = value_checks(request)->front();
        const Scenario after = with_events(before, {{18, scenario::clean_check(sighted, method)}});
        const auto once = simulate_to(before, draw, few_mites(), 18, 21);
        const auto twice = simulate_to(after, draw, few_mites(), 18, 22);
        const double found = value.finds_if_left * value.before.risk.mean;
        const double share = 1 - twice.clean.value / once.clean.value;
        const double error =
            std::hypot(once.clean.standard_error, twice.clean.standard_error) / once.clean.value;
        EXPECT_NEAR(found, share, 4 * error) << records::to_text(method);
        EXPECT_NEAR(value.if_clean.clear.mean, twice.clear_given_clean.value,
                    4 * twice.clear_given_clean.standard_error)
            << records::to_text(method);
    }
}

// An arrival brings three females with chance 0.4: runs with and without them, mixed by hand.
TEST(AgainstSimulator, release_is_the_mixture_of_arrivals_with_and_without_mites) {
    using fixtures::room, fixtures::tub;
    MiteParameters draw = slow_breeder(5);
    draw.arrival_carries = 0.4;
    draw.arrival_founders = 3;
    const mites::Ensemble draws = only(draw);
    Scenario scenario;
    scenario.places = {room("quarantine"), tub("tub", 0)};
    for (const double day : {7.0, 14.0})
        scenario.events.push_back({day, scenario::clean_check(1, CheckMethod::wipe)});
    ReleaseRequest request;
    request.scenario = &scenario;
    request.ensemble = &draws;
    request.place = 1;
    request.today = 15;
    request.rounds = {{1}, CheckMethod::look_over, 21, 7, 0};
    const std::vector<double> levels{0.9};
    const double sure = plan_release(request, levels)->points.front().none.clear.mean;
    const auto with = simulate_to(scenario, draw, {{1, Stage::adult_feeding_1, 3}}, 15, 31);
    const double clean = 0.6 + 0.4 * with.clean.value;
    EXPECT_NEAR(sure, (0.6 + 0.4 * with.clear_and_clean.value) / clean,
                4 * 0.4 * std::hypot(with.clear_and_clean.standard_error, with.clean.standard_error) / clean);
}

}  // namespace
}  // namespace mitefall::clearance
