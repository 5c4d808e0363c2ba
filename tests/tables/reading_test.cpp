#include "tables/reading.h"

#include <gtest/gtest.h>

#include "questions/import.h"
#include "service/keeper.h"
#include "store/scratch.h"
#include "tables/adding.h"

// What a table puts on record: all of it or nothing, nothing guessed, and one undo for the whole.
namespace mitefall::tables {
namespace {

const service::Knowledge& knowledge() {
    static const service::Knowledge loaded = service::Knowledge::load().value();
    return loaded;
}

const units::Day today = std::chrono::year(2026) / 11 / 26;
const service::Now now{today, "2026-11-26T20:00:00Z"};

class Table : public store::Scratch {
  protected:
    Looked look(const std::string& text) {
        auto looked = look_at(keeper, knowledge(), text, wishes, now);
        if (!looked) throw std::runtime_error(looked.error().message());
        return std::move(*looked);
    }

    base::Result<std::vector<records::FactId>> put(const std::string& text) {
        return add(keeper, look(text).reading, wishes, now);
    }

    records::Collection collection() { return keeper.collection(today).value(); }

    std::vector<std::string> problems(const Reading& reading) {
        std::vector<std::string> list;
        for (const Problem& one : reading.problems)
            list.push_back(std::to_string(one.row) + " " +
                           (one.field ? std::string(to_text(*one.field)) : "row") + " " +
                           std::string(to_text(one.fault)) + (one.value.empty() ? "" : " " + one.value));
        return list;
    }

