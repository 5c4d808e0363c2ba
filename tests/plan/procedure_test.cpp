#include "plan/procedure.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plan/prevention.h"
#include "planned.h"
#include "simulator/simulator.h"

namespace mitefall::plan {
namespace {

using namespace records;

constexpr double horizon = 40;
constexpr std::uint32_t runs = 4000;

Journal one_tub() {
    Journal journal;
    journal.add(day(1, 1), room("snakes"));
    journal.add(day(1, 1), tub("a"));
    journal.add(day(1, 1), snake("una", "a"));
    journal.add(planned_on, Weighed{AnimalId("una"), units::grams(900)});
    journal.add(planned_on, Sighted{EnclosureId("a"), SeenCount::one, SeenWhere::on_animal});
    return journal;
}

/// One female on the animal and two hundred eggs today, for certain, in eight copies of one draw: nothing is
/// left to chance but what is asked. `light`: chance of a look to show a light infestation.
struct FewMites {
    explicit FewMites(double light = 0.6, std::size_t of = 3) {
        mites::MiteParameters draw = planned.ensemble.draws[of];
        draw.eggs_per_meal *= 0.3;
        draw.detection_light = light;
        planned.ensemble.draws.assign(branching::lane_count, draw);
        belief.at = planned.known.from;
        belief.draw_weight.assign(branching::lane_count, 1.0 / branching::lane_count);
        belief.shapes.assign(branching::lane_count, draw.erlang_shape);
        for (std::uint32_t i = 0; i < branching::lane_count; ++i)
            belief.particles.push_back({1.0 / branching::lane_count, i, planned.known.from, {}, start()});
        Course asked;
        asked.rounds = 1;
        asked.choices = {false, false, false, {}};
        course = planned.fitted(asked);
    }

    [[nodiscard]] std::vector<scenario::MiteCount> start() const {
        const scenario::PlaceIndex place = planned.known.enclosures.at(EnclosureId("a"));
        return {{place, mites::Stage::adult_feeding_1, 1, 0}, {place, mites::Stage::egg, 200, 0}};
    }
    [[nodiscard]] Procedure weigh(const std::vector<units::Day>& looks) const {
        Goal goal;
        goal.horizon_days = horizon;
        return weigh_procedure(planned.setting, planned.ensemble, belief, goal, course, looks).value();
    }

    Planned planned{one_tub(), branching::lane_count};
    belief::Belief belief;
    Schedule course;
};

simulator::SimulationResult follow(const FewMites& one, const scenario::Scenario& scenario, double to) {
    simulator::SimulationRequest request;
    request.scenario = &scenario;
    request.fixed = one.planned.ensemble.fixed;
    request.draw = one.planned.ensemble.draws[0];
    request.start = one.start();
    request.from = one.planned.known.from;
    request.to = to;
    request.runs = runs;
    return simulator::simulate(request);
}

scenario::Scenario with_look(scenario::Scenario scenario, const FewMites& one, const Schedule& course,
                             units::Day day) {
    scenario::Scenario looked{scenario.places, {}};
    for (const auto& check : look_at_all(course.assignment.enclosures, one.planned.setting))
        looked.events.push_back({one.planned.known.time_of(day), check});
    looked.events.insert(looked.events.end(), scenario.events.begin(), scenario.events.end());
    std::stable_sort(looked.events.begin(), looked.events.end(),
                     [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
    return looked;
}

// Individuals, each followed by itself, against the equations. One look on day D: clear in the end is clear
// with the look clean under the first course, or clear with the look not clean under both.
TEST(Procedure, one_look_and_a_second_course_agree_with_the_simulator) {
    const FewMites one;
    const units::Day look = planned_on + units::Days(21);
    const Procedure told = one.weigh({look});
    const double to = one.planned.known.time_of(look) + horizon;
    const auto present = scenario::forget_past(one.planned.known.scenario, one.planned.known.from);
    const auto once = apply(one.course, one.planned.setting, present);
    Assignment both = one.course.assignment;
    both.rounds.push_back(look);
    const auto twice = apply(fit(both, one.planned.setting), one.planned.setting, present);
    const auto first = follow(one, with_look(once, one, one.course, look), to);
    const auto second = follow(one, with_look(twice, one, one.course, look), to);
    EXPECT_NEAR(told.once.mean, first.clear.value, 4 * first.clear.standard_error);
    const double found_and_clear = second.clear.value - second.clear_and_clean.value;
    const double error = std::hypot(first.clear_and_clean.standard_error,
                                    std::sqrt(found_and_clear * (1 - found_and_clear) / runs));
    EXPECT_NEAR(told.whole.mean, first.clear_and_clean.value + found_and_clear, 4 * error);
    const double not_clear = 1 - first.clear.value;
    const double missed = first.clean.value - first.clear_and_clean.value;
    ASSERT_TRUE(told.found && told.again);
    EXPECT_NEAR(told.found->mean, 1 - missed / not_clear,
                4 * std::sqrt(told.found->mean * (1 - told.found->mean) / (runs * not_clear)));
    EXPECT_NEAR(told.again->mean, found_and_clear / (1 - first.clean.value),
                8 * std::sqrt(0.25 / (runs * (1 - first.clean.value))));
    EXPECT_GT(told.whole.mean, told.once.mean + 0.02);
}

TEST(Procedure, looks_that_show_nothing_add_nothing) {
    const FewMites blind(0);
    const Procedure told = blind.weigh({planned_on + units::Days(21), planned_on + units::Days(35)});
    EXPECT_NEAR(told.whole.mean, told.once.mean, 1e-6);
    ASSERT_TRUE(told.found);
    EXPECT_NEAR(told.found->mean, 0, 1e-6);
    EXPECT_FALSE(told.again) << "nothing is ever found";
}

// More treatment never does less, whatever is not known.
TEST(Procedure, is_worth_no_less_than_the_course_alone) {
    for (const std::size_t of : {0U, 2U, 5U, 7U}) {
        const FewMites one(0.5, of);
        const Procedure told = one.weigh(
            {planned_on + units::Days(14), planned_on + units::Days(28), planned_on + units::Days(42)});
        EXPECT_GE(told.whole.mean, told.once.mean - 1e-9);
        EXPECT_EQ(told.by, planned_on + units::Days(42 + 40));
    }
}

TEST(Procedure, that_nobody_waits_for_is_given_up) {
    const FewMites one;
    Goal goal;
    goal.progress = [](double) { return false; };
    EXPECT_FALSE(weigh_procedure(one.planned.setting, one.planned.ensemble, one.belief, goal, one.course,
                                 {planned_on + units::Days(21)}));
}

}  // namespace
}  // namespace mitefall::plan
