#include <gtest/gtest.h>

#include <fstream>

#include "session.h"

// A table on the command line: shown first, all of it or nothing, one undo.
namespace mitefall::cli {
namespace {

class Importing : public Session {
  protected:
    std::string table(const std::string& text) {
        const std::string path = at("t.csv").string();
        std::ofstream(path, std::ios::binary) << text;
        return path;
    }

    std::size_t entries() {
        EXPECT_EQ(run({"journal", "--json"}), 0);
        return formats::Json::parse(out_.str())["result"]["entries"].size();
    }
};

TEST_F(Importing, shows_what_it_would_add_and_writes_nothing) {
    const std::string path = table("Name;Tub;kg\r\nAda;A1;1,62\r\n");
    ASSERT_EQ(run({"import", path, "--dry-run"}), 0) << err_.str();
    EXPECT_NE(out_.str().find("1 animal and 1 weight"), std::string::npos) << out_.str();
    EXPECT_EQ(entries(), 0U);
    ASSERT_EQ(run({"import", path}), 0) << err_.str();
    EXPECT_EQ(entries(), 4U);
    ASSERT_EQ(run({"undo"}), 0) << err_.str();
    ASSERT_EQ(run({"show", "--json"}), 0);
    EXPECT_TRUE(formats::Json::parse(out_.str())["result"]["animals"].empty());
}

TEST_F(Importing, asks_somebody_at_the_terminal_once) {
    const std::string path = table("Name,Tub\nAda,A1\n");
    answers_ = "no\n";
    EXPECT_EQ(run({"import", path}), exit_code_of(base::ErrorKind::conflict));
    EXPECT_EQ(entries(), 0U);
    answers_ = "yes\n";
    EXPECT_EQ(run({"import", path}), 0) << err_.str();
    EXPECT_EQ(entries(), 3U);
}

TEST_F(Importing, an_open_question_or_a_wrong_row_is_a_conflict) {
    const std::string path = table("Name,Tub,Since\nAda,A1,03/04/2026\nBo,,\n");
    EXPECT_EQ(run({"import", path}), exit_code_of(base::ErrorKind::conflict));
    EXPECT_NE(out_.str().find("--date-order"), std::string::npos);
    EXPECT_EQ(run({"import", path, "--date-order", "month"}), exit_code_of(base::ErrorKind::conflict));
    EXPECT_NE(out_.str().find("Row 2"), std::string::npos);
    EXPECT_EQ(entries(), 0U);
    EXPECT_EQ(run({"import", path, "--date-order", "month", "--leave-out", "2"}), 0) << err_.str();
    ASSERT_EQ(run({"journal", "--json"}), 0);
    EXPECT_NE(out_.str().find("2026-03-04"), std::string::npos);
}

TEST_F(Importing, what_is_typed_wrongly_is_told_by_its_option) {
    const std::string path = table("Name,Tub\nAda,A1\n");
    const int impossible = exit_code_of(base::ErrorKind::invalid_input);
    EXPECT_EQ(run({"import", path, "--leave-out", "first"}), impossible);
    EXPECT_NE(err_.str().find("--leave-out"), std::string::npos) << err_.str();
    EXPECT_EQ(run({"import", path, "--since", "soon"}), impossible);
    EXPECT_NE(err_.str().find("--since"), std::string::npos) << err_.str();
    EXPECT_EQ(run({"import", path, "--kind-is", "king"}), impossible);
    EXPECT_EQ(run({"import", path, "--column", "weight=Grams"}), impossible);
    EXPECT_EQ(run({"import", at("none.csv").string()}), exit_code_of(base::ErrorKind::not_found));
    EXPECT_EQ(run({"import", path, "--date-order", "year"}), 2);
    EXPECT_EQ(entries(), 0U);
}

}  // namespace
}  // namespace mitefall::cli
