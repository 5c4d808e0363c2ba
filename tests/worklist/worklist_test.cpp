#include "worklist/worklist.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "diary.h"
#include "records/task_key.h"
#include "safety/methods.h"
#include "words/words.h"

namespace mitefall::worklist {
namespace {

using records::Method;

using Keys = std::vector<std::string>;

/// A room in which nobody lives.
records::Journal with_a_hall(records::Journal journal) {
    journal.add(records::day(1, 1), records::room("hall"));
    return journal;
}

TEST(Worklist, nothing_is_sprayed_where_the_dish_was_left_in) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    EXPECT_EQ(diary.task("2026-03-10/animal/anna").agent, "ivermectin");
    diary.skip("2026-03-10/water-out/a");
    EXPECT_EQ(keys_of(diary.list()), Keys{"2026-03-10/water-out/a"});
    EXPECT_FALSE(diary.lists("2026-03-10/drink/a"));
    const auto passed = diary.list().passed_over;
    ASSERT_EQ(passed.size(), 2U);
    EXPECT_EQ(passed[0].why.what.id, "dish_still_in");
}

TEST(Worklist, the_dish_comes_out_for_a_sprayed_animal_too) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, {enclosure("m")}, {}, false, false);
    diary.skip("2026-03-10/bedding/m");
    EXPECT_TRUE(diary.lists("2026-03-10/water-out/m"));
}

TEST(Worklist, contact_with_the_outside_asks_for_its_routine_on_the_day_and_the_day_after) {
    Diary diary(one_tub());
    diary.note(records::OutsideContact{records::OutsideKind::show, {}, {}, ""});
    diary.note(records::OutsideContact{records::OutsideKind::live_plants, {}, {enclosure("a")}, ""});
    const auto said = [&] {
        std::vector<std::string_view> ids;
        for (const Task& task : diary.list().tasks) {
            EXPECT_EQ(task.kind, TaskKind::hygiene);
            EXPECT_TRUE(facts_of(task).empty());
            ids.push_back(task.what.id);
        }
        return ids;
    };
    const std::vector<std::string_view> routine{"after_outside", "outside_hands", "outside_wait",
                                                "outside_plants"};
    EXPECT_EQ(said(), routine);
    EXPECT_EQ(words::say(diary.list().tasks[2].what),
              "Nobody who was there goes to the snakes before 11 Mar 2026");
    diary.today += units::one_day;
    EXPECT_EQ(said(), routine);
    diary.today += units::one_day;
    EXPECT_TRUE(said().empty());
}

records::SignsNoted signs_of_anna(std::vector<records::Sign> seen, std::vector<records::Sign> gone = {}) {
    return {AnimalId("anna"), std::move(seen), std::move(gone)};
}

TEST(Worklist, a_sign_stands_first_until_it_is_gone_and_is_rung_about_once_for_each_day_it_was_seen) {
    Diary diary(one_tub());
    diary.adopt(2, 7, {enclosure("a")}, {}, false, false);
    EXPECT_TRUE(diary.lists("2026-03-10/animal/anna"));
    diary.note(signs_of_anna({records::Sign::limp, records::Sign::pale_gums}));
    Worklist list = diary.list();
    ASSERT_GE(list.tasks.size(), 2U);
    EXPECT_EQ(list.tasks[0].key, "2026-03-10/sign/anna");
    EXPECT_EQ(words::say(list.tasks[0].what),
              "Ring a veterinarian today about anna: limp, pale gums (seen 10 Mar 2026)");
    EXPECT_EQ(list.tasks[1].what.id, "until_the_vet");
    EXPECT_FALSE(diary.lists("2026-03-10/animal/anna"));
    EXPECT_EQ(list.next_day, diary.today + units::one_day);
    EXPECT_TRUE(facts_of(list.tasks[0]).empty());
    diary.tick("2026-03-10/sign/anna");
    diary.sleep();
    list = diary.list();
    EXPECT_EQ(list.tasks[0].what.id, "still_ill");
    EXPECT_EQ(list.tasks[0].kind, TaskKind::hygiene);
    diary.note(signs_of_anna({records::Sign::limp}));
    EXPECT_EQ(diary.list().tasks[0].key, "2026-03-11/sign/anna");
    diary.note(signs_of_anna({}, {records::Sign::limp, records::Sign::pale_gums}));
    EXPECT_FALSE(diary.lists("2026-03-11/sign/anna"));
}

