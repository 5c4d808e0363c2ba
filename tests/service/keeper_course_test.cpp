#include <gtest/gtest.h>

#include <algorithm>

#include "service/plans.h"
#include "service/rescore.h"
#include "service/verdicts.h"
#include "service/worklist.h"
#include "shared/knowledge.h"
#include "store/scratch.h"
#include "words/words.h"

// A keeper's way through a course: the demo collection, its contacts, a plan, and the days after.
namespace mitefall::service {
namespace {

base::Result<exposure::Tracing> traced(const Situation& today) { return today.tracing(); }

using base::ErrorKind;
using records::AnimalId;
using records::EnclosureId;
using units::Day;
using units::Days;
using worklist::Task;
using worklist::TaskKind;
using worklist::TaskState;

const Day start = units::parse_day("2026-07-01").value();
const EnclosureId sighted("a-05");

PlanOptions eight_draws() {
    PlanOptions options;
    options.draws = 8;
    return options;
}

/// A moment of a day; moments differ, as they do for a keeper.
Now at_minute(int minute, Day today = start) {
    return {today, units::format_day(today) + "T08:" + std::to_string(10 + minute) + ":00Z"};
}

class KeeperCourse : public store::Scratch {
  protected:
    [[nodiscard]] std::string path() const { return at("demo").string(); }

    Keeper with_demo() {
        auto keeper = Keeper::create(path(), knowledge()).value();
        const auto ids = keeper.record_all(demo_facts(start), at_minute(0));
        if (!ids) throw std::runtime_error(ids.error().message());
        return keeper;
    }

    /// Three weekly rounds in the infested room, without a search.
    static plan::ScoredPlan whole_room(const Keeper& keeper) {
        plan::ScoredPlan plan;
        plan::Assignment& assignment = plan.schedule.assignment;
        assignment.rounds = {start, start + Days(7), start + Days(14)};
        const auto collection = keeper.collection(start).value();
        for (const auto* enclosure : collection.enclosures_in(records::RoomId("snakes")))
            assignment.enclosures.push_back(enclosure->id);
        assignment.rooms = {records::RoomId("snakes")};
        assignment.choices.change_substrate = true;
        return plan;
    }

    Keeper with_plan() {
        Keeper keeper = with_demo();
        const auto id = keeper.adopt(whole_room(keeper), units::milligrams_per_litre(10), at_minute(2));
        if (!id) throw std::runtime_error(id.error().message());
        return keeper;
    }

    static std::vector<Task> tasks_of(const Keeper& keeper, const Now& now) {
        return keeper.ask(now, worklist_of).value().tasks;
    }

    static Task first(const Keeper& keeper, TaskKind kind, const Now& now) {
        for (Task& task : tasks_of(keeper, now)) {
            if (task.kind == kind && task.state == TaskState::open) return std::move(task);
        }
        throw std::runtime_error("no such task");
    }

    static Task find(const Keeper& keeper, const std::string& key, const Now& now) {
        for (Task& task : tasks_of(keeper, now)) {
            if (task.key == key) return std::move(task);
        }
        throw std::runtime_error("no task " + key);
    }

    /// An animal of today's list that gets the spray.
    static Task spray(const Keeper& keeper, const Now& now) {
        for (Task& task : tasks_of(keeper, now)) {
            if (task.treatment && task.treatment->method() == records::Method::spray_animal)
                return std::move(task);
        }
        throw std::runtime_error("nobody is sprayed");
    }

