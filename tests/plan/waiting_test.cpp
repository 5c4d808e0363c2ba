#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "plan/questions.h"
#include "plan/reach.h"
#include "plan/stage.h"
#include "safety/methods.h"
#include "safety/shed.h"
#include "words/words.h"

// Whoever waits for a shed, or with a meal inside, is treated later, and the others meanwhile as without it
// (decisions 32 and 51).
namespace mitefall::plan {
namespace {

using records::Method;
using records::ShedState;
using safety::Scene;
using safety::today;

int any(int low, int high) { return *rc::gen::inRange(low, high + 1); }

/// Anna with mites in "tub", berta beside them in "box".
Scene two_snakes() {
    Scene scene;
    scene.add_enclosure("box", "room");
    scene.add_animal("berta", "corn snake", "box");
    return scene;
}

Course any_course() {
    Course course;
    course.rounds = any(1, most_rounds);
    course.interval_days = any(shortest_interval, longest_interval);
    course.choices.change_substrate = *rc::gen::arbitrary<bool>();
    course.choices.keep_damp = *rc::gen::arbitrary<bool>();
    return course;
}

void let_shed_be_awaited(Scene& scene) {
    records::Animal& anna = scene.anna();
    const ShedState state = *rc::gen::element(ShedState::cloudy, ShedState::shed, ShedState::clear);
    const int told = any(0, state == ShedState::shed ? 1 : 6);
    anna.shed = {today() - days(told), 6, state};
    if (state != ShedState::shed) anna.cloudy_since = today() - days(told + any(0, 20));
}

/// One that is inside, or one that came up.
void let_meal_be_recent(Scene& scene) {
    records::Animal& anna = scene.anna();
    const auto outcome = *rc::gen::element(records::MealOutcome::eaten, records::MealOutcome::regurgitated);
    const double grams = *rc::gen::element(0.0, 20.0, 200.0);
    anna.meals.push_back(
        {today() - days(any(0, 5)), 7, {anna.id, outcome, "", 0, units::grams(grams), false}});
}

void let_it_wait(Scene& scene) {
    if (*rc::gen::arbitrary<bool>())
        let_shed_be_awaited(scene);
    else
        let_meal_be_recent(scene);
}

std::vector<units::Day> sprayings_of(const Schedule& schedule, const std::string& place) {
    std::vector<units::Day> on;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& one : round.treatments) {
            const safety::PermittedTreatment& treatment = one.treatment;
            if (treatment.enclosure() == enclosure(place) && safety::is_ivermectin_spray(treatment.method()))
                on.push_back(treatment.day());
        }
    }
    return on;
}

TEST(Waiting, never_leaves_an_infested_enclosure_untreated_for_ever) {
    EXPECT_TRUE(rc::check([] {
        const Course course = any_course();
        Scene scene = two_snakes();
        const Stage sound(scene);
        RC_ASSERT(!sprayings_of(fit(assign(course, sound.setting), sound.setting), "tub").empty());
        let_it_wait(scene);
        const Stage waits(scene);
        const Schedule schedule = fit(assign(course, waits.setting), waits.setting);
        const auto on = sprayings_of(schedule, "tub");
        RC_ASSERT(!on.empty());
        // By the usual time of a shed, its day after, and one round that may have gone by; a meal takes less.
        RC_ASSERT(on.front() <= today() + days(15 + longest_interval));
    }));
}

TEST(Waiting, changes_nothing_for_the_others) {
    EXPECT_TRUE(rc::check([] {
        const Course course = any_course();
        Scene scene = two_snakes();
        const Stage sound(scene);
        let_it_wait(scene);
        const Stage waits(scene);
        const auto before = sprayings_of(fit(assign(course, sound.setting), sound.setting), "box");
        RC_ASSERT(sprayings_of(fit(assign(course, waits.setting), waits.setting), "box") == before);
    }));
}

TEST(Waiting, an_animal_that_cannot_be_sprayed_before_the_next_round_is_soaked_meanwhile) {
    Scene scene;
    scene.anna().shed = {today(), 6, ShedState::cloudy};  // counted on in 10 days
    const Stage stage(scene);
    Course course;
    course.rounds = 3;
    course.interval_days = 7;
    const Schedule schedule = fit(assign(course, stage.setting), stage.setting);
    ASSERT_GE(schedule.rounds.size(), 3u);
    const auto& first = schedule.rounds.front().treatments;
    EXPECT_TRUE(std::any_of(first.begin(), first.end(),
                            [](const auto& one) { return one.treatment.method() == Method::soak; }));
    EXPECT_EQ(sprayings_of(schedule, "tub").front(), today() + days(11));
}