TEST(Worklist, an_animal_that_reacted_goes_into_a_clean_dry_tub_until_it_is_ticked) {
    Diary diary(one_tub());
    diary.note(
        records::ConditionNoted{AnimalId("anna"), records::Condition::reacted, true, "ivermectin", ""});
    EXPECT_EQ(diary.list().tasks[0].key, "2026-03-10/dry-tub/anna");
    EXPECT_EQ(diary.list().tasks[0].what.id, "dry_tub");
    diary.sleep(3);
    EXPECT_TRUE(diary.lists("2026-03-10/dry-tub/anna"));
    diary.tick("2026-03-10/dry-tub/anna");
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-10/dry-tub/anna"));
}

// No tub is a home for a tortoise (safety/gate_tub.cpp): its own place is dried out.
TEST(Worklist, a_tortoise_that_reacted_stays_where_it_lives_on_dry_paper) {
    Diary diary(one_tub());
    diary.note(
        records::AnimalArrived{AnimalId("tilda"), "Tilda", "Testudo hermanni", "", enclosure("a"), false});
    diary.note(records::ConditionNoted{AnimalId("tilda"), records::Condition::reacted, true, "soap", ""});
    EXPECT_EQ(diary.task("2026-03-10/dry-tub/tilda").what.id, "dry_in_its_own");
}

// body_kept_for is 3 days (data/evidence/rules.toml).
TEST(Worklist, after_a_death_the_body_is_kept_and_the_company_waits_until_it_is_answered) {
    records::Journal journal = one_tub();
    add_snake(journal, "berta", "a", 500);
    Diary diary(journal);
    diary.adopt(2, 7, {enclosure("a")}, {}, false, false);
    diary.note(records::AnimalLeft{AnimalId("berta"), "", false, {}, records::LeftHow::died});
    Worklist list = diary.list();
    EXPECT_EQ(list.tasks[0].key, "2026-03-10/death/berta");
    EXPECT_EQ(list.tasks[1].what.id, "company_waits");
    EXPECT_EQ(diary.task("2026-03-10/animal/anna").treatment->method(), records::Method::soak);
    diary.sleep(3);
    EXPECT_TRUE(diary.lists("2026-03-10/death/berta"));
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-10/death/berta"));
    EXPECT_EQ(diary.list().tasks[0].what.id, "company_waits");
    diary.note(records::DeathAnswered{AnimalId("berta"), "an old tumour"});
    EXPECT_TRUE(diary.list().tasks.empty() || diary.list().tasks[0].what.id != "company_waits");
}

TEST(Worklist, goes_from_healthy_to_infested_with_clean_hands) {
    Diary diary(three_rooms(), {enclosure("r"), enclosure("k")});
    diary.adopt(1, 7, {enclosure("m"), enclosure("k"), enclosure("q"), enclosure("r"), enclosure("t")}, {},
                false, false);
    EXPECT_EQ(keys_of(diary.list(), true),
              (Keys{
                  "2026-03-10/mix/spray",
                  // the attic is healthy
                  "2026-03-10/water-out/t",
                  "2026-03-10/drink/t",
                  "2026-03-10/animal/tom",
                  "2026-03-10/bedding/t",
                  "2026-03-10/hygiene/1",
                  // "far" has an exposed tub
                  "2026-03-10/water-out/r",
                  "2026-03-10/drink/r",
                  "2026-03-10/animal/rob",
                  "2026-03-10/bedding/r",
                  "2026-03-10/hygiene/2",
                  // the infested room: clean tubs, exposed ones, the sighted one, the room itself
                  "2026-03-10/water-out/q",
                  "2026-03-10/bedding/q",
                  "2026-03-10/hygiene/3",
                  "2026-03-10/water-out/k",
                  "2026-03-10/drink/k",
                  "2026-03-10/animal/ken",
                  "2026-03-10/animal/kim",
                  "2026-03-10/bedding/k",
                  "2026-03-10/hygiene/4",
                  "2026-03-10/water-out/m",
                  "2026-03-10/drink/m",
                  "2026-03-10/animal/mia",
                  "2026-03-10/bedding/m",
                  "2026-03-10/hygiene/5",
              }));
    const auto tasks = diary.list().tasks;
    EXPECT_NE(words::say(tasks[5].what).find("gloves"), std::string::npos);
    EXPECT_NE(words::say(tasks.back().what).find("change clothes"), std::string::npos);
}

