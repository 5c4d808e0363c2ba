#include "records/given.h"

#include <gtest/gtest.h>

#include "journal.h"

namespace mitefall::records {
namespace {

std::vector<FactId> entries_of(const Given& given) {
    std::vector<FactId> ids;
    for (const Entry& entry : given.entries) ids.push_back(entry.id);
    return ids;
}

Given given_in(const Journal& journal, const char* animal, units::Day today) {
    return given_to(AnimalId(animal), journal.entries, collection_on(journal.entries, today), units::Days(30))
        .value();
}

const auto weak = units::milligrams_per_litre(10);

TEST(Given, holds_what_was_given_to_it_and_done_where_it_lived_and_nothing_of_others) {
    Journal journal = small_collection();
    const FactId spray =
        journal.add(day(2, 1), Treated{EnclosureId("a"), {AnimalId("pim")}, Method::spray_animal, weak});
    const FactId bedding = journal.add(day(2, 2), Treated{EnclosureId("a"), {}, Method::spray_bedding, weak});
    journal.add(day(2, 2), Treated{EnclosureId("b"), {}, Method::spray_bedding, weak});
    const FactId room = journal.add(day(2, 3), RoomTreated{RoomId("snakes"), weak});
    const FactId moved = journal.add(day(2, 4), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    journal.add(day(2, 5), SubstrateChanged{EnclosureId("a"), Substrate::paper});
    const FactId paper = journal.add(day(2, 5), SubstrateChanged{EnclosureId("b"), Substrate::paper});
    EXPECT_EQ(entries_of(given_in(journal, "pim", day(2, 10))),
              (std::vector{spray, bedding, room, moved, paper}));
}

TEST(Given, goes_back_thirty_days_from_the_death_and_not_from_today) {
    Journal journal = small_collection();
    journal.add(day(1, 30), Weighed{AnimalId("pim"), units::grams(500)});
    const FactId in_time = journal.add(day(1, 31), Weighed{AnimalId("pim"), units::grams(480)});
    const FactId death = journal.add(day(3, 2), AnimalLeft{AnimalId("pim"), "", false, {}, LeftHow::died});
    const Given given = given_in(journal, "pim", day(5, 1));
    EXPECT_EQ(given.died, day(3, 2));
    EXPECT_EQ(given.to, day(3, 2));
    EXPECT_EQ(given.from, day(1, 31));  // 2026: 28 + 2 days
    EXPECT_EQ(entries_of(given), (std::vector{in_time, death}));
}

TEST(Given, of_an_animal_that_was_never_here_is_an_error) {
    const Journal journal = small_collection();
    const auto given = given_to(AnimalId("nobody"), journal.entries,
                                collection_on(journal.entries, day(2, 1)), units::Days(30));
    ASSERT_FALSE(given);
    EXPECT_EQ(given.error().kind, base::ErrorKind::not_found);
}

}  // namespace
}  // namespace mitefall::records
