#include "plan/schedule.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "plan/search.h"
#include "stage.h"

namespace mitefall::plan {
namespace {

using records::Method;
using records::RoomId;
using records::ShedState;
using safety::Scene;
using safety::today;

const Course one_round{1, 7, {}, Scope::sighted};
const Course two_rounds{2, 7, {}, Scope::sighted};

std::vector<std::string> keys_of(const Round& round) {
    std::vector<std::string> keys;
    for (const ScheduledTreatment& scheduled : round.treatments) keys.push_back(scheduled.key());
    return keys;
}

bool has(const Round& round, Method method) {
    return std::any_of(round.treatments.begin(), round.treatments.end(),
                       [&](const ScheduledTreatment& s) { return s.treatment.method() == method; });
}

TEST(Assign, begins_today_and_keeps_the_interval) {
    const Stage stage{Scene()};
    const Assignment assignment = assign({3, 5, {true, true}, Scope::sighted_rooms}, stage.setting);
    EXPECT_EQ(assignment.rounds, (std::vector{today(), today() + days(5), today() + days(10)}));
    EXPECT_EQ(assignment.enclosures, std::vector{enclosure("tub")});
    EXPECT_TRUE(assignment.rooms.empty()) << "an animal lives there";
    EXPECT_TRUE(assignment.choices.change_substrate);
    EXPECT_TRUE(assignment.choices.keep_damp);
}

TEST(Assign, clean_enclosures_before_exposed_before_sighted) {
    Scene scene;
    scene.add_enclosure("a-shelf", "room");
    scene.add_enclosure("vivarium", "room");
    const Stage stage(scene, {enclosure("a-shelf")}, {enclosure("tub")});
    EXPECT_EQ(enclosures_of(Scope::sighted_rooms, stage.setting),
              (std::vector{enclosure("vivarium"), enclosure("tub"), enclosure("a-shelf")}));
}

/// Anna was carried to another room; mites were seen in the tub she left.
Scene emptied_room() {
    Scene scene;
    scene.add_enclosure("vivarium", "other room");
    scene.anna().enclosure = enclosure("vivarium");
    return scene;
}

TEST(Fit, treats_animal_then_paper_then_bedding_then_the_room_nobody_lives_in) {
    const Stage stage{Scene()};
    const Course course{1, 7, {true}, Scope::sighted_rooms};
    const Schedule schedule = fit(assign(course, stage.setting), stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 1u);
    EXPECT_EQ(keys_of(schedule.rounds.front()),
              (std::vector<std::string>{"2026-03-10/animal/anna", "2026-03-10/substrate/tub",
                                        "2026-03-10/bedding/tub"}));
    EXPECT_TRUE(schedule.left_out.empty());
    const Stage emptied{emptied_room()};
    EXPECT_EQ(keys_of(fit(assign(course, emptied.setting), emptied.setting).rounds.front()),
              (std::vector<std::string>{"2026-03-10/substrate/tub", "2026-03-10/bedding/tub",
                                        "2026-03-10/room/room"}));
}

TEST(Fit, a_course_that_soaks_gives_the_soak_under_the_same_key) {
    const Stage stage{Scene()};
    Assignment assignment = assign(one_round, stage.setting);
    assignment.choices.soak_animals = true;
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 1u);
    EXPECT_TRUE(has(schedule.rounds[0], Method::soak));
    EXPECT_FALSE(has(schedule.rounds[0], Method::spray_animal));
    EXPECT_TRUE(has(schedule.rounds[0], Method::spray_bedding));
    EXPECT_EQ(keys_of(schedule.rounds[0]),
              keys_of(fit(assign(one_round, stage.setting), stage.setting).rounds[0]));
    EXPECT_TRUE(schedule.left_out.empty());
}

TEST(Fit, a_late_round_is_done_today_under_its_own_day) {
    const Stage stage{Scene()};
    Assignment assignment = assign(one_round, stage.setting);
    assignment.rounds = {today() - days(2)};
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 1u);
    EXPECT_EQ(schedule.rounds.front().planned, today() - days(2));
    EXPECT_EQ(schedule.rounds.front().day, today());
    ASSERT_FALSE(schedule.rounds.front().treatments.empty());
    const ScheduledTreatment& first = schedule.rounds.front().treatments.front();
    EXPECT_EQ(first.key(), "2026-03-08/animal/anna");
    EXPECT_EQ(first.treatment.day(), today());
}

