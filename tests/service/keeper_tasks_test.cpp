#include <gtest/gtest.h>

#include <barrier>
#include <thread>

#include "service/worklist.h"
#include "shared/knowledge.h"
#include "shared/two_tubs.h"
#include "store/scratch.h"

// A tap means what its reader saw, whoever else taps; a request sent twice counts once.
namespace mitefall::service {
namespace {

using base::ErrorKind;
using base::Result;
using records::AnimalId;
using records::FactId;
using worklist::TaskState;

const std::string pim = "2026-03-01/animal/pim";
const std::string juno = "2026-03-01/animal/juno";

class Tasks : public store::Scratch {
  protected:
    std::string path() { return at("c").string(); }
    Keeper another() { return Keeper::open(path(), knowledge()).value(); }
    FactId last() { return keeper.last_entry().value(); }
    std::size_t given(const char* animal) {
        return keeper.collection(first_round)->animals.at(AnimalId(animal)).treatments.size();
    }
    worklist::Task task(const std::string& key) {
        const auto list = keeper.ask(at_second(59), worklist_of).value();
        for (const worklist::Task& one : list.tasks) {
            if (one.key == key) return one;
        }
        throw std::runtime_error("no such task");
    }
    void weigh(double grams, int second = 1) {
        must(keeper.record({records::Weighed{AnimalId("pim"), units::grams(grams)}}, first_round,
                           at_second(second)));
    }
    static std::function<Result<std::string>()> ticking(Keeper& by, const std::string& key, const Now& now) {
        return [&by, key, now]() -> Result<std::string> {
            const auto ticked = by.tick({key}, now);
            if (!ticked) return base::fail(ticked.error());
            return "[" + std::to_string(ticked->entries.back()) + "]";
        };
    }

