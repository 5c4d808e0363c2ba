#include "service/situation.h"

#include <gtest/gtest.h>

#include <atomic>
#include <thread>

#include "records/journal.h"
#include "service/clearance.h"
#include "service/plans.h"
#include "service/rescore.h"
#include "service/worklist.h"
#include "shared/knowledge.h"
#include "shared/two_tubs.h"
#include "store/scratch.h"

// One fold, one tracing, one belief for all that is asked of the same records on the same day.
namespace mitefall::service {
namespace {

using records::EnclosureId;
using units::Days;

class OneSituation : public store::Scratch {
  protected:
    OneSituation() : keeper(make_two_tubs(at("c").string(), knowledge())) {}

    /// Two days on: the round of the first day is late, so that earlier days are looked at.
    [[nodiscard]] std::shared_ptr<const Situation> two_days_on() const {
        return keeper.situation(first_round + Days(2)).value();
    }
    /// The same records, made ready by nobody before.
    [[nodiscard]] std::shared_ptr<const Situation> afresh(units::Day day) const {
        return Situation::of(keeper.journal().value(), day, knowledge());
    }
    static PlanOptions few_draws() {
        PlanOptions options;
        options.draws = 8;
        return options;
    }
    static ClearanceOptions few_looks() {
        ClearanceOptions options;
        options.draws = 8;
        options.rounds = 1;
        return options;
    }