TEST(Fit, of_two_overdue_rounds_only_the_latest_is_done) {
    const Stage stage{Scene()};
    Assignment assignment = assign(one_round, stage.setting);
    assignment.rounds = {today() - days(9), today() - days(2), today() + days(5)};
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 2u);
    EXPECT_EQ(schedule.rounds[0].planned, today() - days(2));
    EXPECT_EQ(schedule.rounds[0].day, today());
    EXPECT_EQ(schedule.rounds[1].planned, today() + days(5));
    EXPECT_EQ(schedule.rounds[1].day, today() + days(5));
    EXPECT_EQ(keys_of(schedule.rounds[0]),
              (std::vector<std::string>{"2026-03-08/animal/anna", "2026-03-08/bedding/tub"}));
}

TEST(Fit, a_round_due_today_overtakes_the_one_before) {
    const Stage stage{Scene()};
    Assignment assignment = assign(one_round, stage.setting);
    assignment.rounds = {today() - days(3), today()};
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 1u);
    EXPECT_EQ(schedule.rounds.front().planned, today());
}

TEST(Fit, settled_keys_are_left_out) {
    const Stage stage{Scene()};
    Assignment assignment = assign(two_rounds, stage.setting);
    assignment.settled = {"2026-03-10/animal/anna", "2026-03-17/bedding/tub"};
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 2u);
    EXPECT_EQ(keys_of(schedule.rounds[0]), std::vector<std::string>{"2026-03-10/bedding/tub"});
    EXPECT_EQ(keys_of(schedule.rounds[1]), std::vector<std::string>{"2026-03-17/animal/anna"});
}

TEST(Fit, an_animal_whose_next_round_comes_too_soon_after_a_late_one_gets_a_date_of_its_own) {
    const Stage stage{Scene()};
    Assignment assignment = assign(one_round, stage.setting);
    assignment.rounds = {today() - days(1), today() + days(2)};  // done today, then two days later
    const Schedule schedule = fit(assignment, stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 3u);
    EXPECT_TRUE(has(schedule.rounds[0], Method::spray_animal));
    EXPECT_FALSE(has(schedule.rounds[1], Method::spray_animal));  // 3 days: rules.toml, min_interval
    EXPECT_FALSE(has(schedule.rounds[1], Method::soak));
    EXPECT_TRUE(has(schedule.rounds[2], Method::spray_animal));
    EXPECT_TRUE(schedule.rounds[2].own_date);
    EXPECT_EQ(schedule.rounds[2].day, today() + days(3));
    EXPECT_EQ(schedule.rounds[2].planned, today() + days(2));
}

// safety.md: a shed less than 24 h ago, wait until the day after.
TEST(Fit, an_animal_that_has_just_shed_is_sprayed_the_day_after_the_round) {
    Scene scene;
    scene.collection.animals.begin()->second.shed = {today(), 1, records::ShedState::shed};
    const Stage stage{scene};
    const Schedule schedule =
        fit(assign({2, 7, {false, false}, Scope::sighted}, stage.setting), stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 3u);
    EXPECT_FALSE(has(schedule.rounds[0], Method::spray_animal));
    EXPECT_TRUE(has(schedule.rounds[1], Method::spray_animal));
    EXPECT_EQ(schedule.rounds[1].day, today() + days(1));
    EXPECT_TRUE(has(schedule.rounds[2], Method::spray_animal));
    EXPECT_FALSE(schedule.rounds[2].own_date);
}