    Keeper keeper = make_two_tubs(path(), knowledge());
};

TEST_F(Tasks, with_nothing_left_of_today_the_work_of_the_next_day_is_told) {
    const auto next = [&] {
        const auto today = keeper.situation(first_round).value();
        return next_work_of(*today, overview_of(*today).value());
    };
    EXPECT_TRUE(next().empty()) << "there is work today";
    for (int second = 1; second < 40; ++second) {
        const auto list = keeper.ask(at_second(second), worklist_of).value();
        const auto open = std::find_if(list.tasks.begin(), list.tasks.end(), [](const worklist::Task& one) {
            return one.kind != worklist::TaskKind::hygiene && one.state == TaskState::open;
        });
        if (open == list.tasks.end()) break;
        const bool is_check = open->kind == worklist::TaskKind::check;
        Tap tap{open->key};
        if (is_check) tap.answer = worklist::CheckAnswer{};
        ASSERT_TRUE(keeper.tick(tap, at_second(second)));
    }
    const auto kinds = next();
    ASSERT_FALSE(kinds.empty());
    const auto then =
        keeper.situation(*overview_of(*keeper.situation(first_round).value())->next_day).value();
    EXPECT_EQ(kinds.front().kind, worklist::sum_up(*worklist_of(*then)).front().kind)
        << "the list of that day tells the same";
}

TEST_F(Tasks, done_is_done_once_and_the_second_is_told_so) {
    const Ticked first = keeper.tick({pim}, at_second(1)).value();
    EXPECT_FALSE(first.already);
    const FactId after = last();
    const Ticked second = another().tick({pim}, at_second(2)).value();
    EXPECT_TRUE(second.already);
    EXPECT_EQ(second.state, TaskState::done);
    EXPECT_EQ(second.entries, first.entries) << "by which entries";
    EXPECT_EQ(second.recorded_at, at_second(1).instant) << "and when";
    EXPECT_EQ(last(), after) << "nothing is written";
    EXPECT_EQ(given("pim"), 1U);
    EXPECT_EQ(task(pim).entry, first.entries.back()) << "the list names the mark";
    EXPECT_EQ(task(juno).entry, 0);
}

TEST_F(Tasks, done_and_skipped_never_stand_for_one_another) {
    ASSERT_TRUE(keeper.skip({pim}, "in shed", at_second(1)));
    const auto done = keeper.tick({pim}, at_second(2));
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().kind, ErrorKind::conflict);
    EXPECT_FALSE(done.error().remedy.empty());
    EXPECT_TRUE(keeper.skip({pim}, "no time", at_second(3))->already);
    EXPECT_EQ(task(pim).skipped_because, "in shed") << "the first reason stays";
    ASSERT_TRUE(keeper.tick({juno}, at_second(4)));
    EXPECT_EQ(keeper.skip({juno}, "no time", at_second(5)).error().kind, ErrorKind::conflict);
    EXPECT_EQ(given("pim"), 0U);
    EXPECT_EQ(given("juno"), 1U);
}

// Below 200 g an animal is soaked, not sprayed (safety rules, weight): the task has another meaning then.
TEST_F(Tasks, a_tap_on_a_task_that_has_changed_since_is_refused) {
    const FactId seen = last();
    ASSERT_EQ(task(pim).treatment->method(), records::Method::spray_animal);
    weigh(170);
    ASSERT_EQ(task(pim).treatment->method(), records::Method::soak);
    for (const bool done : {true, false}) {
        const Tap tap{pim, first_round, seen};
        const auto tapped = done ? keeper.tick(tap, at_second(2)) : keeper.skip(tap, "x", at_second(2));
        ASSERT_FALSE(tapped);
        EXPECT_EQ(tapped.error().kind, ErrorKind::conflict);
        EXPECT_EQ(tapped.error().where, "seen");
        EXPECT_NE(tapped.error().value, tapped.error().limit) << "as it was shown, as it is";
    }
    EXPECT_EQ(given("pim"), 0U);
    ASSERT_TRUE(keeper.tick({pim, first_round, last()}, at_second(3))) << "seen as it is now";
    EXPECT_EQ(keeper.collection(first_round)->animals.at(AnimalId("pim")).treatments.back().value.method,
              records::Method::soak);
}

// Two people, two lists: what both gave an animal may not count as given once.
TEST_F(Tasks, other_work_than_the_reader_saw_is_not_done_already) {
    const FactId seen = last();
    weigh(170);
    ASSERT_TRUE(another().tick({pim, first_round, last()}, at_second(2))) << "a soak";
    const auto late = keeper.tick({pim, first_round, seen}, at_second(3));
    ASSERT_FALSE(late) << "a spray";
    EXPECT_EQ(late.error().kind, ErrorKind::conflict);
    EXPECT_EQ(late.error().where, "seen");
    EXPECT_FALSE(late.error().remedy.empty());
    EXPECT_EQ(given("pim"), 1U);
    EXPECT_TRUE(keeper.tick({pim, first_round, last()}, at_second(4))->already) << "who saw it done";
}

TEST_F(Tasks, the_same_work_on_another_day_is_not_done_already) {
    const FactId seen = last();
    const units::Day next = first_round + units::Days(1);
    ASSERT_TRUE(another().tick({pim, next, seen}, at_second(1, next)));
    const auto waited = keeper.tick({pim, first_round, seen}, at_second(2, next));
    ASSERT_FALSE(waited) << "sprayed on both days";
    EXPECT_EQ(waited.error().kind, ErrorKind::conflict);
    EXPECT_TRUE(keeper.tick({pim, next, seen}, at_second(3, next))->already) << "of the same day";
}

TEST_F(Tasks, a_tick_taken_back_takes_back_what_its_treatment_was_corrected_to) {
    const Ticked tick = keeper.tick({pim}, at_second(1)).value();
    const auto journal = keeper.journal().value();
    const auto sprayed = std::find_if(journal.begin(), journal.end(), [&](const records::Entry& entry) {
        return entry.id >= tick.entries.front() && std::holds_alternative<records::Treated>(entry.fact);
    });
    ASSERT_NE(sprayed, journal.end());
    auto weaker = std::get<records::Treated>(sprayed->fact);
    weaker.strength = units::milligrams_per_litre(5);
    ASSERT_TRUE(keeper.correct(sprayed->id, weaker, first_round, at_second(2)));
    ASSERT_EQ(given("pim"), 1U);
    const auto reopened = keeper.reopen({pim, tick.entries.back()}, at_second(3));
    ASSERT_TRUE(reopened) << reopened.error().message();
    EXPECT_EQ(given("pim"), 0U);
}

TEST_F(Tasks, a_tap_on_a_task_that_is_gone_since_is_refused) {
    const FactId seen = last();
    must(keeper.record({records::AnimalLeft{AnimalId("pim"), "sold"}}, first_round, at_second(1)));
    EXPECT_EQ(keeper.tick({pim, first_round, seen}, at_second(2)).error().kind, ErrorKind::conflict);
    EXPECT_EQ(keeper.tick({pim, first_round, last()}, at_second(2)).error().kind, ErrorKind::not_found);
}

TEST_F(Tasks, what_else_was_recorded_meanwhile_does_not_matter) {
    const FactId seen = last();
    ASSERT_TRUE(keeper.tick({juno}, at_second(1)));
    weigh(905, 2);
    ASSERT_TRUE(keeper.tick({pim, first_round, seen}, at_second(3)));
    const auto ahead = keeper.tick({pim, first_round, last() + 1}, at_second(4));
    ASSERT_FALSE(ahead) << "a list of another file";
    EXPECT_EQ(ahead.error().kind, ErrorKind::invalid_input);
}

// Somebody ticked, took it back, and somebody else, who saw it open all the time, has done it.
TEST_F(Tasks, open_again_is_open) {
    const FactId seen = last();
    const Ticked first = keeper.tick({pim}, at_second(1)).value();
    ASSERT_TRUE(keeper.reopen({pim, first.entries.back()}, at_second(2)));
    EXPECT_FALSE(another().tick({pim, first_round, seen}, at_second(3))->already);
    EXPECT_EQ(given("pim"), 1U);
}

TEST_F(Tasks, taking_back_takes_all_the_tick_wrote_and_nothing_else) {
    // One instant for all: two people at once, each with a request of their own.
    const Now now = at_second(1);
    ASSERT_TRUE(keeper.once({"request-of-one-person", "x"}, ticking(keeper, pim, now)));
    ASSERT_TRUE(keeper.once({"request-of-the-other", "x"}, ticking(keeper, juno, now)));
    const FactId mark = task(juno).entry;
    const Ticked taken = keeper.reopen({juno, mark}, at_second(2)).value();
    EXPECT_EQ(taken.state, TaskState::open);
    EXPECT_EQ(taken.entries, (std::vector<FactId>{mark - 1, mark}));
    EXPECT_EQ(given("juno"), 0U);
    EXPECT_EQ(given("pim"), 1U);
    EXPECT_EQ(task(pim).state, TaskState::done);
}

TEST_F(Tasks, undo_takes_back_one_request_not_one_instant) {
    const Now now = at_second(1);
    ASSERT_TRUE(keeper.once({"request-of-one-person", "x"}, ticking(keeper, pim, now)));
    const FactId seen = last();
    ASSERT_TRUE(keeper.once({"request-of-the-other", "x"}, ticking(keeper, juno, now)));
    EXPECT_EQ(keeper.undo(at_second(2), seen).error().kind, ErrorKind::conflict) << "not what was last then";
    ASSERT_TRUE(keeper.undo(at_second(2), last()));
    EXPECT_EQ(given("juno"), 0U);
    EXPECT_EQ(given("pim"), 1U);
}

TEST_F(Tasks, taking_back_never_means_a_later_tick) {
    const Ticked first = keeper.tick({pim}, at_second(1)).value();
    ASSERT_TRUE(keeper.reopen({pim, first.entries.back()}, at_second(2)));
    const Ticked again = keeper.tick({pim}, at_second(3)).value();
    const Ticked late = keeper.reopen({pim, first.entries.back()}, at_second(4)).value();
    EXPECT_TRUE(late.already);
    EXPECT_EQ(late.state, TaskState::done) << "as it is now";
    EXPECT_EQ(late.entries, again.entries);
    EXPECT_EQ(given("pim"), 1U);
    for (const FactId wrong : {FactId(1), FactId(0), last() + 1})
        EXPECT_EQ(keeper.reopen({pim, wrong}, at_second(5)).error().kind, ErrorKind::not_found) << wrong;
    EXPECT_EQ(keeper.reopen({juno, again.entries.back()}, at_second(5)).error().kind, ErrorKind::not_found)
        << "the mark of another task";
    EXPECT_EQ(keeper.reopen({juno}, at_second(5)).error().kind, ErrorKind::not_found) << "not ticked";
    EXPECT_EQ(keeper.reopen({pim}, at_second(6))->state, TaskState::open) << "what is in force";
}

TEST_F(Tasks, taking_back_a_tick_whose_answer_was_lost) {
    ASSERT_TRUE(keeper.once({"request-that-came", "x"}, ticking(keeper, pim, at_second(1))));
    EXPECT_FALSE(keeper.reopen({pim, {}, "request-that-came"}, at_second(2))->already);
    EXPECT_EQ(given("pim"), 0U);
    EXPECT_TRUE(keeper.reopen({pim, {}, "request-on-its-way"}, at_second(3))->already);
    const auto late = keeper.once({"request-on-its-way", "x"}, ticking(keeper, pim, at_second(4)));
    ASSERT_FALSE(late) << "it was taken back before it came";
    EXPECT_EQ(late.error().kind, ErrorKind::conflict);
    EXPECT_EQ(given("pim"), 0U);
}

TEST_F(Tasks, taking_back_ones_own_leaves_the_tick_of_another) {
    ASSERT_TRUE(keeper.once({"request-of-the-first", "x"}, ticking(keeper, pim, at_second(1))));
    ASSERT_TRUE(keeper.once({"request-of-the-second", "x"}, ticking(keeper, pim, at_second(2))));
    const Ticked taken = keeper.reopen({pim, {}, "request-of-the-second"}, at_second(3)).value();
    EXPECT_TRUE(taken.already);
    EXPECT_EQ(taken.state, TaskState::done);
    EXPECT_EQ(given("pim"), 1U);
}

TEST_F(Tasks, the_same_request_is_answered_as_the_first_time_whatever_happened_since) {
    const Asked asked{"request-sent-twice", "tick pim"};
    const std::string first = keeper.once(asked, ticking(keeper, pim, at_second(1))).value();
    const FactId after = last();
    EXPECT_EQ(keeper.once(asked, ticking(keeper, pim, at_second(2))).value(), first);
    EXPECT_EQ(last(), after);
    ASSERT_TRUE(keeper.undo(at_second(3)));
    EXPECT_EQ(keeper.once(asked, ticking(keeper, pim, at_second(4))).value(), first) << "through an undo";
    EXPECT_EQ(given("pim"), 0U) << "and what was taken back stays so";
    Keeper later = another();
    EXPECT_EQ(later.once(asked, ticking(later, pim, at_second(5))).value(), first) << "after a restart";
    EXPECT_EQ(later.answered_before(asked).value(), first);
    const auto other = later.once({asked.key, "tick juno"}, ticking(later, juno, at_second(6)));
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().kind, ErrorKind::conflict);
    EXPECT_EQ(other.error().where, "request");
    EXPECT_EQ(given("juno"), 0U);
}

