#include <gtest/gtest.h>

#include "worklist/diary.h"
#include "worklist/work.h"

// What was neither done nor skipped on its day is said, and can be made up in two ways.
namespace mitefall::worklist {
namespace {

using records::day;
using Dates = std::vector<Day>;

/// Three weekly rounds in tub "a" from 10 March: snake, paper and spray each.
Diary weekly() {
    Diary diary(one_tub());
    diary.adopt(3, 7, {enclosure("a")}, {}, true, false);
    return diary;
}

void go_to(Diary& diary, Day on) { diary.today = on; }

const LateRound& only(const Late& late) {
    if (late.rounds.size() != 1) throw std::runtime_error("not one late round");
    return late.rounds.front();
}

TEST(Late, a_missed_round_is_said_with_its_day_and_its_size) {
    Diary diary = weekly();
    EXPECT_FALSE(diary.late().is_any()) << "its day is not over";
    go_to(diary, day(3, 13));
    const Late late = diary.late();
    const LateRound& round = only(late);
    EXPECT_EQ(round.number, 1);
    EXPECT_EQ(round.of, 3);
    EXPECT_EQ(round.planned, day(3, 10));
    EXPECT_EQ(round.tasks, 3);
    EXPECT_EQ(round.enclosures, 1);
    EXPECT_EQ(round.done, 0);
    EXPECT_EQ(round.today, 3);
    EXPECT_FALSE(round.overtaken);
    EXPECT_EQ(late.today->rounds, (Dates{day(3, 13), day(3, 17), day(3, 24)}));
    EXPECT_EQ(late.move->rounds, (Dates{day(3, 13), day(3, 20), day(3, 27)}));
}

TEST(Late, nothing_of_a_round_that_was_done_or_skipped_is_late) {
    Diary done = weekly();
    done.tick_all();
    go_to(done, day(3, 12));
    EXPECT_TRUE(done.late().rounds.empty());
    Diary skipped = weekly();
    for (const char* const part : {"animal/anna", "substrate/a", "bedding/a"})
        skipped.skip(std::string("2026-03-10/") + part);
    go_to(skipped, day(3, 12));
    EXPECT_TRUE(skipped.late().rounds.empty());
}

// rules.toml, cloudy_to_shed: it is counted on from 21 March; nobody has said that it came.
TEST(Late, what_waits_for_a_shed_is_not_late_until_the_shed_is_on_record) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    for (const int on : {11, 20, 22, 28}) {
        go_to(diary, day(3, on));
        EXPECT_TRUE(diary.late().rounds.empty()) << on;
    }
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::shed});
    go_to(diary, day(3, 30));
    EXPECT_EQ(only(diary.late()).tasks, 2) << "it was free on the 29th";
}

TEST(Late, of_a_round_begun_the_rest_is_late_and_what_is_done_is_not_asked_for_again) {
    for (const CatchUp how : {CatchUp::today, CatchUp::move}) {
        Diary diary = weekly();
        diary.tick("2026-03-10/substrate/a");
        go_to(diary, day(3, 12));
        EXPECT_EQ(only(diary.late()).tasks, 2);
        EXPECT_EQ(only(diary.late()).done, 1);
        diary.catch_up(how);
        EXPECT_FALSE(diary.late().is_any());
        EXPECT_TRUE(diary.lists("2026-03-12/animal/anna"));
        EXPECT_TRUE(diary.lists("2026-03-12/bedding/a"));
        EXPECT_FALSE(diary.lists("2026-03-12/substrate/a")) << to_text(how);
        go_to(diary, day(3, 14));  // missed once more, and put off once more
        EXPECT_EQ(only(diary.late()).done, 1);
        diary.catch_up(how);
        EXPECT_TRUE(diary.lists("2026-03-14/bedding/a"));
        EXPECT_FALSE(diary.lists("2026-03-14/substrate/a")) << to_text(how);
    }
}

TEST(Late, rounds_missed_one_after_another_are_all_said_and_made_up_once_or_all) {
    Diary diary = weekly();
    go_to(diary, day(3, 25));
    const Late late = diary.late();
    ASSERT_EQ(late.rounds.size(), 3u);
    EXPECT_TRUE(late.rounds[0].overtaken);
    EXPECT_TRUE(late.rounds[1].overtaken);
    EXPECT_FALSE(late.rounds[2].overtaken);
    EXPECT_EQ(late.today->rounds, (Dates{day(3, 25)}));
    EXPECT_EQ(late.today->given_up, (Dates{day(3, 10), day(3, 17)}));
    EXPECT_EQ(late.move->rounds, (Dates{day(3, 25), day(4, 1), day(4, 8)}));
    EXPECT_TRUE(late.move->given_up.empty());
}

TEST(Late, a_round_missed_before_one_that_was_done_is_over) {
    Diary diary = weekly();
    go_to(diary, day(3, 17));
    diary.tick_all();
    go_to(diary, day(3, 19));
    EXPECT_TRUE(diary.late().rounds.empty());
}

TEST(Late, a_round_missed_before_the_one_of_today_can_be_given_up_or_take_its_place) {
    for (const CatchUp how : {CatchUp::today, CatchUp::move}) {
        Diary diary = weekly();
        diary.tick_all();
        go_to(diary, day(3, 24));
        const Late late = diary.late();
        EXPECT_EQ(only(late).number, 2);
        EXPECT_TRUE(only(late).overtaken);
        EXPECT_EQ(late.today->rounds, (Dates{day(3, 10), day(3, 24)}));
        EXPECT_EQ(late.move->rounds, (Dates{day(3, 10), day(3, 24), day(3, 31)}));
        diary.catch_up(how);
        EXPECT_TRUE(diary.late().rounds.empty());
        EXPECT_TRUE(diary.lists("2026-03-24/animal/anna"));
    }
}

