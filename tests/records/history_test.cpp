#include "records/history.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "journal.h"

namespace mitefall::records {
namespace {

const AnimalId pim("pim");
const EnclosureId a("a");
const EnclosureId b("b");

TEST(History, where_an_animal_was) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalMoved{pim, b});
    journal.add(day(3, 1), AnimalLeft{pim, "sold"});
    EXPECT_EQ(where_was(journal.entries, pim, day(1, 1) - units::Days(1)), std::nullopt);
    EXPECT_EQ(where_was(journal.entries, pim, day(1, 31)), a);
    EXPECT_EQ(where_was(journal.entries, pim, day(2, 1)), b);
    EXPECT_EQ(where_was(journal.entries, pim, day(3, 1)), std::nullopt);
    EXPECT_EQ(where_was(journal.entries, AnimalId("nobody"), day(2, 1)), std::nullopt);
}

TEST(History, stays_end_where_the_next_begins) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalMoved{pim, b});
    journal.add(day(3, 1), AnimalLeft{pim, "sold"});
    const std::vector<Stay> expected{{pim, a, day(1, 1), day(2, 1)},
                                     {AnimalId("juno"), b, day(1, 1), std::nullopt},
                                     {pim, b, day(2, 1), day(3, 1)}};
    EXPECT_EQ(stays(journal.entries), expected);
}

TEST(History, stays_in_an_enclosure_over_some_days) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalMoved{pim, b});
    EXPECT_EQ(stays_in(journal.entries, b, day(1, 1), day(1, 31)).size(), 1U);
    EXPECT_EQ(stays_in(journal.entries, b, day(1, 1), day(2, 1)).size(), 2U);
    EXPECT_EQ(stays_in(journal.entries, a, day(2, 1), day(3, 1)).size(), 1U)
        << "there until the day it was moved";
    EXPECT_TRUE(stays_in(journal.entries, a, day(2, 2), day(3, 1)).empty());
}

// The fold is the independent second way to ask the same question.
TEST(History, agrees_with_the_fold_on_every_day) {
    EXPECT_TRUE(rc::check("where_was is the enclosure of the folded collection", [] {
        Journal journal = small_collection();
        const int moves = *rc::gen::inRange(0, 12);
        for (int i = 0; i < moves; ++i) {
            const Day when = day(1, 1) + units::Days(*rc::gen::inRange(0, 40));
            const AnimalId who = *rc::gen::element(pim, AnimalId("juno"));
            Fact fact = AnimalMoved{who, *rc::gen::element(a, b)};
            if (*rc::gen::inRange(0, 5) == 0) fact = AnimalLeft{who, ""};
            if (*rc::gen::inRange(0, 5) == 0) fact = snake(who.text().c_str(), "b");
            std::ignore = journal.try_add(when, fact);
        }
        for (int i = 0; i <= 40; ++i) {
            const Day when = day(1, 1) + units::Days(i);
            const Collection collection = collection_on(journal.entries, when);
            for (const AnimalId& who : {pim, AnimalId("juno")}) {
                const auto found = collection.animals.find(who);
                const auto place = where_was(journal.entries, who, when);
                RC_ASSERT(place.has_value() == (found != collection.animals.end()));
                if (place) RC_ASSERT(*place == found->second.enclosure);
            }
        }
    }));
}

}  // namespace
}  // namespace mitefall::records