TEST(Worklist, quarantine_comes_after_every_room_without_mites_and_before_those_with_them) {
    records::Journal journal = three_rooms();
    auto newcomer = records::snake("una", "t");
    newcomer.quarantine = true;
    journal.add(records::day(3, 9), newcomer);
    Diary diary(journal, {enclosure("r")});
    diary.adopt(1, 7, {enclosure("m"), enclosure("r"), enclosure("t")}, {}, false, false);
    Keys rooms;
    for (const Task& task : diary.list().tasks) {
        const bool is_work = task.kind != TaskKind::hygiene && task.kind != TaskKind::mix;
        if (is_work && (rooms.empty() || rooms.back() != task.room.text())) rooms.push_back(task.room.text());
    }
    EXPECT_EQ(rooms, (Keys{"far", "attic", "middle"}));
}

TEST(Worklist, clothes_are_changed_after_an_infested_room_even_if_only_its_clean_tubs_were_touched) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, {enclosure("q")}, {}, false, false);
    EXPECT_NE(words::say(diary.list().tasks.back().what).find("change clothes"), std::string::npos);
}

TEST(Worklist, no_change_of_clothes_where_no_mites_were_seen) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, {enclosure("t")}, {}, false, false);
    for (const Task& task : diary.list().tasks)
        EXPECT_EQ(words::say(task.what).find("clothes"), std::string::npos);
}

TEST(Worklist, water_goes_back_as_soon_as_the_paper_is_dry) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.tick_all();
    EXPECT_TRUE(diary.collection().enclosures.at(enclosure("a")).water_is_out);
    EXPECT_EQ(diary.list().next_day, records::day(3, 11));
    diary.sleep();
    EXPECT_EQ(keys_of(diary.list()), Keys{"2026-03-11/water-back/a"});
    EXPECT_NE(words::say(diary.task("2026-03-11/water-back/a").what).find("feels dry"), std::string::npos);
}

// Out on the day of the spray, back on the third day after it whatever the paper is like (rules.toml,
// water_out_max).
TEST(Worklist, water_goes_back_on_day_3_where_the_paper_was_kept_damp) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    for (int day = 1; day <= 2; ++day) {
        diary.sleep();
        const std::string today = units::format_day(diary.today);
        EXPECT_EQ(keys_of(diary.list()),
                  (Keys{today + "/mix/spray", today + "/drink/a", today + "/redampen/a"}));
        diary.tick_all();
    }
    diary.sleep();
    EXPECT_EQ(keys_of(diary.list()), Keys{"2026-03-13/water-back/a"});
    EXPECT_NE(words::say(diary.task("2026-03-13/water-back/a").what).find("dry paper"), std::string::npos);
    diary.tick("2026-03-13/water-back/a");
    EXPECT_FALSE(diary.collection().enclosures.at(enclosure("a")).water_is_out);
}

TEST(Worklist, a_dish_not_put_back_is_asked_for_every_day) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.tick_all();
    diary.sleep(3);
    diary.skip("2026-03-13/water-back/a");
    EXPECT_TRUE(diary.lists("2026-03-13/drink/a"));
    EXPECT_EQ(diary.task("2026-03-13/water-back/a").state, TaskState::skipped);
    diary.sleep();
    EXPECT_EQ(diary.task("2026-03-14/water-back/a").state, TaskState::open);
}

TEST(Worklist, the_dish_is_still_to_come_out_when_the_spray_was_ticked_first) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.tick("2026-03-10/bedding/a");
    EXPECT_EQ(diary.task("2026-03-10/water-out/a").state, TaskState::open);
}

// Rounds three days apart, and the dish forgotten after the first: the day of the second is the day it must
// be back.
TEST(Worklist, a_round_waits_a_day_where_the_dish_must_be_back) {
    Diary diary(one_tub());
    diary.adopt(2, 3, {enclosure("a")}, {}, false, false);
    diary.tick_all();
    diary.sleep(3);
    EXPECT_EQ(keys_of(diary.list()).back(), "2026-03-13/water-back/a");
    EXPECT_FALSE(diary.lists("2026-03-13/bedding/a"));
    EXPECT_FALSE(diary.list().passed_over.empty());
    diary.tick("2026-03-13/water-back/a");
    EXPECT_FALSE(diary.lists("2026-03-13/bedding/a"));
    EXPECT_FALSE(diary.lists("2026-03-13/water-out/a")) << "it has only just come back";
    diary.sleep();
    EXPECT_TRUE(diary.lists("2026-03-13/bedding/a"));
    EXPECT_TRUE(diary.lists("2026-03-14/water-out/a"));
}

TEST(Worklist, water_is_asked_for_without_any_plan) {
    Diary diary(one_tub());
    diary.note(records::WaterMoved{enclosure("a"), true});
    EXPECT_EQ(keys_of(diary.list()), Keys{"2026-03-10/water-back/a"}) << "nothing is wet";
    EXPECT_EQ(diary.list().next_day, records::day(3, 11));
    diary.sleep(3);
    EXPECT_EQ(keys_of(diary.list()), Keys{"2026-03-13/water-back/a"});
}