TEST_F(Tasks, a_request_that_failed_is_not_kept) {
    const Asked asked{"request-that-failed", "x"};
    const FactId before = last();
    const auto failed = keeper.once(asked, [&]() -> Result<std::string> {
        weigh(920);
        return base::fail(base::invalid("no", "", ""));
    });
    ASSERT_FALSE(failed);
    EXPECT_EQ(last(), before) << "nor what it had written";
    EXPECT_TRUE(keeper.once(asked, ticking(keeper, pim, at_second(2))));
}

/// Runs both at once, in either order of starting, 200 times; `each` says what must hold after every round.
/// They wait for one another awake, so that neither comes late by the time it takes to be woken.
template <class Act, class Each>
void race(Keeper& one, Keeper& two, Act act, Each each) {
    constexpr int rounds = 200;
    std::atomic<int> ready = 0;
    std::barrier end(3);
    const auto run = [&](Keeper& keeper, bool first) {
        for (int round = 0; round < rounds; ++round) {
            if (first == (round % 2 == 0)) std::this_thread::yield();
            ++ready;
            while (ready < 2 * (round + 1)) continue;
            act(keeper, round, first);
            end.arrive_and_wait();
            end.arrive_and_wait();
        }
    };
    std::thread left([&] { run(one, true); });
    std::thread right([&] { run(two, false); });
    for (int round = 0; round < rounds; ++round) {
        end.arrive_and_wait();
        each(round);
        end.arrive_and_wait();
    }
    left.join();
    right.join();
}

