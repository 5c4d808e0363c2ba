#include "units/amounts.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "units/climate.h"
#include "units/day.h"
#include "units/text.h"

namespace mitefall::units {
namespace {

template <class A, class B>
concept CanAdd = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept CanMultiply = requires(A a, B b) {
    a* b;
};
template <class A, class B>
concept CanCompare = requires(A a, B b) {
    a < b;
};

// What must not compile.
static_assert(!CanAdd<Mass, Volume>);
static_assert(!CanAdd<Mass, double>);
static_assert(!CanAdd<Strength, Dose>);
static_assert(!CanAdd<Temperature, Temperature>, "two points on a scale do not add");
static_assert(!CanAdd<Day, Day>, "two dates do not add");
static_assert(!CanMultiply<Mass, Mass>);
static_assert(!CanCompare<Mass, Volume>);
static_assert(!CanCompare<Strength, double>);
static_assert(!std::is_convertible_v<double, Mass>);
static_assert(!std::is_convertible_v<Mass, double>);
static_assert(!std::is_constructible_v<Volume, double>);
static_assert(!std::is_constructible_v<Strength, Dose>);
static_assert(std::is_same_v<decltype(Strength{} * Volume{}), Mass>);
static_assert(std::is_same_v<decltype(celsius(1) - celsius(2)), TemperatureSpan>);
static_assert(std::is_same_v<decltype(Day{} - Day{}), Days>);

// NIST Handbook 44 (appendix C) gives these factors exactly.
TEST(Amounts, conversions_are_those_of_nist) {
    EXPECT_DOUBLE_EQ(in_millilitres(us_fluid_ounces(1)), 29.5735295625);
    EXPECT_DOUBLE_EQ(in_millilitres(us_teaspoons(6)), 29.5735295625);
    EXPECT_DOUBLE_EQ(in_millilitres(us_tablespoons(2)), 29.5735295625);
    EXPECT_DOUBLE_EQ(in_millilitres(us_pints(2)), 946.352946);
    EXPECT_DOUBLE_EQ(in_millilitres(us_quarts(4)), 3785.411784);
    EXPECT_DOUBLE_EQ(in_grams(pounds(1)), 453.59237);
    EXPECT_DOUBLE_EQ(in_grams(ounces(16)), 453.59237);
    EXPECT_DOUBLE_EQ(in_millilitres(imperial_pints(1)), 568.26125);  // UK Weights and Measures Act 1985
    EXPECT_DOUBLE_EQ(in_millilitres(imperial_gallons(1)), 4546.09);  // the same
}

TEST(Amounts, one_percent_mass_in_volume_is_ten_milligrams_per_millilitre) {
    EXPECT_DOUBLE_EQ(in_milligrams_per_millilitre(percent_mass_in_volume(1)),
                     10);  // USP general notices 8.140
}

TEST(Amounts, strength_times_volume_is_mass) {
    EXPECT_DOUBLE_EQ(in_milligrams(milligrams_per_litre(200) * litres(0.5)), 100);
    EXPECT_DOUBLE_EQ(in_milligrams_per_litre(milligrams(100) / litres(0.5)), 200);
    EXPECT_DOUBLE_EQ(in_millilitres(milligrams(100) / milligrams_per_litre(200)), 500);
    EXPECT_DOUBLE_EQ(in_milligrams_per_kilogram(dose_of(milligrams(2), grams(500))), 4);
}

TEST(Climate, fahrenheit_fixed_points) {
    EXPECT_DOUBLE_EQ(in_celsius(fahrenheit(32)), 0);
    EXPECT_DOUBLE_EQ(in_celsius(fahrenheit(212)), 100);
    EXPECT_DOUBLE_EQ(in_fahrenheit(celsius(-40)), -40);
}

TEST(Text, amounts_of_every_unit_are_read) {
    EXPECT_DOUBLE_EQ(in_millilitres(parse_volume("32 US fl oz").value()), 946.352946);
    EXPECT_DOUBLE_EQ(in_grams(parse_mass("1.5 kg").value()), 1500);
    EXPECT_DOUBLE_EQ(in_milligrams_per_millilitre(parse_strength("0.5 % w/v").value()), 5);
    EXPECT_DOUBLE_EQ(in_celsius(parse_temperature("50 F").value()), 10);
}

// To the last bit but one: one multiplication and one division, each rounded once (IEEE 754).
TEST(Text, amounts_come_back_as_they_were_written) {
    EXPECT_TRUE(rc::check([] {
        const double number = *rc::gen::inRange(1, 10000000) / 100.0;
        const std::string text = show_number(number, 12);
        const auto ml = [&](const char* unit) { return parse_volume(text + unit).value(); };
        RC_ASSERT(std::fabs(in_us_fluid_ounces(ml(" US fl oz")) / number - 1) < 5e-16);
        RC_ASSERT(std::fabs(in_imperial_fluid_ounces(ml(" imp fl oz")) / number - 1) < 5e-16);
        RC_ASSERT(std::fabs(in_us_teaspoons(ml(" US tsp")) / number - 1) < 5e-16);
        RC_ASSERT(in_millilitres(ml(" mL")) == number);
        RC_ASSERT(std::fabs(in_litres(ml(" L")) / number - 1) < 5e-16);
    }));
}

TEST(Text, strengths_in_every_way_a_label_puts_them) {
    for (const char* const text : {"10 mg/mL", "1 % w/v", "1 % m/v", "10000 mg/L", "10 g/L", "1 g/100 mL",
                                   "10000 ug/mL", "10000 mcg/mL", "10000 ppm w/v"}) {
        const auto strength = parse_strength(text);
        ASSERT_TRUE(strength) << text;
        EXPECT_DOUBLE_EQ(in_milligrams_per_millilitre(*strength), 10) << text;
    }
    for (const char* const text :
         {"1 %", "1 percent", "10000 ppm", "1:100", "10 mg", "1 % w/w", "18.7 mg/g"}) {
        const auto strength = parse_strength(text);
        ASSERT_FALSE(strength) << text;
        EXPECT_FALSE(strength.error().remedy.empty()) << text << ": asked about, with what to do";
    }
    EXPECT_NE(parse_strength("1 %").error().remedy.find("10 mg/mL"), std::string::npos);
}

// "10,000" is ten thousand to some and ten to others: a thousandfold dose.
TEST(Text, a_comma_is_asked_about) {
    for (const char* const text : {"10,000 mg/L", "10,5 mg/mL", "1,000 mg/L"}) {
        const auto strength = parse_strength(text);
        ASSERT_FALSE(strength) << text;
        EXPECT_NE(strength.error().what.find("comma"), std::string::npos) << text;
    }
    EXPECT_FALSE(parse_volume("1,000 mL"));
    EXPECT_FALSE(parse_mass("1,620 g"));
}

TEST(Text, refuses_what_is_ambiguous_or_impossible) {
    for (const char* const text :
         {"32 fl oz", "8 tsp", "1 qt", "-1 mL", "nan mL", "inf L", "mL", "", "12", "12 m", "1e400 mL"}) {
        const auto volume = parse_volume(text);
        ASSERT_FALSE(volume) << text;
        EXPECT_FALSE(volume.error().what.empty()) << text;
    }
    for (const char* const text : {"1 %", "5 ppm", "5 % v/v", "101 % w/v", "-1 mg/mL"}) {
        ASSERT_FALSE(parse_strength(text)) << text;
    }
    for (const char* const text : {"28", "150 C", "nan C"}) ASSERT_FALSE(parse_temperature(text)) << text;
}

TEST(Text, chances_never_round_to_certainty) {
    EXPECT_EQ(show_chance(0.99999), "> 99.99 %");
    EXPECT_EQ(show_chance(0.9951), "99.51 %");
    EXPECT_EQ(show_chance(0.00001), "< 0.1 %");
    EXPECT_EQ(show_chance(1), "100 %");
    EXPECT_EQ(show_chance(0), "0 %");
    EXPECT_EQ(show_chance(0.98999), "98.9 %");
}

TEST(Days, round_trip_and_refusals) {
    EXPECT_EQ(format_day(parse_day("2028-02-29").value()), "2028-02-29");
    for (const char* const text :
         {"2027-02-29", "2026-13-01", "2026-1-1", "01/03/2026", "", "2026-00-10", "1492-01-01"}) {
        EXPECT_FALSE(parse_day(text)) << text;
    }
    EXPECT_EQ(format_day_short(parse_day("2026-03-01").value()), "Sun 1 Mar");
    EXPECT_TRUE(rc::check("a day written and read again is the same day", [] {
        const Day day = Day(Days(*rc::gen::inRange(-20000, 80000)));
        RC_ASSERT(parse_day(format_day(day)).value() == day);
    }));
}

// NIST Handbook 44 (2023), appendix C: 1 US quart 946.352946 mL, 1 US cup 8 fl oz; UK Weights and Measures
// Act 1985: 1 pint 568.26125 mL.
TEST(ParseVolume, a_measure_of_the_kitchen_is_itself_however_it_is_written) {
    const auto ml = [](const char* text) { return in_millilitres(parse_volume(text).value()); };
    for (const char* const quart : {"1 US quart", "1 us qt", "1 US quarts", "1 U.S. quart", "1.0 US qts."})
        EXPECT_DOUBLE_EQ(ml(quart), 946.352946) << quart;
    for (const char* const pint : {"2 imp pints", "2 imperial pint", "2 UK pints", "1 imp quart"})
        EXPECT_DOUBLE_EQ(ml(pint), 1136.5225) << pint;
    EXPECT_DOUBLE_EQ(ml("4 US cups"), 946.352946);
    EXPECT_DOUBLE_EQ(ml("1 metric cup"), 250);
    EXPECT_DOUBLE_EQ(ml("1 US gallon"), 3785.411784);
    EXPECT_DOUBLE_EQ(ml("1 imp gal"), 4546.09);
    EXPECT_DOUBLE_EQ(ml("32 US fluid ounces"), 946.352946);
    EXPECT_DOUBLE_EQ(ml("2 US tablespoons"), 6 * 4.92892159375);
    EXPECT_DOUBLE_EQ(ml("3 dL"), 300);
}

// A US teaspoon is 4.92892159375 mL (NIST Handbook 44): half of it 2.464460796875, one and a
// half 7.393382390625.
TEST(ParseVolume, a_part_of_a_spoon_or_a_vessel_is_read_as_recipes_write_it) {
    const auto ml = [](const char* text) { return in_millilitres(parse_volume(text).value()); };
    EXPECT_DOUBLE_EQ(ml("1/2 US tsp"), 2.464460796875);
    EXPECT_DOUBLE_EQ(ml(" 1 1/2 US teaspoons"), 7.393382390625);
    EXPECT_DOUBLE_EQ(ml("1/4 metric tsp"), 1.25);
    EXPECT_DOUBLE_EQ(ml("1/2 US gallon"), 1892.705892);
    EXPECT_DOUBLE_EQ(ml("2 1/2 imp pints"), 1420.653125);
    EXPECT_EQ(measure_named_in("1/2 US tsp"), NamedMeasure::spoon);
    EXPECT_EQ(system_written_in("1/2 US gallon"), UnitSystem::us);
    for (const char* const text :
         {"1/2 mL", "1/2 US fl oz", "1/2 tsp", "11/2 US tsp", "1/0 US tsp", "0/2 US tsp", "1/5 US tsp",
          "2/2 US tsp", "1/2US tsp", "-1/2 US tsp", "1/2/2 US tsp", "1 1 1/2 US tsp", "1.5 1/2 US tsp",
          "99999999999/2 US tsp", "1/", "/2 US tsp"})
        EXPECT_FALSE(parse_volume(text)) << text;
    EXPECT_NE(parse_volume("1/2 tsp").error().remedy.find("US tsp"), std::string::npos) << "asked which";
}

TEST(ParseVolume, a_measure_that_differs_by_country_is_asked_about_with_each_of_its_sizes) {
    for (const char* const text :
         {"1 quart", "1 pt", "2 gallons", "1 cup", "8 fl oz", "8 tsp", "1 tablespoon", "1 oz"}) {
        const auto volume = parse_volume(text);
        ASSERT_FALSE(volume) << text;
        EXPECT_NE(volume.error().what.find("different volumes"), std::string::npos)
            << volume.error().message();
    }
    const auto quart = parse_volume("1 quart").error().remedy;
    EXPECT_NE(quart.find("\"US quart\" (946 mL)"), std::string::npos) << quart;
    EXPECT_NE(quart.find("\"imp quart\" (1.14 L)"), std::string::npos) << quart;
    EXPECT_FALSE(parse_volume("1 imp cup")) << "there is none that everybody means";
    EXPECT_FALSE(parse_volume("1 metric quart"));
    EXPECT_FALSE(parse_volume("-1 US quart"));
}

TEST(ParseVolume, says_whose_measures_it_is_written_in) {
    for (const char* const text : {"32 US fl oz", "1 US quart", "2 us tbsp"})
        EXPECT_EQ(system_written_in(text), UnitSystem::us) << text;
    for (const char* const text : {"20 imp fl oz", "1 imp pint", "1 UK pint"})
        EXPECT_EQ(system_written_in(text), UnitSystem::imperial) << text;
    for (const char* const text : {"500 mL", "1 L", "2 metric cups", "1 quart", "nonsense", ""})
        EXPECT_EQ(system_written_in(text), UnitSystem::metric) << text;
}

TEST(ParseVolume, says_what_was_measured_with) {
    EXPECT_EQ(measure_named_in("8 US tsp"), NamedMeasure::spoon);
    EXPECT_EQ(measure_named_in("1 US quart"), NamedMeasure::vessel);
    EXPECT_EQ(measure_named_in("32 US fl oz"), NamedMeasure::none);
    EXPECT_EQ(measure_named_in("1 L"), NamedMeasure::none);
    EXPECT_EQ(measure_named_in("nothing"), NamedMeasure::none);
}

}  // namespace
}  // namespace mitefall::units