TEST(Worklist, paper_is_kept_damp_while_the_dish_may_be_out) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    EXPECT_FALSE(diary.lists("2026-03-10/redampen/a"));
    for (int day = 1; day <= 20; ++day) {
        diary.sleep();
        EXPECT_EQ(diary.lists(units::format_day(diary.today) + "/redampen/a"), day <= 2)
            << day;  // water_out_max 3
    }
}

TEST(Worklist, paper_wetted_unasked_is_not_wetted_twice_and_stays_wet) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    diary.sleep();
    ASSERT_TRUE(diary.lists("2026-03-11/redampen/a"));
    diary.note(records::PaperWetted{enclosure("a")});
    EXPECT_FALSE(diary.lists("2026-03-11/redampen/a"));
    EXPECT_FALSE(diary.lists("2026-03-11/water-back/a"));
    EXPECT_TRUE(diary.lists("2026-03-11/drink/a"));
    diary.sleep();
    EXPECT_TRUE(diary.lists("2026-03-12/redampen/a"));
}

TEST(Worklist, nothing_is_wetted_again_that_was_not_sprayed) {
    Diary diary(one_tub());
    diary.adopt(2, 7, {enclosure("a")}, {}, false, true);
    diary.skip("2026-03-10/bedding/a");
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-11/redampen/a"));
}

TEST(Worklist, damp_days_count_from_the_day_the_spray_was_really_given) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.sleep(5);
    EXPECT_EQ(diary.task("2026-03-10/bedding/a").planned, records::day(3, 10));
    EXPECT_EQ(diary.task("2026-03-10/bedding/a").day, records::day(3, 15));
    diary.tick_all();
    diary.sleep(2);
    EXPECT_TRUE(diary.lists("2026-03-17/redampen/a"));
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-18/redampen/a"));
}

TEST(Worklist, fresh_paper_is_not_wetted_before_it_was_sprayed) {
    Diary diary(one_tub());
    diary.adopt(2, 7, {enclosure("a")}, {}, true, true);
    diary.tick_all();
    diary.sleep(7);
    diary.tick("2026-03-17/substrate/a");
    diary.skip("2026-03-17/bedding/a");
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-18/redampen/a"));
}

TEST(Worklist, ticking_the_spray_of_a_later_round_does_not_ask_to_wet_the_paper_again) {
    Diary diary(one_tub());
    diary.adopt(2, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    diary.sleep(3);
    diary.tick_all();  // the dish is back
    diary.sleep(4);
    diary.tick("2026-03-17/bedding/a");
    EXPECT_FALSE(diary.lists("2026-03-17/redampen/a"));
}

records::MealNoted meal(const char* animal, double grams) {
    return {AnimalId(animal), records::MealOutcome::eaten, "mouse", 1, units::grams(grams), false};
}

/// Until when meals are held, in the order of the notes.
std::vector<Day> held_until(const Worklist& list) {
    std::vector<Day> days;
    for (const Note& note : list.notes) {
        if (note.what.id == "hold_meal") days.push_back(std::get<Day>(note.what.arguments.back().value));
    }
    return days;
}

// rules.toml: meal_rest 2 days, meal_after_treatment 1 day, each after the day itself.
TEST(Worklist, meals_are_held_around_a_treatment_and_one_that_was_eaten_makes_it_wait) {
    Diary diary(one_tub());
    const Day round = diary.today + Days(5);
    diary.note(records::PlanAdopted{{round}, {enclosure("a")}, {}, {false, false}, {}});
    EXPECT_TRUE(held_until(diary.list()).empty()) << "a meal today is down by then";
    diary.sleep(2);
    EXPECT_TRUE(held_until(diary.list()).empty());
    diary.sleep();
    EXPECT_EQ(held_until(diary.list()), std::vector{round + Days(2)}) << "two days before it";
    diary.note(meal("anna", 20));
    diary.sleep(2);
    ASSERT_EQ(diary.today, round);
    EXPECT_FALSE(diary.lists("2026-03-15/animal/anna"));
    ASSERT_FALSE(diary.list().passed_over.empty());
    EXPECT_EQ(diary.list().passed_over.front().why.what.id, "just_fed");
    EXPECT_EQ(diary.list().passed_over.front().why.until, round + Days(1));
    diary.sleep();
    EXPECT_TRUE(diary.lists("2026-03-15/animal/anna")) << "made up for as soon as it may be";
    diary.tick_all();
    const auto held = held_until(diary.list());
    ASSERT_EQ(held.size(), 1U);
    EXPECT_GE(held.front(), diary.today + Days(2));
}

TEST(Worklist, gravid_animals_and_eggs_near_mites_have_a_word_and_nothing_is_done_to_eggs) {
    Diary diary(three_rooms(), {enclosure("k")});
    diary.note(records::ConditionNoted{AnimalId("kim"), records::Condition::gravid, true, "", ""});
    diary.note(records::ConditionNoted{AnimalId("tom"), records::Condition::gravid, true, "", ""});
    diary.note(records::EggsNoted{enclosure("q")});
    diary.adopt(1, 7, {enclosure("q")}, {}, true, false);
    std::vector<std::string_view> ids;
    for (const Note& note : diary.list().notes) ids.push_back(note.what.id);
    EXPECT_EQ(ids, (std::vector<std::string_view>{"gravid_here", "eggs_here", "hatchlings_here"}));
    EXPECT_EQ(diary.list().notes.front().animals, std::vector{AnimalId("kim")}) << "Tom is not near them";
    for (const Task& task : diary.list().tasks) EXPECT_NE(task.kind, TaskKind::treat);
    diary.sleep(7);
    EXPECT_EQ(diary.task("2026-03-17/check/q").what.id, "look_around_eggs");
}

TEST(Worklist, paper_is_wetted_again_only_while_that_is_permitted) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    diary.sleep();
    ASSERT_TRUE(diary.lists("2026-03-11/redampen/a"));
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    EXPECT_FALSE(diary.lists("2026-03-11/redampen/a"));
    const auto passed = diary.list().passed_over;
    ASSERT_EQ(passed.size(), 1u);
    EXPECT_EQ(passed.front().enclosure, enclosure("a"));
    EXPECT_EQ(passed.front().why.what.id, "about_to_shed");
    EXPECT_TRUE(diary.lists("2026-03-11/water-back/a")) << "nothing is wetted: at once";
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::shed});
    diary.sleep();
    EXPECT_TRUE(diary.lists("2026-03-12/redampen/a"));
    EXPECT_FALSE(diary.lists("2026-03-12/water-back/a"));
}

