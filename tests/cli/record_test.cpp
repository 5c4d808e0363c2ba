#include <gtest/gtest.h>

#include "session.h"

namespace mitefall::cli {
namespace {

class Recording : public Session {
  protected:
    Recording() {
        run({"record", "room", "den", "--temperature", "25 C", "--floor-cm2", "90000"});
        run({"record", "enclosure", "t-1", "--room", "den", "--temperature", "29 C", "--floor-cm2", "2500"});
        run({"record", "arrival", "ivy", "--enclosure", "t-1"});
        run({"record", "arrival", "moss", "--enclosure", "t-1", "--quarantine"});
    }

    formats::Json last_entry() {
        EXPECT_EQ(run({"journal", "--json"}), 0) << err_.str();
        return formats::Json::parse(out_.str())["result"]["entries"].back();
    }
};

TEST_F(Recording, a_room_treatment) {
    ASSERT_EQ(run({"record", "room-treatment", "den", "--strength", "5000 mg/L"}), 0) << err_.str();
    const formats::Json entry = last_entry();
    EXPECT_EQ(entry["kind"], "room-treated");
    EXPECT_EQ(entry["fact"], formats::Json::parse(R"({"room": "den", "strength_mg_per_l": 5000.0})"));
}

TEST_F(Recording, a_room_treatment_of_unknown_strength) {
    ASSERT_EQ(run({"record", "room-treatment", "den"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["strength_mg_per_l"], nullptr);
}

TEST_F(Recording, no_treatment_of_a_room_nobody_knows) {
    EXPECT_EQ(run({"record", "room-treatment", "attic"}), exit_code_of(base::ErrorKind::not_found));
    EXPECT_EQ(run({"record", "room-treatment", "den", "--strength", "strong"}),
              exit_code_of(base::ErrorKind::invalid_input));
}

TEST_F(Recording, a_trade_name_goes_on_record_in_full_and_one_of_several_kinds_is_asked_about) {
    ASSERT_EQ(run({"record", "arrival", "rex", "--enclosure", "t-1", "--kind", "royal"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["taxon"], "ball python");
    ASSERT_EQ(run({"record", "arrival", "kim", "--enclosure", "t-1", "--kind", "milk"}),
              exit_code_of(base::ErrorKind::invalid_input));
    EXPECT_NE(err_.str().find("eastern milk snake"), std::string::npos) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["animal"], "rex") << "nothing was put on record";
    ASSERT_EQ(run({"record", "arrival", "kim", "--enclosure", "t-1", "--kind", "green gollywog"}), 0);
    EXPECT_EQ(last_entry()["fact"]["taxon"], "green gollywog") << "a kind nobody knows is kept as written";
}

TEST_F(Recording, the_end_of_a_quarantine) {
    const int conflict = exit_code_of(base::ErrorKind::conflict);
    EXPECT_EQ(run({"record", "quarantine-end", "moss", "--knowing"}), conflict);
    EXPECT_NE(err_.str().find("--because"), std::string::npos) << err_.str();
    ASSERT_EQ(run({"record", "quarantine-end", "moss", "--because", "the tub is needed"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["kind"], "quarantine-ended");
    EXPECT_EQ(last_entry()["fact"]["animal"], "moss");
    EXPECT_EQ(run({"record", "quarantine-end", "moss"}), exit_code_of(base::ErrorKind::conflict));
    EXPECT_EQ(run({"record", "quarantine-end", "ivy"}), exit_code_of(base::ErrorKind::conflict));
}

TEST_F(Recording, a_move_from_where_mites_were_seen_asks_first) {
    run({"record", "enclosure", "t-2", "--room", "den", "--temperature", "29 C", "--floor-cm2", "2500"});
    run({"record", "sighting", "t-1", "2-10"});
    EXPECT_EQ(run({"record", "move", "ivy", "--to", "t-2"}), exit_code_of(base::ErrorKind::conflict));
    EXPECT_NE(err_.str().find("--knowing"), std::string::npos) << err_.str();
    EXPECT_EQ(last_entry()["kind"], "sighted");
    answers_ = "n\n";
    EXPECT_NE(run({"record", "move", "ivy", "--to", "t-2"}), 0);
    answers_ = "y\n";
    EXPECT_EQ(run({"record", "move", "ivy", "--to", "t-2"}), 0) << err_.str();
    answers_.clear();
    EXPECT_EQ(last_entry()["kind"], "animal-moved");
    EXPECT_EQ(run({"record", "departure", "ivy", "--because", "sold", "--knowing"}), 0) << err_.str();
    EXPECT_NE(err_.str().find("Tell whoever takes it"), std::string::npos) << err_.str();
}

TEST_F(Recording, that_somebody_knew_and_why_stands_in_the_journal) {
    run({"record", "enclosure", "t-2", "--room", "den", "--temperature", "29 C", "--floor-cm2", "2500"});
    run({"record", "sighting", "t-1", "2-10"});
    ASSERT_EQ(run({"record", "move", "ivy", "--to", "t-2", "--knowing-because", "t-1 is broken"}), 0)
        << err_.str();
    EXPECT_EQ(last_entry()["fact"]["knowing"], true);
    EXPECT_EQ(last_entry()["fact"]["knowing_reason"], "t-1 is broken");
    ASSERT_EQ(run({"record", "departure", "ivy", "--knowing"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["knowing"], true);
    EXPECT_FALSE(last_entry()["fact"].contains("knowing_reason"));
}

TEST_F(Recording, a_correction_that_sells_from_where_mites_were_seen_asks_first) {
    run({"record", "sighting", "t-1", "2-10"});
    ASSERT_EQ(run({"record", "weight", "ivy", "450 g"}), 0) << err_.str();
    const std::string weighed = last_entry()["id"].dump();
    EXPECT_EQ(run({"record", "departure", "ivy", "--because", "sold", "--corrects", weighed}),
              exit_code_of(base::ErrorKind::conflict));
    EXPECT_NE(err_.str().find("Tell whoever takes it"), std::string::npos) << err_.str();
    EXPECT_NE(err_.str().find("--knowing"), std::string::npos) << err_.str();
    EXPECT_EQ(last_entry()["kind"], "weighed");
    EXPECT_EQ(run({"record", "departure", "ivy", "--because", "sold", "--corrects", weighed, "--knowing"}), 0)
        << err_.str();
    EXPECT_EQ(last_entry()["kind"], "animal-left");
    EXPECT_EQ(last_entry()["corrects"].dump(), weighed);
}

/// The words of a command line as a shell takes it apart, without the name of the program.
std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words(1);
    bool is_quoted = false;
    for (const char c : line) {
        if (c == '\'')
            is_quoted = !is_quoted;
        else if (c == ' ' && !is_quoted)
            words.emplace_back();
        else
            words.back() += c;
    }
    words.erase(words.begin());
    return words;
}

TEST_F(Recording, quarantine_is_proposed_with_the_command_that_does_it) {
    ASSERT_EQ(run({"record", "arrival", "kim", "--enclosure", "t-1"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["quarantine"], false);
    run({"record", "arrival", "rex", "--enclosure", "t-1", "--kind", "royal", "--name", "T. Rex; #1"});
    const std::string told = err_.str();
    const auto begin = told.find("mitefall record arrival");
    ASSERT_NE(begin, std::string::npos) << told;
    const formats::Json before = last_entry();
    ASSERT_EQ(run(words_of(told.substr(begin, told.find('\n', begin) - begin))), 0) << err_.str();
    formats::Json expected = before["fact"];
    expected["quarantine"] = true;
    EXPECT_EQ(last_entry()["fact"], expected);
    EXPECT_EQ(last_entry()["corrects"], before["id"]);
}

TEST_F(Recording, quarantine_is_asked_about_at_a_terminal_and_not_once_it_is_said) {
    answers_ = "y\n";
    ASSERT_EQ(run({"record", "arrival", "kim", "--enclosure", "t-1"}), 0) << err_.str();
    EXPECT_EQ(last_entry()["fact"]["quarantine"], true);
    answers_ = "n\n";
    ASSERT_EQ(run({"record", "arrival", "rex", "--enclosure", "t-1"}), 0) << err_.str();
    EXPECT_EQ(err_.str().find("--corrects"), std::string::npos) << "it is answered: " << err_.str();
    EXPECT_EQ(last_entry()["fact"]["quarantine"], false);
    answers_.clear();
    ASSERT_EQ(run({"record", "arrival", "sam", "--enclosure", "t-1", "--quarantine"}), 0);
    EXPECT_EQ(err_.str(), "");
    EXPECT_EQ(last_entry()["fact"]["quarantine"], true);
    ASSERT_EQ(run({"record", "arrival", "tom", "--enclosure", "t-1", "--no-quarantine"}), 0);
    EXPECT_EQ(err_.str(), "");
    EXPECT_EQ(last_entry()["fact"]["quarantine"], false);
}

TEST_F(Recording, an_undo_tells_in_the_journal_what_was_undone) {
    ASSERT_EQ(run({"withdraw", last_entry()["id"].dump(), "--because", "a mistake"}), 0);
    EXPECT_EQ(last_entry()["fact"]["reason"], "a mistake") << "a reason that was given stays";
    run({"undo", "--count", "4"});
    const std::string reason = last_entry()["fact"]["reason"];
    EXPECT_NE(reason.find("undo of"), std::string::npos) << reason;
    EXPECT_NE(reason.find("1 enclosure"), std::string::npos) << reason;
}

TEST_F(Recording, undoing_several_entries_needs_their_number) {
    const int conflict = exit_code_of(base::ErrorKind::conflict);
    for (int day = 1; day <= 8; ++day) run({"record", "weight", "ivy", "450 g", "--on", "2026-06-15"});
    const auto before = last_entry()["id"];
    EXPECT_EQ(run({"undo"}), conflict);
    EXPECT_NE(err_.str().find("--count 12"), std::string::npos) << err_.str();
    EXPECT_EQ(run({"undo", "--count", "3"}), conflict);
    EXPECT_EQ(last_entry()["id"], before);
    EXPECT_EQ(run({"undo", "--count", "12"}), 0) << err_.str();
    EXPECT_NE(last_entry()["id"], before);
}

}  // namespace
}  // namespace mitefall::cli
