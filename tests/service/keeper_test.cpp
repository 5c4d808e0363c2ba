#include "service/keeper.h"

#include <gtest/gtest.h>

#include "records/journal.h"
#include "store/scratch.h"

namespace mitefall::service {
namespace {

using records::day;
using records::EnclosureId;
using units::Day;

const Knowledge& knowledge() {
    static const Knowledge loaded = Knowledge::load().value();
    return loaded;
}

/// Two tubs in one room and their snakes, nothing else on record.
class KeeperFile : public store::Scratch {
  protected:
    KeeperFile() {
        for (const records::Entry& entry : records::small_collection().entries) put(entry.day, entry.fact);
    }

    void put(Day when, const records::Fact& fact) {
        const auto ids = keeper.record({fact}, when, on(when));
        if (!ids) throw std::runtime_error(ids.error().message());
    }

    static Now on(Day today) { return {today, units::format_day(today) + "T20:00:00Z"}; }

    Keeper keeper = Keeper::create(at("c").string(), knowledge()).value();
};

TEST_F(KeeperFile, without_a_plan_there_is_no_work) {
    const auto list = keeper.worklist(on(day(3, 1)));
    ASSERT_FALSE(list);
    EXPECT_EQ(list.error().kind, base::ErrorKind::not_found);
    EXPECT_NE(list.error().what.find("no plan"), std::string::npos);
}

TEST_F(KeeperFile, without_a_plan_a_dish_is_still_asked_for_when_due) {
    put(day(3, 1), records::WaterMoved{EnclosureId("b"), true});
    EXPECT_FALSE(keeper.worklist(on(day(3, 3)))) << "not due before day 3";
    const auto list = keeper.worklist(on(day(3, 4)));
    ASSERT_TRUE(list) << list.error().message();
    ASSERT_EQ(list->tasks.size(), 1U);
    EXPECT_EQ(list->tasks[0].kind, worklist::TaskKind::water_back);
    EXPECT_EQ(list->tasks[0].enclosure, EnclosureId("b"));
}

TEST_F(KeeperFile, a_dish_put_back_without_a_plan_is_back) {
    put(day(3, 1), records::WaterMoved{EnclosureId("b"), true});
    ASSERT_TRUE(keeper.tick("2026-03-04/water-back/b", on(day(3, 4))));
    EXPECT_FALSE(keeper.collection(day(3, 4))->enclosures.at(EnclosureId("b")).water_is_out);
    EXPECT_EQ(keeper.worklist(on(day(3, 4)))->tasks.at(0).state, worklist::TaskState::done);
    EXPECT_FALSE(keeper.worklist(on(day(3, 5))));
}

TEST_F(KeeperFile, origin_works_with_and_without_anything_seen) {
    const auto before = keeper.origin(8, 1, on(day(3, 1)));
    ASSERT_TRUE(before) << before.error().message();
    EXPECT_FALSE(before->belief.sighted);
    EXPECT_GT(before->belief.nothing_came, 0.5);
    put(day(3, 1),
        records::Checked{EnclosureId("a"), records::CheckMethod::look_over, records::SeenCount::none});
    EXPECT_EQ(keeper.origin(8, 1, on(day(3, 5)))->belief.looks, 1U);
    put(day(3, 2),
        records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    const auto after = keeper.origin(8, 1, on(day(3, 5)));
    EXPECT_TRUE(after->belief.sighted);
    EXPECT_EQ(after->belief.looks, 2U);
    EXPECT_EQ(after->belief.nothing_came, 0);
}

TEST_F(KeeperFile, origin_without_an_enclosure_says_what_to_do) {
    const auto empty = Keeper::create(at("empty").string(), knowledge()).value();
    const auto answer = empty.origin(8, 1, on(day(3, 1)));
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().kind, base::ErrorKind::not_found);
}

TEST_F(KeeperFile, a_treated_room_raises_the_chance) {
    put(day(3, 1),
        records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    put(day(3, 1), records::Weighed{records::AnimalId("pim"), units::grams(900)});
    put(day(3, 1), records::PlanAdopted{
                       {day(3, 1)}, {EnclosureId("a")}, {}, true, false, units::milligrams_per_litre(10)});
    PlanOptions options;
    options.draws = 8;
    const double before = keeper.rescore(options, on(day(3, 5)))->clear.mean;
    put(day(3, 5), records::RoomTreated{records::RoomId("snakes"), units::milligrams_per_litre(5000)});
    EXPECT_GT(keeper.rescore(options, on(day(3, 5)))->clear.mean, before);
}

}  // namespace
}  // namespace mitefall::service