std::vector<std::string> asked_about(const Diary& diary) {
    std::vector<std::string> names;
    for (const ShedQuestion& question : diary.list().questions) names.push_back(question.animal.text());
    return names;
}

// rules.toml: cloudy_to_shed 10 days, shed_asked_again 3 days.
TEST(Worklist, asks_whether_it_has_shed_once_that_is_usual_until_it_is_answered) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    for (int day = 0; day < 10; ++day) {
        EXPECT_TRUE(asked_about(diary).empty()) << day;
        diary.sleep();
    }
    EXPECT_EQ(asked_about(diary), std::vector<std::string>{"anna"});
    diary.sleep();
    EXPECT_EQ(asked_about(diary), std::vector<std::string>{"anna"}) << "until it is answered";
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    for (int day = 0; day < 3; ++day) {
        EXPECT_TRUE(asked_about(diary).empty()) << "still cloudy, " << day;
        diary.sleep();
    }
    EXPECT_EQ(asked_about(diary), std::vector<std::string>{"anna"});
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::clear});
    EXPECT_TRUE(asked_about(diary).empty());
}

TEST(Worklist, sprays_no_animal_whose_shed_nobody_has_answered_for) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    for (int day = 0; day < 30; ++day) {
        for (const Task& task : diary.list().tasks)
            EXPECT_FALSE(task.treatment && task.treatment->method() != records::Method::soak) << task.key;
        diary.sleep();
    }
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::shed});
    diary.sleep();
    EXPECT_TRUE(diary.lists("2026-03-10/animal/anna"));
    EXPECT_TRUE(diary.lists("2026-03-10/bedding/a"));
}

TEST(Worklist, checks_come_every_week_until_the_watch_ends) {
    Diary diary(one_tub());
    diary.adopt(2, 7, {enclosure("a")}, {}, false, false);
    std::vector<int> days;
    for (int day = 0; day <= 60; ++day) {
        if (diary.lists(units::format_day(diary.today) + "/check/a")) days.push_back(day);
        diary.tick_all();
        diary.sleep();
    }
    // The last round is on day 7; an adult may live unfed for 45 days (population.toml, unfed_adult_life,
    // high end), longer than the 40 of detection.toml, watch_after_last_treatment: to day 52.
    EXPECT_EQ(days, (std::vector{7, 14, 21, 28, 35, 42, 49}));
}