    service::Keeper keeper = service::Keeper::create(at("c").string(), knowledge()).value();
    Wishes wishes = questions::ImportOptions{}.wishes();
};

TEST_F(Table, becomes_rooms_then_enclosures_then_animals_then_weights) {
    const auto ids =
        put("Name,Species,Rack,Tub,Weight (g),Acquired\n"
            "Ada,ball python,Rack 1,A1,1620,2024-06-28\n"
            "Bruno,ball python,Rack 1,A2,,\n"
            ",,Rack 2,A9,,\n");
    ASSERT_TRUE(ids) << ids.error().message();
    EXPECT_EQ(ids->size(), 8U);
    const auto all = collection();
    EXPECT_EQ(all.rooms.size(), 2U);
    EXPECT_EQ(all.enclosures.size(), 3U);
    const auto& ada = all.animals.at(records::AnimalId("ada"));
    EXPECT_EQ(units::format_day(ada.arrived), "2024-06-28");
    EXPECT_EQ(ada.enclosure.text(), "a1");
    EXPECT_EQ(units::in_grams(ada.weight->value), 1620);
    EXPECT_EQ(all.animals.at(records::AnimalId("bruno")).arrived, today);
    const auto undone = keeper.undo(now);
    ASSERT_TRUE(undone) << undone.error().message();
    EXPECT_EQ(undone->size(), 8U) << "one act, one undo";
    EXPECT_TRUE(collection().rooms.empty());
}

TEST_F(Table, with_one_wrong_row_writes_nothing_until_that_row_is_named) {
    const std::string text = "Name,Tub,Grams,Since\nAda,A1,heavy,2031-01-01\nBo,A2,900,\nCleo,,,\n";
    const Looked looked = look(text);
    EXPECT_EQ(problems(looked.reading),
              (std::vector<std::string>{"1 weight not-a-number heavy", "1 arrived day-to-come 2031-01-01",
                                        "3 row no-enclosure Cleo"}));
    const auto refused = put(text);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().value, "1, 3");
    EXPECT_TRUE(keeper.journal()->empty());
    wishes.leave_out = {1};
    EXPECT_EQ(put(text).error().value, "3");
    wishes.leave_out = {1, 3};
    ASSERT_TRUE(put(text));
    EXPECT_EQ(collection().animals.size(), 2U) << "a cell that is left out never costs the animal";
    EXPECT_FALSE(collection().animals.at(records::AnimalId("ada")).weight);
}

TEST_F(Table, a_row_the_records_do_not_take_is_told_by_its_number) {
    // A mark that turns round the direction of writing (UAX 9) is part of no name.
    const std::string text = "Name,Tub\nAda,A1\nB\u202Eo,A2\nBo,A3\n,\nCleo,A\u202E4\n";
    const Looked looked = look(text);
    ASSERT_FALSE(looked.reading.problems.empty());
    for (const Problem& one : looked.reading.problems) {
        EXPECT_EQ(one.fault, Fault::refused);
        EXPECT_TRUE(one.error.has_value());
        EXPECT_TRUE(one.row == 2 || one.row == 5) << one.row;
    }
    EXPECT_EQ(looked.reading.problems.size(), 2U);
    EXPECT_EQ(looked.reading.rows.size(), 2U) << "the others are looked at all the same";
    EXPECT_FALSE(put(text));
    EXPECT_TRUE(keeper.journal()->empty());
}

TEST_F(Table, days_that_may_be_two_are_asked_about) {
    const std::string text = "Name,Tub,Since\nAda,A1,03/04/2026\nBo,A2,05/06/2026\n";
    EXPECT_EQ(look(text).reading.days_of_two, (std::vector<std::string>{"03/04/2026", "05/06/2026"}));
    EXPECT_FALSE(put(text));
    EXPECT_TRUE(keeper.journal()->empty());
    wishes.order = Order::day;
    ASSERT_TRUE(put(text));
    EXPECT_EQ(units::format_day(collection().animals.at(records::AnimalId("ada")).arrived), "2026-04-03");
}

TEST_F(Table, a_name_of_several_kinds_is_asked_about_and_a_trade_name_is_told) {
    const std::string text =
        "Name,Species,Tub\nAda,royal,A1\nBruno,king,A2\nCleo,King,A3\nDora,moon snake,A4\n";
    const Looked looked = look(text);
    ASSERT_EQ(looked.reading.kinds.size(), 3U);
    EXPECT_EQ(looked.reading.kinds[0].name, "ball python");
    EXPECT_TRUE(looked.reading.kinds[1].name.empty());
    EXPECT_EQ(looked.reading.kinds[1].animals, 2U) << "once, however it is written";
    EXPECT_EQ(looked.reading.kinds[2].meaning.how, evidence::Understood::unknown);
    EXPECT_EQ(put(text).error().value, "king");
    wishes.kinds["king"] = "California kingsnake";
    ASSERT_TRUE(put(text));
    EXPECT_EQ(collection().animals.at(records::AnimalId("cleo")).taxon, "California kingsnake");
    EXPECT_EQ(collection().animals.at(records::AnimalId("dora")).taxon, "moon snake");
}

TEST_F(Table, a_name_that_is_taken_is_asked_about) {
    ASSERT_TRUE(put("Name,Tub\nAda,A1\n"));
    const std::string text = "Name,Tub\nADA,A2\nBo,A3\nbo,A4\n";
    const auto& same = look(text).reading.same_names;
    ASSERT_EQ(same.size(), 2U);
    EXPECT_TRUE(same[0].on_record);
    EXPECT_EQ(same[1].rows, (std::vector<int>{2, 3}));
    EXPECT_FALSE(put(text));
    wishes.leave_out = {1};
    EXPECT_FALSE(put(text)) << "bo is still open";
    wishes.others.insert("bo");
    ASSERT_TRUE(put(text));
    const auto animals = collection().animals;
    EXPECT_EQ(animals.size(), 3U) << "one Ada, two of the name of Bo";
    EXPECT_TRUE(animals.contains(records::AnimalId("bo-2")));
}

TEST_F(Table, a_place_that_is_there_is_used_and_nothing_comes_before_it_stands) {
    ASSERT_TRUE(put("Name,Tub,Rack,Since\nAda,A1,R,2026-05-01\n"));
    ASSERT_TRUE(put("Name,Tub,Rack,Since\nBo,a1,r,2020-01-01\n"));
    const auto all = collection();
    EXPECT_EQ(all.enclosures.size(), 1U);
    EXPECT_EQ(units::format_day(all.animals.at(records::AnimalId("bo")).arrived), "2026-05-01");
}

TEST_F(Table, quarantine_is_as_it_is_answered_but_for_rows_that_say_it) {
    wishes.quarantine = true;
    ASSERT_TRUE(put("Name,Tub,Quarantine\nAda,A1,\nBruno,A2,no\nCleo,A3,yes\n"));
    const auto animals = collection().animals;
    EXPECT_TRUE(animals.at(records::AnimalId("ada")).quarantine);
    EXPECT_FALSE(animals.at(records::AnimalId("bruno")).quarantine);
    EXPECT_TRUE(animals.at(records::AnimalId("cleo")).quarantine);
}

TEST(ShortNames, are_plain_free_and_short) {
    EXPECT_EQ(short_name("Tub 4", {}), "tub-4");
    EXPECT_EQ(short_name("Tub 4", {"tub-4"}), "tub-4-2");
    EXPECT_EQ(short_name("\xC3\x84ngstr\xC3\xB6m!", {}), "angstrom");
    EXPECT_EQ(short_name("\xE8\x9B\x87", {}), "x");
    EXPECT_LE(short_name(std::string(200, 'a'), {}).size(), 40U);
    EXPECT_EQ(folded(" \xC3\x84NNE "), "\xC3\xA4nne");
}

}  // namespace
}  // namespace mitefall::tables
