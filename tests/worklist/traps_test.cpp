#include <gtest/gtest.h>

#include "diary.h"
#include "records/task_key.h"
#include "worklist/watch.h"
#include "worklist/work.h"

namespace mitefall::worklist {
namespace {

/// Two tubs with a snake in each and one without, no mite ever seen.
records::Journal quiet_room() {
    records::Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    for (const char* const name : {"a", "b", "spare"}) journal.add(records::day(1, 1), records::tub(name));
    add_snake(journal, "anna", "a", 500);
    add_snake(journal, "bert", "b", 500);
    return journal;
}

std::string key(int month, int date, const char* tub) {
    return records::to_text(records::day(month, date), records::TaskPart::check, tub);
}

TEST(Traps, are_on_no_list_before_the_routine_is_on_record) {
    const Diary diary(quiet_room());
    EXPECT_TRUE(diary.list().tasks.empty());
    EXPECT_TRUE(diary.list().notes.empty());
    EXPECT_FALSE(diary.list().next_day);
}

// 10 March and 30 days: 9 April. Counted on a calendar.
TEST(Traps, are_laid_where_animals_live_and_read_so_many_days_later) {
    Diary diary(quiet_room());
    diary.note(records::TrapRoutine{30});
    ASSERT_EQ(diary.list().notes.size(), 1U);
    EXPECT_EQ(diary.list().notes[0].what, work::lay_traps({{"a", "a"}, {"b", "b"}}, records::day(4, 9)));
    EXPECT_EQ(diary.list().next_day, records::day(4, 9));
    diary.sleep(29);
    EXPECT_TRUE(diary.list().tasks.empty());
    EXPECT_TRUE(diary.list().notes.empty());
    diary.sleep();
    EXPECT_EQ(keys_of(diary.list()), (std::vector{key(4, 9, "a"), key(4, 9, "b")}));
    EXPECT_EQ(diary.task(key(4, 9, "a")).kind, TaskKind::check);
    EXPECT_EQ(diary.task(key(4, 9, "a")).what, work::read_trap("a"));
}

TEST(Traps, a_reading_goes_on_record_as_a_check_and_the_next_is_due_from_its_day) {
    Diary diary(quiet_room());
    diary.note(records::TrapRoutine{30});
    diary.sleep(32);  // two days late
    EXPECT_EQ(diary.task(key(4, 9, "a")).planned, records::day(4, 9));
    const auto facts = facts_of(diary.task(key(4, 9, "a")), CheckAnswer{});
    ASSERT_EQ(facts.size(), 1U);
    EXPECT_EQ(std::get<records::Checked>(facts[0]).method, records::CheckMethod::paper_trap);
    diary.tick(key(4, 9, "a"));
    EXPECT_EQ(diary.task(key(4, 9, "a")).state, TaskState::done) << "what is ticked does not vanish";
    EXPECT_EQ(diary.task(key(4, 9, "b")).state, TaskState::open);
    diary.sleep();
    EXPECT_EQ(keys_of(diary.list()), std::vector{key(4, 9, "b")});
    diary.tick(key(4, 9, "b"));
    diary.sleep(29);  // 11 April and 30 days: 11 May; b a day later
    EXPECT_EQ(keys_of(diary.list()), std::vector{key(5, 11, "a")});
}

TEST(Traps, one_read_without_a_task_counts_and_another_look_does_not) {
    Diary diary(quiet_room());
    diary.note(records::TrapRoutine{30});
    diary.sleep(20);
    diary.note(records::Checked{enclosure("a"), records::CheckMethod::paper_trap, records::SeenCount::none});
    diary.note(records::Checked{enclosure("b"), records::CheckMethod::look_over, records::SeenCount::none});
    diary.sleep(10);
    EXPECT_EQ(keys_of(diary.list()), std::vector{key(4, 9, "b")});
}

TEST(Traps, a_reading_passed_over_comes_up_again_with_the_next) {
    Diary diary(quiet_room());
    diary.note(records::TrapRoutine{30});
    diary.sleep(30);
    diary.skip(key(4, 9, "a"));
    EXPECT_EQ(diary.task(key(4, 9, "a")).state, TaskState::skipped);
    diary.sleep();
    EXPECT_FALSE(diary.lists(key(4, 9, "a")));
    diary.sleep(29);  // 9 May
    EXPECT_TRUE(diary.lists(key(5, 9, "a")));
}

TEST(Traps, end_with_the_routine) {
    Diary diary(quiet_room());
    diary.note(records::TrapRoutine{30});
    diary.sleep(30);
    diary.note(records::TrapRoutine{0});
    EXPECT_TRUE(diary.list().tasks.empty());
    EXPECT_FALSE(diary.list().next_day);
}

TEST(Traps, wait_while_a_course_and_its_watch_ask_for_looks) {
    Diary diary(one_tub());
    diary.note(records::TrapRoutine{30});
    diary.adopt(1, 7, {enclosure("a")}, {}, true, false);
    diary.tick_all();
    const Day over = diary.today + watch(safety::tables());
    for (; diary.today <= over; diary.sleep()) {
        for (const Task& task : diary.list().tasks) EXPECT_NE(task.what, work::read_trap("a"));
    }
    diary.sleep(29);  // 30 days after the last day of the watch
    EXPECT_TRUE(diary.lists(records::to_text(over + Days(30), records::TaskPart::check, "a")));
}

}  // namespace
}  // namespace mitefall::worklist
