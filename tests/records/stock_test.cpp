#include <gtest/gtest.h>

#include "journal.h"

// Bottles to mix from: put on record once, said to be plain, gone once; a batch names one that is there.
namespace mitefall::records {
namespace {

StockKept bottle(const char* name = "iver-1") {
    return {StockId(name), units::percent_mass_in_volume(1), true, day(12, 31)};
}

BatchMade batch_from(const char* stock) {
    return {BatchId("b-1"),
            "ivermectin",
            units::percent_mass_in_volume(1),
            units::millilitres(1),
            units::litres(1),
            units::milligrams_per_litre(10),
            units::milligrams_per_litre(9.95),
            units::milligrams_per_litre(10.05),
            day(6, 15),
            "1 x 1.00 mL",
            StockId(stock)};
}

TEST(Stocks, are_there_once_and_gone_once) {
    Journal journal = small_collection();
    ASSERT_TRUE(journal.try_add(day(6, 1), bottle()));
    EXPECT_FALSE(journal.try_add(day(6, 1), bottle())) << "the name is taken";
    ASSERT_TRUE(journal.try_add(day(6, 1), bottle("iver-2")));
    EXPECT_FALSE(journal.try_add(day(6, 2), StockGone{StockId("iver-3")})) << "never was there";
    ASSERT_TRUE(journal.try_add(day(6, 2), StockGone{StockId("iver-1")}));
    EXPECT_FALSE(journal.try_add(day(6, 3), StockGone{StockId("iver-1")})) << "gone already";
    EXPECT_FALSE(journal.try_add(day(6, 3), bottle())) << "a name stands for one bottle for ever";
}

TEST(Stocks, that_nothing_may_be_mixed_from_are_refused) {
    const auto refused = [](auto change) {
        StockKept kept = bottle();
        change(kept);
        Journal journal = small_collection();
        return !journal.try_add(day(6, 1), kept);
    };
    EXPECT_FALSE(refused([](StockKept&) {}));
    EXPECT_FALSE(refused([](StockKept& s) { s.expires.reset(); })) << "no last day on its label";
    EXPECT_TRUE(refused([](StockKept& s) { s.plain = false; }));
    EXPECT_TRUE(refused([](StockKept& s) { s.expires = day(5, 31); })) << "past its day";
    EXPECT_TRUE(refused([](StockKept& s) { s.strength = units::Strength{}; }));
    EXPECT_TRUE(refused([](StockKept& s) { s.stock = StockId("Iver 1"); }));
}

TEST(Stocks, are_named_by_a_batch_only_while_they_are_there) {
    Journal journal = small_collection();
    EXPECT_FALSE(journal.try_add(day(6, 1), batch_from("iver-1")));
    ASSERT_TRUE(journal.try_add(day(6, 1), bottle()));
    Journal later = journal;
    EXPECT_TRUE(journal.try_add(day(6, 1), batch_from("iver-1")));
    ASSERT_TRUE(later.try_add(day(6, 2), StockGone{StockId("iver-1")}));
    EXPECT_FALSE(later.try_add(day(6, 3), batch_from("iver-1")));
    EXPECT_TRUE(later.try_add(day(6, 3), batch_from(""))) << "of a bottle that is not on record";
}

}  // namespace
}  // namespace mitefall::records