TEST(Late, the_rest_stays_as_far_as_the_least_interval_allows) {
    Diary diary = weekly();
    go_to(diary, day(3, 16));
    const Redated today = *diary.late().today;
    EXPECT_EQ(today.rounds, (Dates{day(3, 16), day(3, 19), day(3, 24)}));
    EXPECT_EQ(today.held, (std::vector<HeldRound>{{day(3, 17), day(3, 19)}}));
}

TEST(Late, of_the_last_round_nothing_is_left_to_move) {
    Diary diary(one_tub());
    diary.adopt(1, 7, {enclosure("a")}, {}, true, false);
    go_to(diary, day(3, 12));
    EXPECT_TRUE(diary.late().today);
    EXPECT_FALSE(diary.late().move);
}

TEST(Late, what_left_the_collection_or_may_no_longer_be_given_is_told_apart) {
    Diary diary(three_rooms());
    diary.adopt(1, 7, {enclosure("k"), enclosure("m")}, {}, false, false);
    go_to(diary, day(3, 12));
    EXPECT_EQ(only(diary.late()).tasks, 5);  // kim, ken, mia; the paper of k and of m
    diary.note(records::AnimalLeft{AnimalId("ken"), "sold"});
    EXPECT_EQ(only(diary.late()).tasks, 4);
    EXPECT_EQ(only(diary.late()).today, 4);
    diary.note(records::ConditionNoted{AnimalId("mia"), records::Condition::neurological, true, "", ""});
    EXPECT_EQ(only(diary.late()).tasks, 4) << "it was missed all the same";
    EXPECT_LT(only(diary.late()).today, 4) << "the safety check is asked as of today";
}

TEST(Late, who_had_to_wait_on_the_day_is_late_only_once_its_own_day_is_over) {
    Diary diary = weekly();
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::cloudy});
    diary.tick_all();
    go_to(diary, day(3, 12));
    diary.note(records::ShedSeen{AnimalId("anna"), records::ShedState::shed});
    go_to(diary, day(3, 13));
    EXPECT_TRUE(diary.late().rounds.empty()) << "nobody missed it";
    go_to(diary, day(3, 14));
    EXPECT_EQ(only(diary.late()).tasks, 1) << "the paper that waited; the snake was soaked meanwhile";
}

TEST(Late, a_dish_out_for_too_long_comes_before_everything_else) {
    Diary diary(three_rooms());
    diary.adopt(2, 14, all_tubs(), {}, false, false);
    diary.tick("2026-03-10/water-out/m");
    go_to(diary, day(3, 13));
    EXPECT_TRUE(diary.late().dishes.empty()) << "the last day on which it may be put back";
    go_to(diary, day(3, 16));
    const auto list = diary.list();
    EXPECT_EQ(list.tasks.front().key, "2026-03-16/water-back/m")
        << "before healthier rooms, and before the mix";
    const LateDish dish = diary.late().dishes.at(0);
    EXPECT_EQ(dish.enclosure, enclosure("m"));
    EXPECT_EQ(dish.since, day(3, 10));
    EXPECT_EQ(dish.back_by, day(3, 13));
    const auto next = std::find_if(list.tasks.begin() + 1, list.tasks.end(),
                                   [](const Task& task) { return task.kind == TaskKind::hygiene; });
    EXPECT_EQ(next->what, work::change_clothes()) << "mites were seen in that room";
    diary.tick("2026-03-16/water-back/m");
    EXPECT_TRUE(diary.late().dishes.empty());
    EXPECT_EQ(diary.list().tasks.front().key, "2026-03-16/water-back/m")
        << "nothing slides when it is ticked";
}

TEST(Late, a_missed_check_stays_on_the_list_until_somebody_looks) {
    for (const char* const by : {"answer", "skip", "record"}) {
        Diary diary = weekly();
        diary.tick_all();
        go_to(diary, day(3, 18));
        const std::string key = "2026-03-17/check/a";
        ASSERT_TRUE(diary.lists(key));
        EXPECT_EQ(diary.late().check->planned, day(3, 17));
        EXPECT_EQ(diary.late().check->enclosures, (std::vector{enclosure("a")}));
        if (by == std::string("answer")) diary.tick(key);
        if (by == std::string("skip")) diary.skip(key);
        if (by == std::string("record"))
            diary.note(
                records::Checked{enclosure("a"), records::CheckMethod::soak, records::SeenCount::none});
        EXPECT_FALSE(diary.late().check) << by;
        go_to(diary, day(3, 19));
        EXPECT_FALSE(diary.lists(key)) << by;
    }
}

TEST(Late, nobody_missed_looking_where_mites_came_near_only_since) {
    Diary diary(three_rooms(), {enclosure("r")});
    diary.adopt(1, 7, {enclosure("m")}, {}, false, false);
    diary.tick_all();
    go_to(diary, day(3, 18));
    EXPECT_EQ(diary.late().check->enclosures, (std::vector{enclosure("r"), enclosure("m")}));
    diary.note(records::Sighted{enclosure("t"), records::SeenCount::one, records::SeenWhere::on_animal});
    EXPECT_EQ(diary.late().check->enclosures, (std::vector{enclosure("m")}));
}

}  // namespace
}  // namespace mitefall::worklist