// rules.toml, meal_rest: two days after the day of the meal; 20 g are 4 % of 500 g.
TEST(Fit, an_animal_that_has_just_eaten_is_treated_on_a_day_of_its_own) {
    Scene scene;
    records::Animal& anna = scene.anna();
    anna.meals = {{today(), 2, {anna.id, records::MealOutcome::eaten, "mouse", 1, units::grams(20), false}}};
    const Stage stage{scene};
    const Course course{2, 7, {false, false, false, {enclosure("tub")}}, Scope::sighted};
    const Schedule schedule = fit(assign(course, stage.setting), stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 3u);
    EXPECT_TRUE(schedule.rounds[0].treatments.empty());
    EXPECT_TRUE(schedule.rounds[1].own_date);
    EXPECT_EQ(schedule.rounds[1].day, today() + days(3));
    for (const Method method : {Method::spray_animal, Method::fresh_tub, Method::spray_bedding})
        EXPECT_TRUE(has(schedule.rounds[1], method)) << records::to_text(method);
    EXPECT_EQ(schedule.rounds[2].day, today() + days(7));
}

TEST(Assign, rounds_fall_on_free_days_and_keep_their_distance) {
    Stage stage{Scene()};
    stage.setting.limits.free_days.reset();
    stage.setting.limits.free_days.set(0).set(6);  // Sunday and Saturday
    const Assignment assignment = assign({4, 3, {false, false}, Scope::sighted}, stage.setting);
    ASSERT_EQ(assignment.rounds.size(), 4u);
    for (std::size_t i = 0; i < 4; ++i) {
        const unsigned day = std::chrono::weekday(assignment.rounds[i]).c_encoding();
        EXPECT_TRUE(day == 0 || day == 6);
        if (i == 0) continue;
        EXPECT_GE(assignment.rounds[i] - assignment.rounds[i - 1], days(3));
    }
}

TEST(Assign, only_the_chosen_enclosures) {
    Stage stage{Scene()};
    stage.setting.limits.only = {enclosure("tub")};
    EXPECT_EQ(scopes_of(stage.setting), std::vector<Scope>{Scope::chosen});
    const Assignment assignment = assign({1, 3, {false, false}, Scope::chosen}, stage.setting);
    EXPECT_EQ(assignment.enclosures, std::vector<records::EnclosureId>{enclosure("tub")});
    EXPECT_TRUE(assignment.rooms.empty());
}

TEST(Fit, the_fourth_and_fifth_round_soak) {
    const Stage stage{Scene()};
    const Schedule schedule =
        fit(assign({5, 7, {false, false}, Scope::sighted}, stage.setting), stage.setting);
    ASSERT_EQ(schedule.rounds.size(), 5u);
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_EQ(has(schedule.rounds[i], Method::spray_animal), i < 3) << i;  // rules.toml, max_applications
        EXPECT_EQ(has(schedule.rounds[i], Method::soak), i >= 3) << i;
        EXPECT_TRUE(has(schedule.rounds[i], Method::spray_bedding)) << i;
    }
    EXPECT_EQ(schedule.burden.most_on_one_animal, 3);
}

TEST(Fit, an_animal_about_to_shed_is_only_soaked_until_the_shed_is_counted_on) {
    Scene scene;
    scene.anna().shed = {today() - days(1), 2, ShedState::cloudy};
    const Stage stage(scene);
    const Assignment assignment = assign(two_rounds, stage.setting);
    const Schedule now = fit(assignment, stage.setting);
    ASSERT_EQ(now.rounds.size(), 3u);
    EXPECT_TRUE(has(now.rounds[0], Method::soak));
    EXPECT_FALSE(has(now.rounds[0], Method::spray_bedding));
    EXPECT_TRUE(now.rounds[1].treatments.empty());
    EXPECT_TRUE(now.rounds[2].own_date);
    EXPECT_EQ(now.rounds[2].day, today() + days(10)) << "ten days from the first, and the day after";
    EXPECT_TRUE(has(now.rounds[2], Method::spray_animal));
    EXPECT_TRUE(has(now.rounds[2], Method::spray_bedding));

    scene.anna().shed = {today() + days(3), 3, ShedState::shed};
    const Stage later(scene, {enclosure("tub")}, {}, today() + days(7));
    const Schedule then = fit(assignment, later.setting);
    ASSERT_EQ(then.rounds.size(), 1u);
    EXPECT_EQ(keys_of(then.rounds.front()),
              (std::vector<std::string>{"2026-03-17/animal/anna", "2026-03-17/bedding/tub"}));
    EXPECT_TRUE(has(then.rounds.front(), Method::spray_animal));
}

