#include "records/thing.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "journal.h"

// What may be done with which thing, and what is on record of it.
namespace mitefall::records {
namespace {

bool may(ThingKind kind, ThingMethod method) { return row_of(kind).may.contains(method); }

// Electricity and water, and an oven or a freezer for a plug: nobody's handbook allows it.
TEST(Things, what_hangs_on_the_mains_goes_into_no_water_oven_or_freezer) {
    for (const ThingRow& row : thing_rows) {
        if (!row.is_electric) continue;
        for (const ThingMethod method : {ThingMethod::wash_hot, ThingMethod::dry_heat, ThingMethod::freeze})
            EXPECT_FALSE(row.may.contains(method)) << row.key;
    }
    EXPECT_TRUE(row_of(ThingKind::cable).is_electric);
    EXPECT_TRUE(row_of(ThingKind::heat_mat).is_electric);
}

// Washing does not reach the cracks of wood, and a spray stays in it (docs/decisions/0048, rule
// wood_keeps_mites).
TEST(Things, wood_is_neither_merely_washed_nor_sprayed) {
    for (const ThingKind wood : {ThingKind::cork, ThingKind::branch}) {
        EXPECT_FALSE(may(wood, ThingMethod::wash_hot));
        EXPECT_FALSE(may(wood, ThingMethod::spray_and_air));
        EXPECT_EQ(row_of(wood).may.usual(), ThingMethod::dry_heat);
    }
}

TEST(Things, what_an_animal_drinks_from_or_lies_in_is_not_sprayed) {
    for (const ThingKind kind : {ThingKind::bowl, ThingKind::bag, ThingKind::foliage})
        EXPECT_FALSE(may(kind, ThingMethod::spray_and_air));
}

TEST(Things, every_kind_has_a_way_each_once_and_is_named_for_people) {
    std::set<std::string_view> names;
    for (const ThingRow& row : thing_rows) {
        EXPECT_GE(row.may.count, 1U) << row.key;
        EXPECT_EQ(std::set<ThingMethod>(row.may.begin(), row.may.end()).size(), row.may.count) << row.key;
        EXPECT_TRUE(names.insert(row.name).second) << row.key;
    }
}

class Shelf {
  public:
    Journal journal = small_collection();
    const EnclosureId tub{"a"};
    const ThingId hide{"a-hide"};

    [[nodiscard]] base::Result<void> ask(Fact fact, Day when = day(2, 3)) const {
        const Entry entry{static_cast<FactId>(journal.entries.size()) + 1, when, "2026-02-03T08:00:00Z",
                          std::move(fact), std::nullopt};
        return check_fact(journal.entries, entry, day(3, 1));
    }
    [[nodiscard]] Thing thing() const { return collection_on(journal.entries, day(3, 1)).things.at(hide); }
};

TEST(Things, are_kept_in_one_place_and_under_one_name) {
    Shelf shelf;
    EXPECT_TRUE(shelf.ask(ThingKept{shelf.hide, ThingKind::hide, shelf.tub, {}}).has_value());
    EXPECT_FALSE(shelf.ask(ThingKept{shelf.hide, ThingKind::hide, {}, {}}).has_value());
    EXPECT_FALSE(shelf.ask(ThingKept{shelf.hide, ThingKind::hide, shelf.tub, RoomId("snakes")}).has_value());
    shelf.journal.add(day(2, 1), ThingKept{shelf.hide, ThingKind::hide, shelf.tub, {}});
    EXPECT_EQ(shelf.ask(ThingKept{shelf.hide, ThingKind::hide, EnclosureId("b"), {}}).error().kind,
              base::ErrorKind::already_exists);
    EXPECT_TRUE(
        shelf.ask(ThingKept{shelf.hide, ThingKind::hide, shelf.tub, {}, ThingMethod::freeze}).has_value());
}

TEST(Things, are_given_only_what_suits_their_kind) {
    Shelf shelf;
    const auto cable = [&](std::optional<ThingMethod> by) {
        return shelf.ask(ThingKept{shelf.hide, ThingKind::cable, shelf.tub, {}, by});
    };
    EXPECT_TRUE(cable(ThingMethod::spray_and_air).has_value());
    const auto refused = cable(ThingMethod::wash_hot);
    ASSERT_FALSE(refused.has_value());
    EXPECT_NE(refused.error().message().find("spray-and-air, throw-away"), std::string::npos);
    shelf.journal.add(day(2, 1), ThingKept{shelf.hide, ThingKind::cork, shelf.tub, {}});
    EXPECT_FALSE(shelf.ask(ThingTreated{shelf.hide, ThingMethod::wash_hot}).has_value());
    EXPECT_TRUE(shelf.ask(ThingTreated{shelf.hide, ThingMethod::freeze}).has_value());
    EXPECT_FALSE(shelf.ask(ThingTreated{ThingId("b-hide"), ThingMethod::freeze}).has_value());
}

TEST(Things, that_were_thrown_away_are_gone_and_their_name_is_free) {
    Shelf shelf;
    shelf.journal.add(day(2, 1), ThingKept{shelf.hide, ThingKind::card_box, shelf.tub, {}});
    shelf.journal.add(day(2, 2), ThingTreated{shelf.hide, ThingMethod::throw_away});
    EXPECT_EQ(shelf.thing().gone, day(2, 2));
    EXPECT_FALSE(shelf.ask(ThingTreated{shelf.hide, ThingMethod::throw_away}).has_value());
    EXPECT_FALSE(shelf.ask(ThingGone{shelf.hide}).has_value());
    shelf.journal.add(day(2, 3), ThingKept{shelf.hide, ThingKind::hide, EnclosureId("b"), {}});
    EXPECT_FALSE(shelf.thing().gone);
    EXPECT_TRUE(shelf.thing().treated.empty());
    shelf.journal.add(day(2, 4), ThingGone{shelf.hide});
    EXPECT_EQ(shelf.thing().gone, day(2, 4));
}

}  // namespace
}  // namespace mitefall::records