TEST(Worklist, exposed_enclosures_outside_the_plan_are_checked_too) {
    Diary diary(three_rooms(), {enclosure("r")});
    diary.adopt(1, 7, {enclosure("m")}, {}, false, false);
    diary.sleep(7);
    EXPECT_TRUE(diary.lists("2026-03-17/check/m"));
    EXPECT_TRUE(diary.lists("2026-03-17/check/r"));
    EXPECT_FALSE(diary.lists("2026-03-17/check/t"));
}

// Unknown is treated as dangerous: a name with a typing error may be a viper's.
TEST(Worklist, a_snake_of_no_known_kind_is_looked_at_through_the_glass_and_not_taken_out) {
    for (const char* const kind : {"gaboon vipr", "unlisted snake"}) {
        Diary diary(one_tub());
        diary.note(records::AnimalLeft{AnimalId("anna"), "sold"});
        diary.note(records::AnimalArrived{AnimalId("vera"), "Vera", kind, "", enclosure("a"), false});
        diary.note(records::Weighed{AnimalId("vera"), units::grams(900)});
        diary.note(records::PlanAdopted{{diary.today, diary.today + Days(7)},
                                        {enclosure("a")},
                                        {},
                                        {true, false, true},
                                        units::milligrams_per_litre(10)});
        int checks = 0;
        for (int day = 0; day < 30; ++day, diary.sleep()) {
            for (const Task& task : diary.list().tasks) {
                EXPECT_FALSE(task.treatment && safety::is_by_hand(task.treatment->method()))
                    << words::say(task.what);
                if (task.kind != TaskKind::check) continue;
                ++checks;
                EXPECT_NE(words::say(task.what).find("through the glass"), std::string::npos) << kind;
                EXPECT_TRUE(std::any_of(task.cautions.begin(), task.cautions.end(), [](const auto& one) {
                    return words::say(one.what).find("may be venomous") != std::string::npos;
                }));
            }
        }
        EXPECT_GT(checks, 0);
    }
}

// safety.md: no task by hand; paper trap or through glass; trained handler, second person, shift box.
TEST(Worklist, nothing_by_hand_is_listed_for_a_venomous_snake_and_every_task_says_how) {
    for (const char* const kind : {"copperhead", "western hognose"}) {
        for (const bool soaks : {false, true}) {
            Diary diary(one_tub());
            diary.note(records::AnimalLeft{AnimalId("anna"), "sold"});
            diary.note(records::AnimalArrived{AnimalId("vera"), "Vera", kind, "", enclosure("a"), false});
            diary.note(records::Weighed{AnimalId("vera"), units::grams(900)});
            for (const auto method : {Method::spray_animal, Method::soak, Method::wipe})
                diary.note(records::VetDirection{AnimalId("vera"), method, "Dr. A", "do it", {}, 9});
            diary.note(records::PlanAdopted{{diary.today, diary.today + Days(7)},
                                            {enclosure("a")},
                                            {},
                                            {true, true, soaks},
                                            units::milligrams_per_litre(10)});
            std::set<std::string> parts;
            for (int day = 0; day < 30; ++day, diary.sleep()) {
                for (const Task& task : diary.list().tasks) {
                    if (task.enclosure.empty()) continue;
                    parts.insert(std::string(records::to_text(records::read_task_key(task.key)->part)));
                    EXPECT_FALSE(task.treatment && safety::is_by_hand(task.treatment->method()))
                        << words::say(task.what);
                    EXPECT_TRUE(std::any_of(task.cautions.begin(), task.cautions.end(), [](const auto& one) {
                        return words::say(one.what).find(
                                   "second person present, animal locked in a shift box") !=
                               std::string::npos;
                    })) << task.key;
                    if (task.kind == TaskKind::check) {
                        EXPECT_NE(words::say(task.what).find("through the glass"), std::string::npos);
                        const auto fact = std::get<records::Checked>(facts_of(task, CheckAnswer{}).front());
                        EXPECT_EQ(fact.method, records::CheckMethod::paper_trap);
                    }
                }
                diary.tick_all();
            }
            for (const char* const part : {"bedding", "substrate", "water-out", "water-back", "check"})
                EXPECT_TRUE(parts.contains(part)) << part;
            EXPECT_FALSE(parts.contains("animal"));
        }
    }
}