TEST(Fit, an_animal_that_shed_today_waits_for_the_second_round) {
    Scene scene;
    scene.anna().shed = {today(), 2, ShedState::shed};
    const Stage stage(scene);
    const Schedule schedule = fit(assign(two_rounds, stage.setting), stage.setting);
    EXPECT_TRUE(schedule.rounds[0].treatments.empty());
    EXPECT_TRUE(has(schedule.rounds[1], Method::spray_animal));
    EXPECT_TRUE(has(schedule.rounds[1], Method::spray_bedding));
}

TEST(Fit, says_whom_it_leaves_out_and_why) {
    Scene scene;
    scene.weigh(170);  // 160 to 199 g: bedding only (safety rules, weight)
    const Stage stage(scene);
    const Schedule schedule = fit(assign(one_round, stage.setting), stage.setting);
    ASSERT_EQ(schedule.left_out.size(), 1u);
    EXPECT_EQ(schedule.left_out.front().animal, animal("anna"));
    EXPECT_EQ(schedule.left_out.front().method, Method::spray_animal);
    EXPECT_EQ(schedule.left_out.front().why.what,
              safety::says::too_light_to_spray(units::grams(170), units::grams(200)).what);
    EXPECT_TRUE(has(schedule.rounds.front(), Method::soak));
    EXPECT_TRUE(has(schedule.rounds.front(), Method::spray_bedding));
}

TEST(Burden, is_compared_animals_first_and_spray_last) {
    const Burden none;
    const auto heavier = [&](auto change) {
        Burden burden;
        change(burden);
        return burden;
    };
    // From the lightest to the heaviest: each is worse in one thing, and that thing weighs more than all
    // before.
    const std::vector<Burden> ascending{
        none,
        heavier([](Burden& b) { b.spray = units::millilitres(500); }),
        heavier([](Burden& b) { b.tasks = 1; }),
        heavier([](Burden& b) { b.handlings = 1; }),
        heavier([](Burden& b) { b.days_without_water = 1; }),
        heavier([](Burden& b) { b.damp_days = 1; }),
        heavier([](Burden& b) { b.on_animal = 1; }),
        heavier([](Burden& b) { b.most_on_one_animal = 1; }),
    };
    for (std::size_t i = 0; i < ascending.size(); ++i) {
        for (std::size_t j = 0; j < ascending.size(); ++j)
            EXPECT_EQ(ascending[i] < ascending[j], i < j) << i << j;
    }
}

// Hand-computed from rules.toml: damp_days 14, water_out_max 3, spray_per_area 0.03, redampen_per_area 0.02,
// mist_per_body_surface 0.005 mL/cm2, body_surface_constant 10; floor 2000 cm2, anna 500 g.
TEST(Burden, counts_two_rounds_with_damp_paper) {
    const Stage stage{Scene()};
    const Schedule schedule =
        fit(assign({2, 7, {false, true}, Scope::sighted}, stage.setting), stage.setting);
    const Burden& burden = schedule.burden;
    EXPECT_EQ(burden.most_on_one_animal, 2);
    EXPECT_EQ(burden.on_animal, 2);
    EXPECT_EQ(burden.handlings, 2);
    EXPECT_EQ(burden.days_without_water, 2 * 3);
    // Sprayed on days 0 and 7; wetted again on days 1, 2, 8 and 9; the dish is out and a drink offered on all
    // six.
    EXPECT_EQ(burden.tasks, 2 * 2 + 4 + 6);
    EXPECT_EQ(burden.damp_days, 6);
    // Mist 0.005 x 10 x 500^(2/3) = 3.150 mL; bedding 0.03 x 2000 = 60 mL; upkeep 0.02 x 2000 = 40 mL a day.
    EXPECT_NEAR(units::in_millilitres(burden.spray), 2 * 3.1498 + 2 * 60 + 4 * 40, 1e-3);
}

