#include <gtest/gtest.h>

#include <cmath>

#include "journal.h"

// Bottles of spray on record: made once, discarded once, never past their time when made.
namespace mitefall::records {
namespace {

BatchMade bottle(const char* name = "b-1") {
    return {BatchId(name),
            "ivermectin",
            units::percent_mass_in_volume(1),
            units::millilitres(1),
            units::litres(1),
            units::milligrams_per_litre(10),
            units::milligrams_per_litre(9.95),
            units::milligrams_per_litre(10.05),
            day(6, 15),
            "1 x 1.00 mL"};
}

TEST(Batches, are_made_and_discarded_once) {
    Journal journal = small_collection();
    ASSERT_TRUE(journal.try_add(day(6, 1), bottle()));
    EXPECT_FALSE(journal.try_add(day(6, 1), bottle())) << "the name is taken";
    EXPECT_FALSE(journal.try_add(day(6, 2), BatchDiscarded{BatchId("b-2"), ""}));
    ASSERT_TRUE(journal.try_add(day(6, 2), BatchDiscarded{BatchId("b-1"), "pharmacy"}));
    EXPECT_FALSE(journal.try_add(day(6, 2), BatchDiscarded{BatchId("b-1"), ""}));
}

TEST(Batches, that_cannot_be_are_refused) {
    const auto refused = [](auto change) {
        BatchMade made = bottle();
        change(made);
        Journal journal = small_collection();
        return !journal.try_add(day(6, 1), made);
    };
    const auto mg_per_l = [](double x) { return units::milligrams_per_litre(x); };
    EXPECT_FALSE(refused([](BatchMade&) {}));
    EXPECT_TRUE(refused([](BatchMade& b) { b.batch = BatchId("B 1"); }));
    EXPECT_TRUE(refused([](BatchMade& b) { b.agent.clear(); }));
    EXPECT_TRUE(refused([](BatchMade& b) { b.discard_by = day(5, 31); })) << "past its time when made";
    EXPECT_TRUE(refused([](BatchMade& b) { b.total = units::millilitres(0.5); }))
        << "holds less than its stock";
    EXPECT_TRUE(refused([](BatchMade& b) { b.total = units::litres(1e6); }));
    EXPECT_TRUE(refused([](BatchMade& b) { b.stock = units::millilitres(-1); }));
    EXPECT_TRUE(refused([&](BatchMade& b) { b.strength = mg_per_l(0); }));
    EXPECT_TRUE(refused([&](BatchMade& b) { b.strength = mg_per_l(std::nan("")); }));
    EXPECT_TRUE(refused([&](BatchMade& b) { b.low = mg_per_l(10.01); }));
    EXPECT_TRUE(refused([&](BatchMade& b) { b.high = mg_per_l(20000); })) << "stronger than its stock";
}

}  // namespace
}  // namespace mitefall::records