    static std::vector<records::Entry> journal_of(const Keeper& keeper) { return keeper.journal().value(); }
};

TEST_F(KeeperCourse, from_the_first_mite_to_the_first_list) {
    const Keeper keeper = with_demo();
    const auto tracing = keeper.ask(at_minute(1), traced).value();
    const auto own = std::find_if(tracing.exposed.begin(), tracing.exposed.end(),
                                  [](const auto& row) { return row.enclosure == sighted; });
    ASSERT_NE(own, tracing.exposed.end());
    EXPECT_TRUE(own->sighted);
    EXPECT_FALSE(keeper.ask(at_minute(1), verdicts_of, units::milligrams_per_litre(10)).value().empty());

    const auto planned = keeper.ask(at_minute(1), choose_plan, eight_draws()).value();
    const auto& choice = planned.choice;
    EXPECT_GT(choice.recommended.clear.mean, choice.untreated.mean);
    EXPECT_EQ(each_round_of(planned, choice.recommended, {}).value().size(), 8u);
    EXPECT_TRUE(planned.setting.exposed.contains(EnclosureId("a-07")))
        << "Rufus stayed in a-05 and went there";

    const auto preview = preview_worklist(planned, choice.recommended);
    Keeper adopting = Keeper::open(path(), knowledge()).value();
    ASSERT_TRUE(adopting.adopt(choice.recommended, planned.setting.strength, at_minute(2)));
    const auto list = adopting.ask(at_minute(3), worklist_of).value();
    ASSERT_EQ(list.tasks.size(), preview.tasks.size());
    for (std::size_t i = 0; i < list.tasks.size(); ++i) {
        EXPECT_EQ(list.tasks[i].key, preview.tasks[i].key);
        EXPECT_EQ(words::say(list.tasks[i].what), words::say(preview.tasks[i].what));
    }
    EXPECT_EQ(list.tasks.front().kind, TaskKind::mix);
    EXPECT_EQ(list.tasks.back().kind, TaskKind::hygiene);

    // Nothing is done yet, so what is left is the whole plan: the same draws, the same course, the same
    // start. Two scorings at their own tolerances.
    EXPECT_NEAR(adopting.ask(at_minute(4), rescore, eight_draws())->clear.mean, choice.recommended.clear.mean,
                1e-3);
}

TEST_F(KeeperCourse, a_search_that_is_cancelled_gives_no_plan) {
    const Keeper keeper = with_demo();
    PlanOptions options = eight_draws();
    options.progress = [](double) { return false; };
    const auto planned = keeper.ask(at_minute(1), choose_plan, options);
    ASSERT_FALSE(planned);
    EXPECT_EQ(planned.error().kind, ErrorKind::conflict);
}

TEST_F(KeeperCourse, a_tick_records_the_treatment_and_the_task) {
    Keeper keeper = with_plan();
    const Task task = spray(keeper, at_minute(3));
    const auto before = journal_of(keeper);
    ASSERT_TRUE(keeper.tick({task.key}, at_minute(3)));
    const auto after = journal_of(keeper);
    ASSERT_EQ(after.size(), before.size() + 2);
    EXPECT_EQ(after[before.size()].fact, worklist::facts_of(task).front());
    EXPECT_EQ(after.back().fact, records::Fact(records::TaskDone{task.key}));
    EXPECT_EQ(find(keeper, task.key, at_minute(4)).state, TaskState::done);
    const auto treatments = keeper.collection(start)->animals.at(task.animals.front()).treatments;
    ASSERT_FALSE(treatments.empty());
    EXPECT_EQ(treatments.back().day, start);
}

TEST_F(KeeperCourse, undoing_a_tick_takes_back_the_treatment_and_the_tick) {
    Keeper keeper = with_plan();
    const Task task = spray(keeper, at_minute(3));
    const auto given = [&] {
        return keeper.collection(start)->animals.at(task.animals.front()).treatments.size();
    };
    const auto before = given();
    ASSERT_TRUE(keeper.tick({task.key}, at_minute(3)));
    ASSERT_EQ(given(), before + 1);
    const auto undone = keeper.undo(at_minute(4)).value();
    EXPECT_EQ(undone.size(), 2u);
    EXPECT_EQ(given(), before);
    EXPECT_EQ(find(keeper, task.key, at_minute(5)).state, TaskState::open);
    EXPECT_TRUE(find(keeper, task.key, at_minute(5)).treatment.has_value());
    // And it can be done after all.
    ASSERT_TRUE(keeper.tick({task.key}, at_minute(6)));
    EXPECT_EQ(given(), before + 1);
}

TEST_F(KeeperCourse, undo_goes_back_step_by_step) {
    Keeper keeper = with_plan();
    const Task task = spray(keeper, at_minute(3));
    const std::string water = first(keeper, TaskKind::water_out, at_minute(3)).key;
    ASSERT_TRUE(keeper.tick({task.key}, at_minute(3)));
    ASSERT_TRUE(keeper.skip({water}, "no dish in there", at_minute(4)));
    const Task skipped = find(keeper, water, at_minute(5));
    EXPECT_EQ(skipped.state, TaskState::skipped);
    EXPECT_EQ(skipped.skipped_because, "no dish in there");

    ASSERT_TRUE(keeper.undo(at_minute(5)));
    EXPECT_EQ(find(keeper, water, at_minute(6)).state, TaskState::open);
    EXPECT_EQ(find(keeper, task.key, at_minute(6)).state, TaskState::done);
    ASSERT_TRUE(keeper.undo(at_minute(6)));
    EXPECT_EQ(find(keeper, task.key, at_minute(7)).state, TaskState::open);
    ASSERT_TRUE(keeper.undo(at_minute(7)));  // the plan itself
    EXPECT_TRUE(keeper.ask(at_minute(8), worklist_of)
                    .value()
                    .tasks.empty());  // a gravid animal is told of all the same
}

TEST_F(KeeperCourse, an_empty_collection_has_nothing_to_undo) {
    Keeper keeper = Keeper::create(path(), knowledge()).value();
    const auto undone = keeper.undo(at_minute(0));
    ASSERT_FALSE(undone.has_value());
    EXPECT_EQ(undone.error().kind, ErrorKind::not_found);
}

TEST_F(KeeperCourse, what_is_left_is_scored_anew) {
    Keeper keeper = with_plan();
    const auto asked = keeper.ask(at_minute(3), rescore, eight_draws()).value();
    EXPECT_EQ(asked.chance.size(), 8u);
    for (const Task& task : tasks_of(keeper, at_minute(3))) {
        if (task.kind != TaskKind::treat) continue;
        ASSERT_TRUE(keeper.skip({task.key}, "away", at_minute(4))) << task.key;
    }
    const auto without = keeper.ask(at_minute(5), rescore, eight_draws()).value();
    EXPECT_LT(without.clear.mean, asked.clear.mean);
}

TEST_F(KeeperCourse, ticking_a_round_changes_little_and_the_days_go_on) {
    Keeper keeper = with_plan();
    const double planned = keeper.ask(at_minute(3), rescore, eight_draws())->clear.mean;
    int minute = 4;  // all of it in one minute
    for (const Task& task : tasks_of(keeper, at_minute(3))) {
        if (task.kind == TaskKind::hygiene) continue;
        const auto ticked = keeper.tick({task.key}, at_minute(minute));
        ASSERT_TRUE(ticked.has_value()) << task.key << ": " << ticked.error().message();
    }
    for (const Task& task : tasks_of(keeper, at_minute(++minute))) {
        EXPECT_TRUE(task.kind == TaskKind::hygiene || task.state == TaskState::done) << task.key;
    }
    // What was planned and what is on record now are the same acts.
    EXPECT_NEAR(keeper.ask(at_minute(++minute), rescore, eight_draws())->clear.mean, planned, 0.02);
    const auto back = keeper.ask(at_minute(0, start + Days(3)), worklist_of).value();
    EXPECT_TRUE(std::any_of(back.tasks.begin(), back.tasks.end(),
                            [](const Task& task) { return task.kind == TaskKind::water_back; }));
}

TEST_F(KeeperCourse, each_mistake_has_its_kind_of_error) {
    {
        Keeper empty = Keeper::create(at("empty").string(), knowledge()).value();
        EXPECT_EQ(empty.ask(at_minute(0), traced).error().kind, ErrorKind::not_found) << "no sighting";
        EXPECT_EQ(empty.ask(at_minute(0), choose_plan, eight_draws()).error().kind, ErrorKind::not_found);
        EXPECT_EQ(empty.ask(at_minute(0), rescore, eight_draws()).error().kind, ErrorKind::not_found);
        EXPECT_EQ(empty.ask(at_minute(0), worklist_of).error().kind, ErrorKind::not_found) << "no plan";
    }
    Keeper keeper = with_demo();
    EXPECT_EQ(keeper.ask(at_minute(1), rescore, eight_draws()).error().kind, ErrorKind::not_found)
        << "no plan";
    EXPECT_EQ(keeper.tick({"2026-07-01/animal/juno"}, at_minute(1)).error().kind, ErrorKind::not_found)
        << "no plan";
    ASSERT_TRUE(keeper.adopt(whole_room(keeper), units::milligrams_per_litre(10), at_minute(2)));
    const auto before = journal_of(keeper);
    for (const char* const key : {"2026-07-01/animal/nobody", "", "2026-07-01/hygiene/1", "juno"}) {
        EXPECT_EQ(keeper.tick({key}, at_minute(3)).error().kind, ErrorKind::not_found) << key;
        EXPECT_EQ(keeper.skip({key}, "why", at_minute(3)).error().kind, ErrorKind::not_found) << key;
    }
    EXPECT_EQ(journal_of(keeper), before);
    const std::string key = spray(keeper, at_minute(3)).key;
    ASSERT_TRUE(keeper.tick({key}, at_minute(3)));
    EXPECT_TRUE(keeper.tick({key}, at_minute(4))->already) << "ticked twice";
    EXPECT_EQ(keeper.skip({key}, "why", at_minute(4)).error().kind, ErrorKind::conflict);
    EXPECT_EQ(Keeper::create(path(), knowledge()).error().kind, ErrorKind::already_exists);
    EXPECT_EQ(Keeper::open(at("nowhere").string(), knowledge()).error().kind, ErrorKind::not_found);
}

TEST_F(KeeperCourse, a_second_keeper_of_the_file_sees_the_facts) {
    Keeper one = with_plan();
    const Keeper other = Keeper::open(path(), knowledge()).value();
    EXPECT_EQ(journal_of(other), journal_of(one));
    const std::string key = spray(one, at_minute(3)).key;
    ASSERT_TRUE(one.tick({key}, at_minute(3)));
    EXPECT_EQ(find(other, key, at_minute(4)).state, TaskState::done);
    Keeper third = Keeper::open(path(), knowledge()).value();
    EXPECT_TRUE(third.tick({key}, at_minute(4))->already);
}

TEST_F(KeeperCourse, a_plan_somebody_else_adopted_since_is_not_put_aside_unread) {
    Keeper one = with_demo();
    Keeper two = Keeper::open(path(), knowledge()).value();
    const auto strength = units::milligrams_per_litre(10);
    const auto seen = one.last_entry().value();
    const auto theirs = two.adopt(whole_room(two), strength, at_minute(1), seen);
    ASSERT_TRUE(theirs) << theirs.error().message();
    const auto mine = one.adopt(whole_room(one), strength, at_minute(2), seen);
    ASSERT_FALSE(mine);
    EXPECT_EQ(mine.error().kind, ErrorKind::conflict);
    EXPECT_EQ(one.collection(start)->plan->entry, *theirs);
    EXPECT_TRUE(one.adopt(whole_room(one), strength, at_minute(3), *theirs)) << "seen, and another is chosen";
}

TEST_F(KeeperCourse, a_day_to_come_is_refused_and_nothing_is_written) {
    Keeper keeper = with_demo();
    const auto before = journal_of(keeper);
    const records::Fact weighed = records::Weighed{AnimalId("juno"), units::grams(1700)};
    const auto refused = keeper.record({weighed}, start + Days(1), at_minute(1));
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().kind, ErrorKind::invalid_input);
    EXPECT_EQ(journal_of(keeper), before);
    // All or none: the good fact is not written when the one after it is refused.
    const auto mixed = keeper.record_all({{start, weighed}, {start + Days(1), weighed}}, at_minute(1));
    ASSERT_FALSE(mixed.has_value());
    EXPECT_EQ(journal_of(keeper), before);
    ASSERT_TRUE(keeper.record({weighed}, start, at_minute(1)));
    EXPECT_EQ(journal_of(keeper).size(), before.size() + 1);
}

TEST_F(KeeperCourse, a_corrected_weight_changes_the_list_and_not_the_keys) {
    Keeper keeper = with_plan();
    const Task task = spray(keeper, at_minute(3));
    const AnimalId animal = task.animals.front();
    ASSERT_TRUE(keeper.record({records::Weighed{animal, units::grams(170)}}, start, at_minute(3)));
    const Task light = find(keeper, task.key, at_minute(4));
    EXPECT_EQ(light.treatment->method(),
              records::Method::soak);  // below 200 g: bedding only (safety rules, weight)
    const records::FactId wrong = journal_of(keeper).back().id;
    ASSERT_TRUE(keeper.correct(wrong, records::Weighed{animal, units::grams(1700)}, start, at_minute(5)));
    EXPECT_EQ(find(keeper, task.key, at_minute(6)).treatment->method(), records::Method::spray_animal);
}

}  // namespace
}  // namespace mitefall::service
