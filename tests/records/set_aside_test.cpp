#include "records/set_aside.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "journal.h"

namespace mitefall::records {
namespace {

std::vector<FactId> numbers(const std::vector<SetAside>& damage) {
    std::vector<FactId> ids;
    for (const SetAside& one : damage) ids.push_back(one.entry);
    return ids;
}

std::vector<FactId> aside(std::vector<Entry>& journal, const Unreadable& unreadable = {}) {
    auto found = set_aside(journal, unreadable);
    return found ? numbers(*found) : std::vector<FactId>{-1};
}

/// A journal of a sound collection to which rows are added that nobody checked.
struct Damaged {
    std::vector<Entry> entries = small_collection().entries;  // 1 to 5
    void put(Fact fact, std::optional<FactId> corrects = {}, Day when = day(3, 1)) {
        entries.push_back({static_cast<FactId>(entries.size()) + 1, when, "2026-03-01T20:00:00Z",
                           std::move(fact), corrects});
    }
};

const Weighed heavy{AnimalId("pim"), units::grams(1500)};

TEST(SetAside, a_sound_journal_has_none) {
    Damaged journal;
    journal.put(heavy);
    journal.put(Weighed{AnimalId("pim"), units::grams(150)}, 6);
    journal.put(Withdrawn{"by mistake"}, 7);
    const std::vector<Entry> before = journal.entries;
    EXPECT_EQ(aside(journal.entries), std::vector<FactId>{});
    EXPECT_EQ(journal.entries, before);
}

TEST(SetAside, what_contradicts_is_named_and_the_rest_folds) {
    Damaged journal;
    journal.put(room("snakes"));
    journal.put(AnimalMoved{AnimalId("nobody"), EnclosureId("a")});
    journal.put(heavy);
    const auto found = set_aside(journal.entries, {});
    ASSERT_TRUE(found);
    EXPECT_EQ(numbers(*found), (std::vector<FactId>{6, 7}));
    EXPECT_EQ(found->front().why.kind, base::ErrorKind::damaged);
    EXPECT_EQ(found->front().why.where, "entry 6 of 2026-03-01");
    EXPECT_NE(found->front().why.what.find("taken"), std::string::npos);
    EXPECT_NE(found->front().why.remedy.find("withdraw entry 6"), std::string::npos);
    const Collection today = collection_on(journal.entries, day(3, 2));
    EXPECT_EQ(today.animals.at(AnimalId("pim")).weight->value, units::grams(1500));
    EXPECT_EQ(today.rooms.size(), 1U);
    EXPECT_EQ(today.unsettled, (std::vector<FactId>{7})) << "a second room says nothing of animals";
}

TEST(SetAside, amounts_that_are_impossible_do_not_count) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<Fact> impossible{
        Weighed{AnimalId("pim"), units::grams(-5)},
        Weighed{AnimalId("pim"), units::grams(nan)},
        Treated{
            EnclosureId("a"), {AnimalId("pim")}, Method::spray_animal, units::milligrams_per_litre(1e300)},
        Treated{EnclosureId("a"), {AnimalId("pim"), AnimalId("pim")}, Method::soak, {}},
        RoomAdded{RoomId("x\x1b[2J"), "", warm, {}, units::square_metres(12)},
        EnclosureAdded{EnclosureId("c"), "", RoomId("snakes"), Material::sealed, Substrate::loose, warm, {}}};
    for (const Fact& fact : impossible) {
        Damaged journal;
        journal.put(fact);
        EXPECT_EQ(aside(journal.entries), (std::vector<FactId>{6})) << fact.index();
    }
}

TEST(SetAside, what_it_replaced_is_in_force_again) {
    Damaged journal;
    journal.put(heavy);
    journal.put(Weighed{AnimalId("pim"), units::grams(-5)}, 6);
    EXPECT_EQ(aside(journal.entries), (std::vector<FactId>{7}));
    EXPECT_EQ(collection_on(journal.entries, day(3, 2)).animals.at(AnimalId("pim")).weight->entry, 6);
}

TEST(SetAside, it_is_settled_once_it_is_withdrawn_or_put_right) {
    Damaged journal;
    journal.put(AnimalMoved{AnimalId("nobody"), EnclosureId("a")});
    ASSERT_EQ(aside(journal.entries), (std::vector<FactId>{6}));
    const Entry withdrawal{7, day(3, 2), "", Withdrawn{"damaged"}, 6};
    EXPECT_TRUE(check_fact(journal.entries, withdrawal, day(3, 2)));
    journal.entries.push_back(withdrawal);
    EXPECT_EQ(aside(journal.entries), std::vector<FactId>{});
    journal.entries.back().fact = heavy;
    EXPECT_EQ(aside(journal.entries), std::vector<FactId>{});
    EXPECT_TRUE(collection_on(journal.entries, day(3, 2)).unsettled.empty());
}

TEST(SetAside, what_could_not_be_read_holds_treatment_up_until_it_is_withdrawn) {
    Damaged journal;
    journal.put(Withdrawn{"this entry cannot be read"});
    const Unreadable unreadable{
        {6, {base::ErrorKind::damaged, "not a number", "\"heavy\"", "", "", "fact 6, mass_g"}}};
    const auto found = set_aside(journal.entries, unreadable);
    ASSERT_TRUE(found);
    ASSERT_EQ(found->size(), 1U);
    EXPECT_EQ(found->front().why.where, "entry 6 of 2026-03-01, mass_g");
    EXPECT_EQ(collection_on(journal.entries, day(3, 2)).unsettled, (std::vector<FactId>{6}));
    const Entry withdrawal{7, day(3, 2), "", Withdrawn{"damaged"}, 6};
    ASSERT_TRUE(check_fact(journal.entries, withdrawal, day(3, 2))) << "though it is told as a withdrawal";
    journal.entries.push_back(withdrawal);
    EXPECT_EQ(aside(journal.entries, unreadable), std::vector<FactId>{});
}

TEST(SetAside, an_entry_is_replaced_once_and_only_by_a_later_one) {
    Damaged journal;
    journal.put(heavy);
    journal.put(Weighed{AnimalId("pim"), units::grams(150)}, 6);
    journal.put(Weighed{AnimalId("pim"), units::grams(15)}, 6);
    journal.put(heavy, 9);
    journal.put(heavy, 11);
    EXPECT_EQ(aside(journal.entries), (std::vector<FactId>{8, 9, 10}));
}

// Any rows at all: the rest folds on every day, each entry set aside is named once, and doing it again
// changes nothing.
RC_GTEST_PROP(SetAsideProperties, whatever_stands_in_a_journal_the_rest_folds, ()) {
    const auto named = [](const char* kind) {
        return std::string(kind) + std::to_string(*rc::gen::inRange(0, 3));
    };
    std::vector<Entry> journal = small_collection().entries;
    const int count = *rc::gen::inRange(0, 25);
    for (int i = 0; i < count; ++i) {
        const EnclosureId enclosure(*rc::gen::element<std::string>("a", "b", named("t")));
        const AnimalId animal(*rc::gen::element<std::string>("pim", "lou", named("s")));
        const std::vector<Fact> choices{
            room(named("r").c_str()),
            tub(enclosure.text().c_str(), *rc::gen::element("snakes", "r0", "r1")),
            snake(animal.text().c_str(), enclosure.text().c_str()),
            AnimalMoved{animal, enclosure},
            AnimalLeft{animal, ""},
            Weighed{animal, units::grams(*rc::gen::inRange(-100, 3000))},
            Treated{enclosure, {animal}, Method::soak, {}},
            QuarantineEnded{animal, ""},
            Withdrawn{""},
            ConditionNoted{animal, Condition::sick, *rc::gen::arbitrary<bool>(), "", ""}};
        std::optional<FactId> corrects;
        if (*rc::gen::arbitrary<bool>()) corrects = *rc::gen::inRange<FactId>(-1, 12);
        journal.push_back({static_cast<FactId>(journal.size()) + 1, day(3, *rc::gen::inRange(1, 20)), "",
                           *rc::gen::elementOf(choices), corrects});
    }
    Unreadable unreadable;
    for (const Entry& entry : journal) {
        if (*rc::gen::inRange(0, 10) == 0)
            unreadable.emplace(entry.id, base::Error{base::ErrorKind::damaged, "odd", "", "", "", ""});
    }
    const auto found = set_aside(journal, unreadable);
    RC_ASSERT(found.has_value());
    for (int date = 1; date <= 20; ++date) static_cast<void>(collection_on(journal, day(3, date)));
    for (const SetAside& one : *found) RC_ASSERT(!one.why.what.empty() && !one.why.where.empty());
    const std::vector<Entry> once = journal;
    RC_ASSERT(numbers(set_aside(journal, unreadable).value()) == numbers(*found));
    RC_ASSERT(journal == once);
}

}  // namespace
}  // namespace mitefall::records
