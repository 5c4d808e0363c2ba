#include "tables/amounts.h"
#include "tables/days.h"
#include "tables/numbers.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tables/columns.h"

// What the cells of a column mean, and what is asked about instead of guessed.
namespace mitefall::tables {
namespace {

template <class T>
std::string shown(const Read<T>& read) {
    if (const auto* const fault = std::get_if<Fault>(&read)) return std::string(to_text(*fault));
    if constexpr (std::is_same_v<T, units::Day>)
        return units::format_day(std::get<T>(read));
    else
        return std::to_string(std::get<T>(read)).substr(0, 7);
}

TEST(Columns, are_guessed_from_their_headings_and_never_twice) {
    const Matching guessed = guess_columns({"Name", "Species", "Rack", "Tub", "Weight (g)", "Acquired"});
    const Matching meant{{Field::animal, 0},    {Field::kind, 1},   {Field::room, 2},
                         {Field::enclosure, 3}, {Field::weight, 4}, {Field::arrived, 5}};
    EXPECT_EQ(guessed, meant);
    std::set<std::size_t> taken;
    for (const auto& [field, column] :
         guess_columns({"name", "enclosure_name", "room", "day temp", "night temp"}))
        EXPECT_TRUE(taken.insert(column).second) << to_text(field);
    EXPECT_TRUE(guess_columns({"colour of eyes"}).empty());
}

TEST(Columns, are_told_by_heading_or_number) {
    const std::vector<std::string> headings{"Name", "Tub", "Mass", "Grams"};
    EXPECT_EQ(match_columns(headings, {"weight=grams"})->at(Field::weight), 3U);
    EXPECT_EQ(match_columns(headings, {"weight=4"})->at(Field::weight), 3U);
    EXPECT_FALSE(match_columns(headings, {"weight="})->contains(Field::weight));
    EXPECT_FALSE(match_columns(headings, {"kind=Name"})->contains(Field::animal))
        << "one column, one meaning";
    EXPECT_EQ(match_columns(headings, {"weight=Colour"}).error().value, "Colour");
    EXPECT_EQ(match_columns(headings, {"colour=Tub"}).error().value, "colour=Tub");
    EXPECT_FALSE(match_columns(headings, {"weight=5"})) << "there are four";
}

TEST(Days, are_read_as_people_write_them) {
    const std::pair<const char*, const char*> days[] = {{"2026-03-14", "2026-03-14"},
                                                        {"14.03.2026", "2026-03-14"},
                                                        {"14/03/2026", "2026-03-14"},
                                                        {"03/14/2026", "2026-03-14"},
                                                        {"14 Mar 2026", "2026-03-14"},
                                                        {"March 14, 2026", "2026-03-14"},
                                                        {"14-mar-26", "2026-03-14"},
                                                        {"2026/3/4", "2026-03-04"},
                                                        {"5/5/2026", "2026-05-05"},
                                                        {"14. 3. 2026", "2026-03-14"},
                                                        {"2026-03-14 00:00:00", "2026-03-14"},
                                                        {"2026-03-14T10:20", "2026-03-14"},
                                                        {"March 14th, 2026", "2026-03-14"},
                                                        {"03/04/2026", "two-days"},
                                                        {"31.02.2026", "not-a-day"},
                                                        {"spring", "not-a-day"},
                                                        {"14/3", "not-a-day"},
                                                        {"2026-13-01", "not-a-day"},
                                                        {"14/03-2026", "not-a-day"},
                                                        {"", "not-a-day"}};
    for (const auto& [text, day] : days) EXPECT_EQ(shown(read_day(text, {})), day) << text;
    EXPECT_EQ(shown(read_day("03/04/2026", Order::day)), "2026-04-03");
    EXPECT_EQ(shown(read_day("03/04/2026", Order::month)), "2026-03-04");
}

TEST(Days, their_order_is_told_by_those_that_fit_only_one) {
    const auto told = [](const std::vector<std::string>& days) {
        const auto [order, ask] = order_of(days);
        return order ? (*order == Order::day ? "day" : "month") : ask ? "ask" : "none";
    };
    EXPECT_STREQ(told({"03/04/2026", "14/03/2026"}), "day");
    EXPECT_STREQ(told({"03/04/2026", "03/14/2026"}), "month");
    EXPECT_STREQ(told({"03/04/2026", "5/5/2026"}), "ask");
    EXPECT_STREQ(told({"14/03/2026", "03/14/2026", "03/04/2026"}), "ask");
    EXPECT_STREQ(told({"14/03/2026", "03/14/2026"}), "none");
    EXPECT_STREQ(told({"2026-03-14", ""}), "none");
}

TEST(Weights, their_marks_are_told_by_the_cells_that_can_mean_one_thing) {
    const auto told = [](const std::vector<std::string>& weights) {
        const auto one = [](std::optional<Mark> mark) {
            return !mark ? "?" : *mark == Mark::decimal ? "decimal" : "thousands";
        };
        const Marks marks = marks_of(weights);
        return std::string(one(marks.comma)) + " " + one(marks.point);
    };
    EXPECT_EQ(told({"1,200", "1,62 kg"}), "decimal ?");
    EXPECT_EQ(told({"1,200", "1,620.5"}), "thousands decimal");
    EXPECT_EQ(told({"1.620", "1.620,5"}), "decimal thousands");
    EXPECT_EQ(told({"1,200"}), "? ?");
    EXPECT_EQ(told({"0,500"}), "decimal ?");
    EXPECT_EQ(told({"1,62", "1,620.5"}), "? decimal") << "both; a comma is asked about";
}

TEST(Weights, carry_their_unit_or_take_that_of_the_heading) {
    const Marks none;
    const Marks comma{Mark::decimal, {}};
    EXPECT_EQ(shown(read_mass("1,62 kg", none, 1)), "1620.00");
    EXPECT_EQ(shown(read_mass("2", none, 1000)), "2000.00");
    EXPECT_EQ(shown(read_mass("1 lb", none, 1)), "453.592");
    EXPECT_EQ(shown(read_mass("16 oz.", none, 1)), "453.592");
    EXPECT_EQ(shown(read_mass("1.620,5", none, 1)), "1620.50");
    EXPECT_EQ(shown(read_mass("1 620 g", none, 1)), "1620.00");
    EXPECT_EQ(shown(read_mass("1,200", none, 1)), "two-numbers");
    EXPECT_EQ(shown(read_mass("1,200", comma, 1)), "1.20000");
    EXPECT_EQ(shown(read_mass("1,200", {Mark::thousands, {}}, 1)), "1200.00");
    EXPECT_EQ(shown(read_mass("1.620", none, 1)), "1.62000");
    EXPECT_EQ(shown(read_mass("1.620", comma, 1)), "two-numbers");
    EXPECT_EQ(shown(read_mass("heavy", none, 1)), "not-a-number");
    EXPECT_EQ(shown(read_mass("12 st", none, 1)), "not-a-number");
    EXPECT_EQ(shown(read_mass("-4", none, 1)), "not-above-zero");
    EXPECT_EQ(shown(read_mass("900 kg", none, 1)), "too-heavy");
    EXPECT_EQ(grams_of_heading("Weight (kg)"), 1000);
    EXPECT_EQ(grams_of_heading("weight in lbs"), 453.59237);
    EXPECT_EQ(grams_of_heading("Grams"), 1);
    EXPECT_EQ(grams_of_heading("Weight"), 1);
}

TEST(Climate, is_within_what_can_be) {
    EXPECT_EQ(shown(read_celsius("29")), "29.0000");
    EXPECT_EQ(shown(read_celsius("86 \u00B0F")), "30.0000");
    EXPECT_EQ(shown(read_celsius("29,5 C")), "29.5000");
    EXPECT_EQ(shown(read_celsius("86")), "not-possible");
    EXPECT_EQ(shown(read_percent("55 %")), "55.0000");
    EXPECT_EQ(shown(read_percent("155")), "not-possible");
    EXPECT_EQ(shown(read_area("3825 cm\u00B2")), "3825.00");
    EXPECT_EQ(shown(read_area("0")), "not-above-zero");
}

RC_GTEST_PROP(Days, that_are_written_out_need_no_order, ()) {
    const units::Day day{units::Days(*rc::gen::inRange(0, 40'000))};
    RC_ASSERT(std::get<units::Day>(read_day(units::format_day(day), {})) == day);
    RC_ASSERT(std::get<units::Day>(read_day(units::show_day(day), {})) == day);
}

RC_GTEST_PROP(Days, any_text_is_a_day_or_none, (const std::string& text)) {
    static_cast<void>(days_in(text));
    static_cast<void>(read_mass(text, {}, 1));
    static_cast<void>(read_celsius(text));
}

}  // namespace
}  // namespace mitefall::tables