TEST(Worklist, a_key_stays_when_the_verdict_changes_the_method) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    EXPECT_EQ(diary.task("2026-03-10/animal/anna").treatment->method(), Method::spray_animal);
    diary.note(
        records::ConditionNoted{AnimalId("anna"), records::Condition::reacted, true, "ivermectin", ""});
    EXPECT_FALSE(diary.lists("2026-03-10/animal/anna")) << "left alone";
    diary.note(records::VetDirection{AnimalId("anna"), Method::soak, "Dr. A", "lukewarm water is fine"});
    const Task changed = diary.task("2026-03-10/animal/anna");
    EXPECT_EQ(changed.treatment->method(), Method::soak);
    EXPECT_FALSE(changed.amount.has_value());
    const auto passed = diary.list().passed_over;
    EXPECT_TRUE(std::any_of(passed.begin(), passed.end(), [](const PassedOver& over) {
        return over.animal == AnimalId("anna") && over.method == Method::spray_animal;
    }));
}

TEST(Worklist, what_is_ticked_or_skipped_stays_in_its_place_for_the_day) {
    Diary diary(with_a_hall(three_rooms()));
    diary.adopt(1, 7, {enclosure("m"), enclosure("k")}, {RoomId("hall")}, true, false);
    const Keys before = keys_of(diary.list(), true);
    const auto names_before = [&] {
        std::map<std::string, std::string> texts;
        for (const Task& task : diary.list().tasks) texts[task.key] = words::say(task.what);
        return texts;
    }();
    diary.tick("2026-03-10/animal/ken");
    diary.tick("2026-03-10/substrate/m");
    diary.tick("2026-03-10/room/hall");
    diary.skip("2026-03-10/animal/kim");
    diary.tick("2026-03-10/mix/spray");
    EXPECT_EQ(keys_of(diary.list(), true), before);
    EXPECT_EQ(diary.task("2026-03-10/animal/ken").state, TaskState::done);
    EXPECT_EQ(diary.task("2026-03-10/mix/spray").state, TaskState::done);
    EXPECT_EQ(words::say(diary.task("2026-03-10/substrate/m").what),
              names_before.at("2026-03-10/substrate/m"));
    EXPECT_EQ(words::say(diary.task("2026-03-10/room/hall").what), names_before.at("2026-03-10/room/hall"));
    const Task skipped = diary.task("2026-03-10/animal/kim");
    EXPECT_EQ(skipped.state, TaskState::skipped);
    EXPECT_EQ(skipped.skipped_because, "no time");
    EXPECT_EQ(skipped.animals, std::vector{AnimalId("kim")});

    diary.tick_all();
    Keys now = keys_of(diary.list(), true);
    EXPECT_EQ(now, before);
    diary.sleep();
    EXPECT_EQ(keys_of(diary.list()), (Keys{"2026-03-11/water-back/k", "2026-03-11/water-back/m"}));
}

TEST(Worklist, a_ticked_upkeep_is_shown_once) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, true);
    diary.tick_all();
    diary.sleep();
    const Keys before = keys_of(diary.list());
    EXPECT_EQ(before, (Keys{"2026-03-11/mix/spray", "2026-03-11/drink/a", "2026-03-11/redampen/a"}));
    diary.tick_all();
    EXPECT_EQ(keys_of(diary.list()), before);
}

TEST(Worklist, a_task_done_late_shows_on_the_day_it_was_done) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.sleep(2);
    diary.tick("2026-03-10/animal/anna");
    const Task done = diary.task("2026-03-10/animal/anna");
    EXPECT_EQ(done.state, TaskState::done);
    EXPECT_EQ(done.planned, records::day(3, 10));
    diary.sleep();
    EXPECT_FALSE(diary.lists("2026-03-10/animal/anna"));
}

// Hand-computed from rules.toml. Tub 4000 cm2: bedding 0.03 x 4000 = 120 mL. Anna 500 g: 10 x 500^(2/3) =
// 629.96 cm2, x 0.005 = 3.1498 mL. Spare 15 %: 123.1498 x 1.15 = 141.622 mL; with the bedding done 3.1498
// x 1.15 = 3.622 mL.
TEST(Worklist, the_mix_is_what_is_open_and_some_spare) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    const Task mix = diary.task("2026-03-10/mix/spray");
    EXPECT_NEAR(units::in_millilitres(*mix.amount), 141.622, 1e-3);
    EXPECT_EQ(mix.strength, units::milligrams_per_litre(10));
    EXPECT_FALSE(mix.cautions.empty());
    diary.tick("2026-03-10/bedding/a");
    EXPECT_NEAR(units::in_millilitres(*diary.task("2026-03-10/mix/spray").amount), 3.622, 1e-3);
    diary.tick("2026-03-10/animal/anna");
    EXPECT_FALSE(diary.lists("2026-03-10/mix/spray"));
}

