#include "tables/cells.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numeric>

// RFC 4180, and what spreadsheets make of it.
namespace mitefall::tables {
namespace {

using Line = std::vector<std::string>;

Cells read(std::string_view text) {
    const auto cells = read_cells(text);
    EXPECT_TRUE(cells) << (cells ? "" : cells.error().message());
    return cells.value_or(Cells{});
}

/// The examples of section 2, each below a line of headings as in 2.3.
TEST(Rfc4180, its_own_examples_are_read) {
    const std::string headings = "field_name,field_name,field_name\r\n";
    const auto rows = [&](const std::string& text) { return read(headings + text).rows; };
    const std::vector<Line> two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    EXPECT_EQ(rows("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), two) << "2.1: each record on a line of its own";
    EXPECT_EQ(rows("aaa,bbb,ccc\r\nzzz,yyy,xxx"), two) << "2.2: the last may have no line end";
    EXPECT_EQ(read(headings + "aaa,bbb,ccc\r\n").headings, Line(3, "field_name")) << "2.3";
    EXPECT_EQ(rows("aaa, bbb ,ccc"), std::vector<Line>({{"aaa", " bbb ", "ccc"}}))
        << "2.4: spaces are part of a field";
    EXPECT_EQ(rows("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), two) << "2.5";
    EXPECT_EQ(rows("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              std::vector<Line>({{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}))
        << "2.6";
    EXPECT_EQ(rows("\"aaa\",\"b\"\"bb\",\"ccc\""), std::vector<Line>({{"aaa", "b\"bb", "ccc"}})) << "2.7";
}

TEST(Cells, what_spreadsheets_write_is_read) {
    const std::vector<Line> rows{{"Ada", "1,62"}, {"Bo; jr", "2"}};
    EXPECT_EQ(read("\xEF\xBB\xBFName;kg\nAda;1,62\n\"Bo; jr\";2\n").rows, rows) << "a mark, semicolons, LF";
    EXPECT_EQ(read("Name\tkg\rAda\t1,62\rBo; jr\t2").rows, rows) << "tabs, and CR alone";
    EXPECT_EQ(read("Name,a;b\nx,y").separator, ',') << "that of which there is most; a comma comes first";
    EXPECT_EQ(read("\"a,b,c\";d;e\n1;2;3").separator, ';') << "not what stands in quotation marks";
    EXPECT_EQ(read("n,m\n5\" tub,2").rows, std::vector<Line>({{"5\" tub", "2"}})) << "inches";
}

TEST(Cells, rows_keep_their_numbers_past_empty_lines) {
    const std::vector<Line> rows{{"Ada"}, {}, {}, {"Bo"}};
    EXPECT_EQ(read("\r\n\r\nName\r\nAda\r\n\r\n  \r\nBo\r\n\r\n").rows, rows);
    EXPECT_EQ(read("Name\nAda\n\n\t \nBo\n").rows, rows);
    EXPECT_EQ(read("Name,Tub\nAda,A\n,\n , \nBo,B").rows[1], Line());
}

TEST(Cells, bad_tables_say_what_and_where) {
    const auto error = [](const std::string& text, const CellLimits& limits = {}) {
        const auto cells = read_cells(text, {}, limits);
        EXPECT_FALSE(cells) << text;
        return cells ? base::Error{} : cells.error();
    };
    EXPECT_EQ(error("Name,Tub\nAda,A1\nBo,\"B1\nCleo,C1\n").where, "row 2") << "never closed";
    EXPECT_EQ(error("Name\n").what, "there is no row below the headings");
    EXPECT_EQ(error("").what, error("Name\n").what);
    EXPECT_NE(error("Name\nM\xFCller\n").remedy.find("UTF-8"), std::string::npos) << "Windows-1252";
    EXPECT_NE(error(std::string("N\0a\0\n\0", 6)).remedy.find("UTF-8"), std::string::npos) << "UTF-16";
    EXPECT_EQ(error("a,b\n1,2\n1,2,3\n", {100, 10, 2, 10}).where, "row 2") << "too many cells";
    EXPECT_EQ(error("a\n1\n12345678901\n", {100, 10, 2, 10}).where, "row 2") << "too long a cell";
    EXPECT_EQ(error("a\n1\n2\n3\n", {100, 2, 2, 10}).value, "3") << "too many rows";
    EXPECT_EQ(error("a\n12345\n", {5, 2, 2, 10}).value, "8") << "too large";
}

/// As RFC 4180 has it written: in quotation marks where it must be.
std::string written(const Line& line, char separator) {
    std::string text;
    for (const std::string& cell : line) {
        if (&cell != &line.front()) text += separator;
        const bool must =
            cell.find_first_of(std::string("\"\r\n") + separator) != std::string::npos || cell.empty();
        std::string inner;
        for (const char c : cell) inner += c == '"' ? std::string("\"\"") : std::string(1, c);
        text += must ? "\"" + inner + "\"" : inner;
    }
    return text + "\r\n";
}

RC_GTEST_PROP(Cells, what_is_written_is_read_back, ()) {
    const char separator = *rc::gen::element(',', ';', '\t');
    const auto columns = *rc::gen::inRange<std::size_t>(1, 6);
    const auto letter = rc::gen::element('a', 'B', '7', ' ', ',', ';', '"', '\n', '\r', '.', '-');
    const auto line = rc::gen::map(rc::gen::container<Line>(columns, rc::gen::container<std::string>(letter)),
                                   [](Line one) {
                                       one.front() = "x" + one.front();
                                       return one;
                                   });
    const auto rows = *rc::gen::nonEmpty(rc::gen::container<std::vector<Line>>(line));
    Line headings(columns, "h");
    std::string text = written(headings, separator);
    for (const Line& row : rows) text += written(row, separator);
    const auto cells = read_cells(text, separator);
    RC_ASSERT(cells.has_value());
    RC_ASSERT(cells->headings == headings);
    RC_ASSERT(cells->rows == rows);
}

RC_GTEST_PROP(Cells, any_bytes_are_a_table_or_an_error, (const std::string& bytes)) {
    const auto cells = read_cells(bytes);
    if (!cells) RC_ASSERT(!cells.error().what.empty());
}

}  // namespace
}  // namespace mitefall::tables