    Keeper keeper;
};

TEST_F(OneSituation, is_folded_and_traced_once_whatever_is_asked) {
    const auto today = two_days_on();
    ASSERT_TRUE(overview_of(*today));
    EXPECT_FALSE(overview_of(*today)->late.rounds.empty()) << "or no earlier day is looked at";
    ASSERT_TRUE(worklist_of(*today));
    ASSERT_TRUE(choose_plan(*today, few_draws()));
    ASSERT_TRUE(rescore(*today, few_draws()));
    ASSERT_TRUE(next_check_of(*today, few_looks()));
    EXPECT_EQ(today->made().folds, 1);
    EXPECT_EQ(today->made().walks_back, 1) << "all earlier days in one walk";
    EXPECT_EQ(today->made().tracings, 1);
    EXPECT_EQ(today->made().cases, 1);
    EXPECT_EQ(today->made().beliefs, 1) << "the draws are the same";
}

TEST_F(OneSituation, makes_only_what_a_question_needs) {
    const auto today = two_days_on();
    EXPECT_TRUE(today->collection().plan);
    EXPECT_EQ(today->made().folds, 1);
    EXPECT_EQ(today->made().walks_back, 0);
    EXPECT_EQ(today->made().tracings, 0);
    EXPECT_EQ(today->made().beliefs, 0);
}

TEST_F(OneSituation, forms_a_belief_for_every_other_choice_of_draws) {
    const auto today = two_days_on();
    const auto plain = today->believed({8, 1}, {}).value();
    EXPECT_EQ(today->believed({8, 1}, {}).value(), plain);
    EXPECT_NE(today->believed({16, 1}, {}).value(), plain);
    EXPECT_NE(today->believed({8, 2}, {}).value(), plain);
    EXPECT_NE(today->believed({8, 1, clearance::DetectionEnd::low}, {}).value(), plain);
    EXPECT_EQ(today->made().beliefs, 4);
}

TEST_F(OneSituation, is_the_same_until_something_is_recorded_or_the_day_is_over) {
    const auto before = two_days_on();
    EXPECT_EQ(two_days_on(), before);
    EXPECT_NE(keeper.situation(first_round + Days(3)).value(), before);
    const auto back = two_days_on();
    EXPECT_EQ(back->entry(), before->entry());
    must(keeper.record({records::Weighed{records::AnimalId("pim"), units::grams(950)}}, first_round + Days(2),
                       at_second(1, first_round + Days(2))));
    const auto after = two_days_on();
    EXPECT_NE(after, back);
    EXPECT_EQ(after->entry(), back->entry() + 1);
    EXPECT_EQ(units::in_grams(back->collection().animals.at(records::AnimalId("pim")).weight->value), 900)
        << "whoever still holds the old one reads what it was";
    EXPECT_EQ(units::in_grams(after->collection().animals.at(records::AnimalId("pim")).weight->value), 950);
}

// What was recorded and not kept may be followed by other entries with the same numbers.
TEST_F(OneSituation, does_not_outlive_entries_that_were_not_kept) {
    const Now now = at_second(1, first_round + Days(2));
    const auto weigh = [&](double grams) {
        return keeper.record({records::Weighed{records::AnimalId("pim"), units::grams(grams)}}, now.today,
                             now);
    };
    const auto given_up = keeper.alone([&]() -> base::Result<int> {
        must(weigh(950));
        EXPECT_TRUE(two_days_on()->collection().plan);
        return base::fail({});
    });
    ASSERT_FALSE(given_up);
    must(weigh(975));
    EXPECT_EQ(units::in_grams(two_days_on()->collection().animals.at(records::AnimalId("pim")).weight->value),
              975);
}

TEST_F(OneSituation, up_to_an_entry_is_as_it_stood_then) {
    const auto before = two_days_on();
    must(keeper.record({records::SubstrateChanged{EnclosureId("a"), records::Substrate::paper}},
                       first_round + Days(2), at_second(1, first_round + Days(2))));
    const auto then = keeper.situation(before->entry(), before->today()).value();
    EXPECT_EQ(then->entry(), before->entry());
    EXPECT_EQ(then->journal(), before->journal());
    EXPECT_NE(then->entry(), two_days_on()->entry());
    EXPECT_EQ(keeper.situation(two_days_on()->entry(), before->today()).value(), two_days_on());
}

TEST_F(OneSituation, answers_as_if_each_question_were_asked_afresh) {
    const auto today = two_days_on();
    const auto fresh = [&] { return afresh(today->today()); };
    ASSERT_TRUE(choose_plan(*today, few_draws()));
    ASSERT_TRUE(clearance_of(*today, few_looks()));
    EXPECT_EQ(rescore(*today, few_draws())->chance, rescore(*fresh(), few_draws())->chance);
    EXPECT_EQ(choose_plan(*today, few_draws())->choice.recommended.clear.mean,
              choose_plan(*fresh(), few_draws())->choice.recommended.clear.mean);
    const auto clear = clearance_of(*today, few_looks()).value();
    const auto anew = clearance_of(*fresh(), few_looks()).value();
    EXPECT_EQ(clear.outlook.points.front().checked.clear.mean,
              anew.outlook.points.front().checked.clear.mean);
    EXPECT_EQ(clear.at_low.points.back().checked.clear.p10, anew.at_low.points.back().checked.clear.p10);
    EXPECT_EQ(sure_of_today(*today, few_looks())->mean, anew.outlook.points.front().checked.clear.mean);
    const auto tasks = worklist_of(*today).value();
    const auto tasks_anew = worklist_of(*fresh()).value();
    ASSERT_EQ(tasks.tasks.size(), tasks_anew.tasks.size());
    for (std::size_t i = 0; i < tasks.tasks.size(); ++i)
        EXPECT_EQ(tasks.tasks[i].what, tasks_anew.tasks[i].what);
    EXPECT_EQ(tasks.late.rounds.size(), tasks_anew.late.rounds.size());
}

TEST_F(OneSituation, looks_back_to_other_days_as_they_were) {
    const auto today = two_days_on();
    ASSERT_TRUE(worklist_of(*today));
    for (const int back : {0, 1, 2, 60, 61}) {
        const units::Day day = today->today() - Days(back);
        const auto& then = today->collection_then(day);
        const auto alone = records::collection_on(today->journal(), day);
        EXPECT_EQ(then.day, day);
        EXPECT_EQ(then.animals.size(), alone.animals.size()) << back;
        EXPECT_EQ(then.enclosures.size(), alone.enclosures.size()) << back;
        EXPECT_EQ(then.sightings.size(), alone.sightings.size()) << back;
        EXPECT_EQ(then.plan.has_value(), alone.plan.has_value()) << back;
    }
}

TEST_F(OneSituation, a_cancelled_belief_is_not_kept) {
    const auto today = two_days_on();
    const auto cancelled = today->believed({8, 1}, [](double) { return false; });
    ASSERT_FALSE(cancelled);
    EXPECT_EQ(cancelled.error().kind, base::ErrorKind::conflict);
    const auto formed = today->believed({8, 1}, {});
    ASSERT_TRUE(formed);
    EXPECT_EQ(today->made().beliefs, 2) << "the second asker began anew";
    EXPECT_EQ((*formed)->belief.alive, afresh(today->today())->believed({8, 1}, {}).value()->belief.alive);
}

TEST_F(OneSituation, a_belief_stops_in_the_middle_of_its_work) {
    const auto today = two_days_on();
    std::atomic<int> asked = 0;
    EXPECT_FALSE(today->believed({64, 1}, [&](double) { return ++asked < 3; }));
    EXPECT_EQ(asked, 3) << "who said no is not asked again";
}

TEST_F(OneSituation, two_who_ask_at_once_share_what_is_made) {
    const auto today = two_days_on();
    std::shared_ptr<const Believed> found[2];
    double exposed[2] = {};
    const auto ask = [&](std::size_t who) {
        exposed[who] = static_cast<double>(overview_of(*today)->rooms.size());
        found[who] = today->believed({64, 1}, {}).value();
    };
    std::thread one(ask, 0);
    std::thread other(ask, 1);
    one.join();
    other.join();
    EXPECT_EQ(exposed[0], exposed[1]);
    EXPECT_EQ(found[0], found[1]) << "one belief for both";
    EXPECT_EQ(today->made().folds, 1);
    EXPECT_EQ(today->made().tracings, 1);
    EXPECT_EQ(today->made().beliefs, 1);
}

// The first asker gives up while the second waits for it: the second has the answer all the same.
TEST_F(OneSituation, who_waits_for_a_cancelled_belief_forms_it) {
    const auto today = two_days_on();
    std::atomic<bool> begun = false;
    std::atomic<bool> is_other_there = false;
    std::thread one([&] {
        EXPECT_FALSE(today->believed({64, 1}, [&](double) {
            begun = true;
            while (!is_other_there) std::this_thread::yield();
            return false;
        }));
    });
    while (!begun) std::this_thread::yield();
    const auto formed = today->believed({64, 1}, [&](double) {
        is_other_there = true;
        return true;
    });
    one.join();
    ASSERT_TRUE(formed);
    EXPECT_EQ(today->made().beliefs, 2);
}

}  // namespace
}  // namespace mitefall::service