TEST(Worklist, says_whom_the_day_passes_over) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, {enclosure("n"), enclosure("s")}, {}, false, false);
    const auto passed = diary.list().passed_over;
    const auto is_passed = [&](const char* animal, const char* tub, Method method) {
        return std::any_of(passed.begin(), passed.end(), [&](const PassedOver& over) {
            return over.animal == AnimalId(animal) && over.enclosure == enclosure(tub) &&
                   over.method == method && !over.why.what.empty();
        });
    };
    EXPECT_TRUE(is_passed("nell", "n", Method::spray_animal));
    EXPECT_TRUE(is_passed("sam", "s", Method::spray_animal));
    EXPECT_EQ(diary.task("2026-03-10/animal/nell").treatment->method(), Method::soak);
    EXPECT_FALSE(diary.lists("2026-03-10/bedding/n"));
    EXPECT_FALSE(diary.lists("2026-03-10/water-out/n"));
}

TEST(Worklist, names_the_next_day_with_work) {
    Diary diary(one_tub());
    EXPECT_FALSE(diary.list().next_day.has_value());
    diary.adopt(2, 10, {enclosure("a")}, {}, false, false);
    EXPECT_EQ(diary.list().next_day, records::day(3, 11));  // the dish goes back
    diary.tick_all();
    for (const auto next : {records::day(3, 11), records::day(3, 17), records::day(3, 20),
                            records::day(3, 21), records::day(3, 24)}) {
        ASSERT_EQ(diary.list().next_day, next);
        for (diary.sleep(); diary.today < next; diary.sleep()) EXPECT_TRUE(keys_of(diary.list()).empty());
        EXPECT_FALSE(keys_of(diary.list()).empty());
        diary.tick_all();
    }
}

TEST(Worklist, every_caution_of_the_day_is_told_once) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, all_tubs(), all_rooms(), true, false);
    const Worklist list = diary.list();
    std::set<std::string> told;
    for (const auto& caution : list.cautions)
        EXPECT_TRUE(told.insert(statement::key_of(caution.what)).second) << caution.what.id;
    for (const Task& task : list.tasks) {
        for (const auto& caution : task.cautions) EXPECT_TRUE(told.contains(statement::key_of(caution.what)));
    }
    EXPECT_FALSE(told.empty());
}

TEST(FactsOf, each_task_says_what_was_done) {
    Diary diary(with_a_hall(three_rooms()));
    diary.adopt(1, 7, {enclosure("m"), enclosure("n")}, {RoomId("hall")}, true, true);
    const auto strength = units::milligrams_per_litre(10);
    const auto facts = [&](const char* key) { return facts_of(diary.task(key)); };
    using Facts = std::vector<records::Fact>;
    EXPECT_EQ(facts("2026-03-10/animal/mia"),
              Facts{(records::Treated{enclosure("m"), {AnimalId("mia")}, Method::spray_animal, strength})});
    EXPECT_EQ(facts("2026-03-10/animal/nell"),
              Facts{(records::Treated{enclosure("n"), {AnimalId("nell")}, Method::soak, {}})});
    EXPECT_EQ(facts("2026-03-10/bedding/m"),
              Facts{(records::Treated{enclosure("m"), {}, Method::spray_bedding, strength})});
    EXPECT_EQ(facts("2026-03-10/substrate/m"),
              Facts{(records::SubstrateChanged{enclosure("m"), records::Substrate::paper})});
    EXPECT_EQ(facts("2026-03-10/room/hall"),
              Facts{(records::RoomTreated{RoomId("hall"),
                                          safety::tables().strength("permethrin_strength").value})});
    EXPECT_EQ(facts("2026-03-10/water-out/m"), Facts{(records::WaterMoved{enclosure("m"), true})});
    EXPECT_TRUE(facts("2026-03-10/mix/spray").empty());
    diary.tick_all();
    diary.sleep();
    EXPECT_EQ(facts("2026-03-11/redampen/m"), Facts{records::PaperWetted{enclosure("m")}});
    EXPECT_TRUE(facts("2026-03-11/drink/m").empty());
    diary.sleep(6);
    EXPECT_EQ(facts("2026-03-17/water-back/m"), Facts{(records::WaterMoved{enclosure("m"), false})});
    EXPECT_TRUE(facts("2026-03-17/check/m").empty()) << "a check is answered";
    const CheckAnswer some{records::SeenCount::few, records::SeenWhere::on_hands};
    EXPECT_EQ(facts_of(diary.task("2026-03-17/check/m"), some),
              Facts{(records::Checked{enclosure("m"), records::CheckMethod::look_over,
                                      records::SeenCount::few, records::SeenWhere::on_hands})});
}

}  // namespace
}  // namespace mitefall::worklist