TEST(OpenQuestions, name_the_answers_that_would_change_the_plan) {
    Scene scene = two_snakes();
    scene.anna().shed = {today() - days(10), 6, ShedState::cloudy};
    const Stage stage(scene);
    Course course;
    course.rounds = 2;
    const Assignment assignment = assign(course, stage.setting);
    const auto questions = open_questions(assignment, stage.setting);
    ASSERT_EQ(questions.size(), 1u);
    EXPECT_EQ(questions.front().animal, animal("anna"));
    EXPECT_EQ(questions.front().since, today() - days(10));
    // A shed today frees it tomorrow, as is counted on already; still cloudy is three days more, and clear
    // eyes eight.
    EXPECT_EQ(questions.front().would_change, (std::vector{ShedState::cloudy, ShedState::clear}));
    scene.anna().shed->day = today();
    const Stage fresh(scene);
    const auto asked = open_questions(assignment, fresh.setting);
    ASSERT_EQ(asked.size(), 1u);
    EXPECT_EQ(asked.front().would_change, (std::vector{ShedState::shed, ShedState::clear}));
    scene.anna().shed->value = ShedState::shed;
    const Stage over(scene);
    EXPECT_TRUE(open_questions(assignment, over.setting).empty());
}

std::vector<std::string> doings_of(const Schedule& schedule) {
    std::vector<std::string> doings;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& one : round.treatments)
            doings.push_back(one.key() + " on " + units::format_day(one.treatment.day()));
    }
    return doings;
}

// A question about one enclosure of ten thousand is answered by a book about that one.
TEST(OpenQuestions, are_about_one_enclosure_whatever_else_there_is) {
    Scene scene = two_snakes();
    scene.anna().shed = {today() - days(10), 6, ShedState::cloudy};
    const Stage stage(scene);
    Course course;
    course.rounds = 3;
    for (const records::EnclosureId& id : assign(course, stage.setting).enclosures) {
        Assignment part = assign(course, stage.setting);
        part.enclosures = {id};
        part.rooms.clear();
        PermitBook about_one(stage.setting.with, {id});
        EXPECT_EQ(about_one.roster().enclosure_count(), 1u);
        const auto doings = doings_of(fit(part, stage.setting, about_one));
        EXPECT_FALSE(doings.empty());
        EXPECT_EQ(doings, doings_of(fit(part, stage.setting)));
    }
}

TEST(Reach, names_the_rooms_that_are_whole_and_whoever_at_risk_stands_outside) {
    Scene scene = two_snakes();
    scene.add_enclosure("far", "other room");
    scene.add_animal("cora", "corn snake", "far");
    const Stage stage(scene, {enclosure("tub")}, {enclosure("box"), enclosure("far")});
    Course course;
    const Reach of_room = reach_of(assign(course, stage.setting), stage.setting);
    EXPECT_EQ(of_room.whole_rooms, std::vector{records::RoomId("room")});
    ASSERT_EQ(of_room.outside.size(), 1u);
    EXPECT_EQ(of_room.outside.front().enclosure, enclosure("far"));
    EXPECT_EQ(of_room.outside.front().animals, std::vector{animal("cora")});
    EXPECT_FALSE(of_room.outside.front().sighted);
    course.scope = Scope::sighted;
    const Reach of_one = reach_of(assign(course, stage.setting), stage.setting);
    EXPECT_TRUE(of_one.whole_rooms.empty());
    EXPECT_EQ(of_one.outside.size(), 2u);
    course.scope = Scope::exposed;
    EXPECT_TRUE(reach_of(assign(course, stage.setting), stage.setting).outside.empty());
}

TEST(Describe, tells_how_far_apart_the_rounds_really_are) {
    const auto told = [](std::vector<int> on) {
        std::vector<units::Day> rounds;
        for (const int day : on) rounds.push_back(today() + days(day));
        return words::say(tell(rounds));
    };
    EXPECT_EQ(told({0}), "1 round");
    EXPECT_EQ(told({0, 5, 10}), "3 rounds 5 days apart");
    EXPECT_EQ(told({0, 7, 12}), "3 rounds, 5 to 7 days apart");
    // Five days apart were asked for, and only weekends are free.
    Scene scene;
    Stage stage(scene);
    stage.setting.limits.free_days = std::bitset<7>("1000001");
    Course course;
    course.rounds = 4;
    course.interval_days = 5;
    const Assignment assignment = assign(course, stage.setting);
    EXPECT_EQ(words::say(tell(assignment.rounds)).find("5 days apart"), std::string::npos)
        << words::say(tell(assignment.rounds));
}

}  // namespace
}  // namespace mitefall::plan
