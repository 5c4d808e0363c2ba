#include <gtest/gtest.h>

#include "service/adopted.h"
#include "service/late.h"
#include "service/rescore.h"
#include "service/worklist.h"
#include "shared/knowledge.h"
#include "shared/two_tubs.h"
#include "store/scratch.h"

// A late round: its chances, and the course put to other days. A check is answered.
namespace mitefall::service {
namespace {

using base::ErrorKind;
using records::AnimalId;
using records::EnclosureId;
using units::Days;
using worklist::CatchUp;
using worklist::CheckAnswer;

PlanOptions eight_draws() {
    PlanOptions options;
    options.draws = 8;
    return options;
}

class KeeperLate : public store::Scratch {
  protected:
    KeeperLate() {
        records::PlanAdopted plan = keeper.collection(first_round)->plan->value;
        plan.rounds = {first_round, first_round + Days(7), first_round + Days(14)};
        plan.terms.scope = "sighted-rooms";
        plan.terms.treatments = {{"2026-03-01/animal/pim",
                                  first_round,
                                  first_round,
                                  {},
                                  EnclosureId("a"),
                                  {AnimalId("pim")},
                                  records::Method::spray_animal}};
        must(keeper.record({plan}, first_round, at_second(1)));
    }
    static Now on(int days, int second = 2) { return at_second(second, first_round + Days(days)); }
    static std::string key(int days, const std::string& rest) {
        return units::format_day(first_round + Days(days)) + "/" + rest;
    }
    bool lists(const std::string& wanted, const Now& now) {
        const auto tasks = keeper.ask(now, worklist_of).value().tasks;
        return std::any_of(tasks.begin(), tasks.end(), [&](const auto& task) { return task.key == wanted; });
    }

    Keeper keeper = make_two_tubs(at("c").string(), knowledge());
};

TEST_F(KeeperLate, a_late_round_is_told_with_its_chances) {
    EXPECT_EQ(keeper.ask(on(0), late_chances_of, eight_draws()).error().kind, ErrorKind::not_found);
    const auto list = keeper.ask(on(3), worklist_of).value();
    ASSERT_EQ(list.late.rounds.size(), 1u);
    EXPECT_EQ(list.late.rounds.front().planned, first_round);
    const LateChances chances = keeper.ask(on(3), late_chances_of, eight_draws()).value();
    EXPECT_EQ(chances.stood_on, first_round);
    EXPECT_EQ(chances.stood->mean, keeper.ask(on(0), rescore, eight_draws())->clear.mean)
        << "what the keeper was told on that day";
    ASSERT_TRUE(chances.move);
}

TEST_F(KeeperLate, what_was_told_beforehand_is_what_is_told_once_it_is_adopted) {
    for (const CatchUp how : {CatchUp::today, CatchUp::move}) {
        const LateChances chances = keeper.ask(on(5), late_chances_of, eight_draws()).value();
        const double told = how == CatchUp::today ? chances.today.mean : chances.move->mean;
        ASSERT_TRUE(keeper.catch_up(how, on(5)));
        EXPECT_EQ(keeper.ask(on(5), rescore, eight_draws())->clear.mean, told) << worklist::to_text(how);
        ASSERT_TRUE(keeper.undo(on(5, 3)));
    }
}

TEST_F(KeeperLate, the_course_goes_on_in_full_and_undo_brings_the_old_days_back) {
    ASSERT_TRUE(keeper.tick({key(0, "animal/pim")}, on(0)));
    ASSERT_TRUE(keeper.catch_up(CatchUp::move, on(5)));
    const auto plan = keeper.ask(on(5), adopted_course).value().value;
    EXPECT_EQ(plan.rounds,
              (std::vector{first_round + Days(5), first_round + Days(12), first_round + Days(19)}));
    EXPECT_TRUE(plan.continues);
    EXPECT_EQ(keeper.collection(first_round + Days(5))->course_since(), first_round);
    const auto& treatments = plan.terms.treatments;
    const auto has = [&](const std::string& task) {
        return std::any_of(treatments.begin(), treatments.end(),
                           [&](const auto& one) { return one.task == task; });
    };
    EXPECT_TRUE(has(key(5, "bedding/b")));
    EXPECT_TRUE(has(key(19, "animal/pim")));
    EXPECT_FALSE(has(key(5, "animal/pim"))) << "done already";
    EXPECT_TRUE(lists(key(5, "bedding/b"), on(5)));
    EXPECT_FALSE(lists(key(5, "animal/pim"), on(5)));
    ASSERT_TRUE(keeper.undo(on(5, 3)));
    EXPECT_EQ(keeper.ask(on(5), adopted_course).value().value.rounds.front(), first_round);
    EXPECT_EQ(keeper.ask(on(5), worklist_of).value().late.rounds.size(), 1u);
}

TEST_F(KeeperLate, an_order_means_what_its_reader_saw) {
    const auto seen = keeper.last_entry().value();
    ASSERT_TRUE(
        keeper.record({records::Weighed{AnimalId("pim"), units::grams(910)}}, first_round + Days(5), on(5)));
    ASSERT_TRUE(keeper.catch_up(CatchUp::today, on(5), seen)) << "nothing about it changed";
    EXPECT_EQ(keeper.catch_up(CatchUp::today, on(5, 4), seen).error().kind, ErrorKind::conflict);
    EXPECT_EQ(keeper.catch_up(CatchUp::today, on(5, 4)).error().kind, ErrorKind::not_found);
}

TEST_F(KeeperLate, a_check_without_an_answer_is_refused_and_nothing_is_written) {
    const std::string check = key(7, "check/a");
    const auto before = keeper.last_entry().value();
    EXPECT_EQ(keeper.tick({check}, on(7)).error().kind, ErrorKind::invalid_input);
    const auto tap = [&](CheckAnswer answer, const std::string& of) { return Tap{of, {}, {}, answer}; };
    EXPECT_EQ(keeper.tick(tap({records::SeenCount::few, {}}, check), on(7)).error().where, "where");
    EXPECT_EQ(keeper.tick(tap({}, key(7, "bedding/a")), on(7)).error().where, "found");
    EXPECT_EQ(keeper.last_entry().value(), before);
}

TEST_F(KeeperLate, a_find_at_a_check_is_one_entry_and_a_sighting) {
    const std::string check = key(7, "check/b");
    const CheckAnswer some{records::SeenCount::few, records::SeenWhere::on_paper};
    const auto ticked = keeper.tick({check, {}, {}, some}, on(7)).value();
    EXPECT_EQ(ticked.entries.size(), 2u) << "the check and its mark";
    const auto today = keeper.collection(first_round + Days(7)).value();
    EXPECT_EQ(today.sightings.back().value.enclosure, EnclosureId("b"));
    EXPECT_EQ(today.sightings.back().value.where, records::SeenWhere::on_paper);
    EXPECT_TRUE(keeper.tick({check, {}, {}, some}, on(7, 3))->already);
    const auto other = keeper.tick({check, {}, {}, CheckAnswer{}}, on(7, 3));
    ASSERT_FALSE(other) << "neither answer is lost unsaid";
    EXPECT_EQ(other.error().kind, ErrorKind::conflict);
    ASSERT_TRUE(keeper.reopen({check}, on(7, 4)));
    EXPECT_EQ(keeper.collection(first_round + Days(7))->sightings.size(), 1u);
}

}  // namespace
}  // namespace mitefall::service
