#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "records/journal.h"
#include "service/keeper.h"
#include "service/verdicts.h"
#include "service/worklist.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

// Rows that no program of ours wrote: said, set aside, and settled like any other entry.
namespace mitefall::service {
namespace {

using records::AnimalId;
using records::day;
using records::EnclosureId;
using units::Day;

class Damaged : public store::Scratch {
  protected:
    Damaged() {
        for (const records::Entry& entry : records::small_collection().entries)
            keeper.record({entry.fact}, entry.day, on(entry.day)).value();
        keeper.record({records::Weighed{AnimalId("pim"), units::grams(1500)}}, day(3, 1), on(day(3, 1)))
            .value();
    }

    static Now on(Day today) { return {today, units::format_day(today) + "T20:00:00Z"}; }

    /// Gives the number of the entry.
    records::FactId put(const std::string& kind, const std::string& body) const {
        SQLite::Database raw(at("c").string(), SQLite::OPEN_READWRITE);
        SQLite::Statement insert(
            raw, "INSERT INTO fact (day, recorded_at, kind, body) VALUES ('2026-03-02', '', ?, ?)");
        insert.bind(1, kind);
        insert.bind(2, body);
        insert.exec();
        return raw.getLastInsertRowid();
    }

    std::vector<records::FactId> damage() const {
        std::vector<records::FactId> entries;
        const auto found = keeper.damage().value();
        for (const records::SetAside& one : found) entries.push_back(one.entry);
        return entries;
    }

    /// Rulings of the verdicts that would permit.
    std::size_t permitted() const {
        const auto verdicts = keeper.ask(on(day(3, 5)), verdicts_of, usual_strength(knowledge())).value();
        return static_cast<std::size_t>(std::count_if(verdicts.begin(), verdicts.end(), safety::permits));
    }

    Keeper keeper = Keeper::create(at("c").string(), knowledge()).value();
};

TEST_F(Damaged, is_said_and_all_else_goes_on_being_read_and_written) {
    const auto unread = put("weighed", R"({"animal":"pim","mass_g":"heavy"})");
    const auto twice = put("room-added", R"({"room":"snakes","name":"","day_c":28,"night_c":25,)"
                                         R"("humidity_percent":50,"adjoining":[],"floor_cm2":90000})");
    EXPECT_EQ(damage(), (std::vector<records::FactId>{unread, twice}));
    EXPECT_EQ(keeper.damage()->front().why.where, "entry 7 of 2026-03-02, mass_g");
    EXPECT_EQ(keeper.collection(day(3, 5))->animals.size(), 2U);
    EXPECT_EQ(keeper.last_entry().value(), twice);
    EXPECT_TRUE(
        keeper.record({records::Weighed{AnimalId("pim"), units::grams(1510)}}, day(3, 5), on(day(3, 5))));
    EXPECT_EQ(Keeper::open(at("c").string(), knowledge())->damage()->size(), 2U)
        << "also for who comes later";
    EXPECT_TRUE(keeper.ask(on(day(3, 5)), overview_of));
}

TEST_F(Damaged, nothing_is_permitted_on_what_may_speak_against_it_until_it_is_settled) {
    const std::size_t before = permitted();
    ASSERT_GT(before, 0U);
    const auto entry = put("treated", R"({"enclosure":"a","animals":["nobody"],"method":"spray-animal",)"
                                      R"("strength_mg_per_l":10})");
    EXPECT_EQ(permitted(), 0U);
    ASSERT_TRUE(
        keeper.record({records::VetDirection{AnimalId("pim"), records::Method::soak, "vet", "soak it"}},
                      day(3, 3), on(day(3, 3))));
    EXPECT_EQ(permitted(), 0U) << "no direction stands in for a fact";
    const auto undone = keeper.withdraw({entry}, "damaged", on(day(3, 5)));
    ASSERT_TRUE(undone) << undone.error().message();
    EXPECT_EQ(damage(), std::vector<records::FactId>{});
    EXPECT_GE(permitted(), before);
}

TEST_F(Damaged, is_put_right_by_a_correction_also_where_it_cannot_be_read) {
    const auto entry = put("weighed", R"({"animal":"pim"})");
    const records::Weighed right{AnimalId("pim"), units::grams(1480)};
    ASSERT_TRUE(keeper.correct(entry, right, day(3, 2), on(day(3, 5))));
    EXPECT_EQ(damage(), std::vector<records::FactId>{});
    EXPECT_EQ(keeper.collection(day(3, 5))->animals.at(AnimalId("pim")).weight->value, right.mass);
}

TEST_F(Damaged, undo_takes_back_what_was_recorded_last_and_not_what_is_damaged) {
    static_cast<void>(put("weighed", R"({"animal":"pim"})"));
    const auto undone = keeper.undo(on(day(3, 5)), keeper.last_entry().value());
    ASSERT_TRUE(undone) << undone.error().message();
    ASSERT_EQ(undone->size(), 1U);
    EXPECT_EQ(undone->front().id, 6);
    EXPECT_EQ(damage().size(), 1U);
}

TEST_F(Damaged, a_piece_of_work_that_fails_leaves_no_trace_in_what_is_known) {
    static_cast<void>(put("animal-moved", R"({"animal":"nobody","to":"a"})"));
    const auto before = keeper.journal().value();
    const auto failed = keeper.alone([&]() -> base::Result<int> {
        keeper.record({records::Weighed{AnimalId("pim"), units::grams(1)}}, day(3, 5), on(day(3, 5))).value();
        static_cast<void>(keeper.journal());
        return base::fail({});
    });
    EXPECT_FALSE(failed);
    EXPECT_EQ(keeper.journal().value(), before);
    EXPECT_EQ(damage().size(), 1U);
    EXPECT_TRUE(
        keeper.record({records::Weighed{AnimalId("pim"), units::grams(2)}}, day(3, 5), on(day(3, 5))));
}

// A list shown before the entry that mended another was written: the journal cut there does not fold, and a
// tap from it is answered all the same.
TEST_F(Damaged, a_list_of_before_can_still_be_tapped) {
    put("water-moved", R"({"enclosure":"c","out":true})");
    ASSERT_EQ(damage().size(), 1U);
    const auto seen = keeper.last_entry().value();
    SQLite::Database raw(at("c").string(), SQLite::OPEN_READWRITE);
    raw.exec(R"(INSERT INTO fact (day, recorded_at, kind, body) VALUES ('2026-03-01', '', 'enclosure-added',
        '{"enclosure":"c","name":"","room":"snakes","material":"sealed","substrate":"paper","day_c":28,"night_c":25,)"
             R"("humidity_percent":50,"floor_cm2":4000}'))");
    EXPECT_EQ(damage(), std::vector<records::FactId>{}) << "it fits now";
    const auto list = keeper.ask(on(day(3, 6)), worklist_of);
    ASSERT_TRUE(list) << list.error().message();
    ASSERT_FALSE(list->tasks.empty());
    const auto tapped = keeper.tick({list->tasks.front().key, std::nullopt, seen}, on(day(3, 6)));
    EXPECT_FALSE(tapped) << "it was not there then";
    EXPECT_EQ(tapped.error().kind, base::ErrorKind::conflict);
}

}  // namespace
}  // namespace mitefall::service