TEST(Burden, paper_dries_where_the_second_spraying_is_refused) {
    Scene scene;
    scene.weigh(500, 55);  // too old on day 7: 62 days (rules.toml, weight_valid_for 60)
    const Stage stage(scene);
    const Schedule schedule =
        fit(assign({2, 7, {false, true}, Scope::sighted}, stage.setting), stage.setting);
    EXPECT_FALSE(has(schedule.rounds[1], Method::spray_bedding));
    const auto& spells = schedule.damp;
    ASSERT_EQ(spells.size(), 1u);
    EXPECT_EQ(spells.front().first, today() + days(1));
    EXPECT_EQ(spells.front().last, today() + days(2));
    // Animal and bedding on day 0, a soak on day 7, upkeep on days 1 and 2, drinks on days 0 to 2.
    EXPECT_EQ(schedule.burden.tasks, 2 + 1 + 2 + 3);
    EXPECT_EQ(schedule.burden.days_without_water, 3);
}

TEST(Burden, no_upkeep_where_paper_is_left_to_dry) {
    const Stage stage{Scene()};
    const Schedule schedule = fit(assign(two_rounds, stage.setting), stage.setting);
    EXPECT_TRUE(schedule.damp.empty());
    EXPECT_EQ(schedule.burden.tasks, 2 * 2 + 2) << "and two drinks";
}

TEST(Scopes, a_sighted_enclosure_alone_in_its_room_still_has_a_room_to_treat_if_nobody_lives_there) {
    Scene scene;
    scene.add_enclosure("far", "other room");
    EXPECT_EQ(scopes_of(Stage(scene).setting), (std::vector{Scope::sighted, Scope::everything}));
    scene.anna().enclosure = enclosure("far");
    const Stage stage(scene);
    EXPECT_EQ(empty_rooms_of(Scope::everything, stage.setting), std::vector{RoomId("room")});
    EXPECT_EQ(scopes_of(stage.setting),
              (std::vector{Scope::sighted, Scope::sighted_rooms, Scope::everything}));
    EXPECT_EQ(enclosures_of(Scope::sighted, stage.setting),
              enclosures_of(Scope::sighted_rooms, stage.setting));
    EXPECT_TRUE(rooms_of(Scope::sighted, stage.setting).empty());
    EXPECT_EQ(rooms_of(Scope::sighted_rooms, stage.setting), std::vector{RoomId("room")});
    EXPECT_EQ(rooms_of(Scope::everything, stage.setting),
              (std::vector{RoomId("other room"), RoomId("room")}));
}

TEST(Scopes, an_exposed_enclosure_elsewhere_makes_a_scope_of_its_own) {
    Scene scene;
    scene.add_enclosure("far", "other room");
    scene.add_enclosure("farther", "other room");
    scene.add_enclosure("beside", "room");
    const Stage stage(scene, {enclosure("tub")}, {enclosure("far")});
    EXPECT_EQ(scopes_of(stage.setting),
              (std::vector{Scope::sighted, Scope::sighted_rooms, Scope::exposed, Scope::everything}));
    EXPECT_EQ(enclosures_of(Scope::exposed, stage.setting),
              (std::vector{enclosure("beside"), enclosure("far"), enclosure("tub")}));
}

TEST(Scopes, one_room_has_two) {
    const Stage stage{[] {
        Scene scene;
        scene.collection.rooms.erase(RoomId("other room"));
        scene.add_enclosure("beside", "room");
        return scene;
    }()};
    EXPECT_EQ(scopes_of(stage.setting), (std::vector{Scope::sighted, Scope::sighted_rooms}));
}

}  // namespace
}  // namespace mitefall::plan
