#include "formats/text/layout.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <sstream>

namespace mitefall::formats {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// Everything but spaces and line ends: what no layout may lose or put in another order.
std::string letters_of(const std::string& text) {
    std::string letters;
    for (const char c : text)
        if (c != ' ' && c != '\n') letters += c;
    return letters;
}

const std::vector<std::string>& words() {
    static const std::vector<std::string> some{"tub",
                                               "a-01",
                                               "10 mg/L",
                                               "\u6f22\u5b57\u6f22\u5b57",
                                               "Zo\u00eb",
                                               "e\u0301",
                                               "< 0.1 %",
                                               "2026-11-28/water-out/quarantine-tub-01",
                                               "{\"room\":\"snakes\",\"name\":\"Snake room\"}",
                                               "",
                                               "\U0001F40D"};
    return some;
}

std::string some_text(std::size_t most) {
    std::string text;
    for (const std::size_t pick : *rc::gen::container<std::vector<std::size_t>>(
             *rc::gen::inRange<std::size_t>(0, most), rc::gen::inRange<std::size_t>(0, words().size())))
        text += (text.empty() ? "" : " ") + words()[pick];
    return text;
}

// Widths by Unicode Standard Annex 11 (wide: two) and for combining marks (none).
TEST(Layout, columns_are_those_of_a_terminal_and_not_bytes) {
    EXPECT_EQ(columns_of("Tub A"), 5U);
    EXPECT_EQ(columns_of("Zo\u00eb"), 3U);
    EXPECT_EQ(columns_of("e\u0301"), 1U) << "an accent that combines";
    EXPECT_EQ(columns_of("\u6f22\u5b57"), 4U);
    EXPECT_EQ(columns_of("\U0001F40D"), 2U);
    EXPECT_EQ(columns_of("\xFF"), 1U) << "no character: shown as one question mark";
}

RC_GTEST_PROP(Layout, no_line_of_a_table_is_wider_than_the_terminal_and_nothing_is_lost, ()) {
    const auto columns = *rc::gen::inRange<std::size_t>(1, 9);
    std::vector<std::string> head;
    for (std::size_t c = 0; c < columns; ++c) head.push_back("COLUMN-" + std::to_string(c));
    Table table(head);
    std::vector<std::vector<std::string>> rows;
    for (auto number = *rc::gen::inRange(1, 6); number > 0; --number) {
        std::vector<std::string> row;
        for (std::size_t c = 0; c < columns; ++c) row.push_back(some_text(12));
        table.add(row);
        rows.push_back(row);
    }
    const auto width = *rc::gen::inRange<std::size_t>(20, 160);
    const std::string text = lay_out(table.text(), {width, false});
    for (const std::string& line : lines_of(text)) RC_ASSERT(columns_of(line) <= width);
    // Every cell stands there whole, if in several lines: as many letters as went in.
    std::size_t letters = 0;
    for (const auto& row : rows)
        for (const std::string& cell : row) letters += letters_of(cell).size();
    RC_ASSERT(letters_of(text).size() >= letters);
}

RC_GTEST_PROP(Layout, a_paragraph_keeps_every_word_in_order_at_any_width, ()) {
    const std::string text = some_text(40);
    const auto width = *rc::gen::inRange<std::size_t>(20, 160);
    const std::string laid = lay_out(wrap(text, "  - ", "    "), {width, false});
    for (const std::string& line : lines_of(laid)) RC_ASSERT(columns_of(line) <= width);
    RC_ASSERT(letters_of(laid) == "-" + letters_of(text));
    RC_ASSERT(letters_of(lay_out(text + "\n", {width, false})) == letters_of(text));
}

TEST(Layout, a_number_stays_with_its_unit) {
    const std::string text = "The mix has a strength of 10 mg/L and that is all";
    for (std::size_t width = 20; width < 60; ++width) {
        const std::string laid = lay_out(wrap(text, "", ""), {width, false});
        EXPECT_NE(laid.find("10 mg/L"), std::string::npos) << laid;
    }
}

TEST(Layout, a_table_too_narrow_for_its_columns_tells_each_row_with_their_names) {
    Table table({"PLAN", "CHANCE OF CLEAR", "RANGE"});
    table.add({"first", "51 %", "18 % to 82 %"});
    table.add({"second", "22 %", "1.2 % to 51 %"});
    EXPECT_EQ(lay_out(table.text(), {80, false}),
              "PLAN    CHANCE OF CLEAR  RANGE\n"
              "first   51 %             18 % to 82 %\n"
              "second  22 %             1.2 % to 51 %\n");
    EXPECT_EQ(lay_out(table.text(), {20, false}),
              "PLAN: first\n"
              "  CHANCE OF CLEAR:\n"
              "    51 %\n"
              "  RANGE: 18 % to\n"
              "    82 %\n"
              "PLAN: second\n"
              "  CHANCE OF CLEAR:\n"
              "    22 %\n"
              "  RANGE: 1.2 % to\n"
              "    51 %\n");
}

TEST(Layout, colour_is_there_only_where_it_is_wanted) {
    const std::string text = wrap("it is " + toned(Tone::grave, "never allowed") + " here", "", "");
    EXPECT_EQ(lay_out(text, {80, false}), "it is never allowed here\n");
    EXPECT_EQ(lay_out(text, {80, true}), "it is \x1B[1;31mnever\x1B[0m \x1B[1;31mallowed\x1B[0m here\n");
}

// A note of a keeper is no command to the terminal, and makes no mark of the layout.
TEST(Layout, what_a_keeper_wrote_cannot_command_the_terminal) {
    const std::string evil =
        "Ivy\x1B[2J\x07\x1D\x1F\x02 \xC2\x9B"
        "31m \u202E\u2066\u2028\u200F";
    Table table({"ANIMAL", "NOTE"});
    table.add({evil, "x"});
    for (const std::string& text : {table.text(), wrap(evil, "", ""), heading(evil), evil + "\n"}) {
        const std::string laid = lay_out(text, {80, true});
        for (std::size_t at = laid.find('\x1B'); at != std::string::npos; at = laid.find('\x1B', at + 1))
            EXPECT_TRUE(laid.substr(at).starts_with("\x1B[1m") || laid.substr(at).starts_with("\x1B[0m"))
                << laid;
        for (const char c : {'\x07', '\x1D', '\x1F', '\x02'}) EXPECT_EQ(laid.find(c), std::string::npos);
        EXPECT_EQ(laid.find("\xC2\x9B"), std::string::npos) << "C1 control sequence introducer";
        for (const char* const mark : {"\u202E", "\u2066", "\u2028", "\u200F"})
            EXPECT_EQ(laid.find(mark), std::string::npos) << "marks of direction, ends of lines";
        EXPECT_NE(laid.find("Ivy"), std::string::npos);
    }
}

TEST(Layout, a_picture_that_does_not_fit_is_left_out) {
    const std::string bar = picture("  1   10   100 mg/L\n  |--=====--------|\n");
    EXPECT_EQ(lay_out(bar, {80, false}), "  1   10   100 mg/L\n  |--=====--------|\n");
    EXPECT_EQ(lay_out(picture(std::string(30, '-') + "\n") + "after\n", {20, false}), "after\n");
}

}  // namespace
}  // namespace mitefall::formats