// Two programs on one file: one tick is written, the other is told so; never none, never two.
TEST_F(Tasks, two_programs_that_tick_at_once_write_one_tick) {
    Keeper one = another();
    Keeper two = another();
    std::optional<Result<Ticked>> answers[2];
    race(
        one, two,
        [&](Keeper& by, int round, bool first) {
            answers[first ? 0 : 1] = by.tick({pim}, at_second(1 + round % 50));
        },
        [&](int) {
            for (const auto& answer : answers) EXPECT_TRUE(*answer) << (*answer).error().message();
            if (!*answers[0] || !*answers[1]) return;
            const Ticked& a = **answers[0];
            const Ticked& b = **answers[1];
            EXPECT_NE(a.already, b.already);
            EXPECT_EQ(a.entries, b.entries);
            EXPECT_EQ(given("pim"), 1U);
            EXPECT_TRUE(keeper.reopen({pim, a.entries.back()}, at_second(59)));
            EXPECT_EQ(given("pim"), 0U);
        });
}

TEST_F(Tasks, two_programs_with_the_same_request_write_it_once) {
    Keeper one = another();
    Keeper two = another();
    std::optional<Result<std::string>> answers[2];
    FactId before = last();
    race(
        one, two,
        [&](Keeper& by, int round, bool first) {
            const Asked asked{"request-number-" + std::to_string(round), "x"};
            answers[first ? 0 : 1] = by.once(asked, [&]() -> Result<std::string> {
                const auto ids = by.record({records::Weighed{AnimalId("juno"), units::grams(1000 + round)}},
                                           first_round, at_second(round % 50));
                if (!ids) return base::fail(ids.error());
                return std::to_string(ids->front());
            });
        },
        [&](int) {
            EXPECT_EQ(answers[0]->value(), answers[1]->value());
            EXPECT_EQ(last(), before + 1);
            before = last();
        });
}

// What is checked is checked where it is written: of two that add the same room one is refused, and the
// journal still folds.
TEST_F(Tasks, two_programs_that_add_the_same_room_leave_a_journal_that_folds) {
    Keeper one = another();
    Keeper two = another();
    std::atomic<int> accepted = 0;
    race(
        one, two,
        [&](Keeper& by, int round, bool) {
            const std::string name = "room-" + std::to_string(round);
            const auto ids = by.record({records::room(name.c_str())}, first_round, at_second(1));
            if (ids) ++accepted;
            EXPECT_TRUE(ids || ids.error().kind == ErrorKind::already_exists ||
                        ids.error().kind == ErrorKind::conflict)
                << ids.error().message();
        },
        [&](int round) {
            EXPECT_EQ(accepted, round + 1) << "one of the two";
            EXPECT_EQ(keeper.collection(first_round)->rooms.size(), 2U + static_cast<std::size_t>(round));
        });
}

}  // namespace
}  // namespace mitefall::service
