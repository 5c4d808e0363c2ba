#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "mixing/dilution.h"
#include "mixing/money.h"
#include "units/text.h"

// Exercises with published answers, and the two ways of asking against each other.
namespace mitefall::mixing {
namespace {

using units::in_milligrams_per_litre;
using units::in_millilitres;
using units::millilitres;
using units::percent_mass_in_volume;

/// w/v ratio strength 1:n is 1 g in n mL (USP general notices 8.140), so 100/n % w/v.
units::Strength one_in(double n) { return percent_mass_in_volume(100 / n); }

// Ansel, Pharmaceutical Calculations, chapter on altering product strength and stock solutions (figures from
// memory; they follow from C1 V1 = C2 V2, which is also how the book has them solved).
TEST(WorkedExamples, dilutions_of_a_textbook) {
    // 50 mL of 1:20 w/v diluted to 1000 mL: 1:400.
    EXPECT_NEAR(strength_of(one_in(20), millilitres(50), millilitres(1000)).value() / one_in(400), 1, 1e-12);
    // 1:400 stock for 4 L of 1:2000: 800 mL.
    EXPECT_NEAR(in_millilitres(mix(one_in(400), units::litres(4), one_in(2000)).value().stock), 800, 1e-9);
    // 500 mL of 15 % diluted to 1500 mL: 5 %.
    EXPECT_NEAR(strength_of(percent_mass_in_volume(15), millilitres(500), millilitres(1500)).value() /
                    percent_mass_in_volume(5),
                1, 1e-12);
    // 125 mL of 0.2 % makes 1250 mL of 1:5000.
    EXPECT_NEAR(
        in_millilitres(mix(percent_mass_in_volume(0.2), millilitres(1250), one_in(5000)).value().stock), 125,
        1e-9);
}

// Alligation alternate, the method of every pharmacy text: parts are the differences taken crosswise. Water
// is 0 %, so from 1 % for 0.02 %: 0.02 parts of stock to 0.98 of water.
TEST(WorkedExamples, alligation_agrees_with_the_recipe) {
    for (const auto& [high, wanted] : {std::pair{1.0, 0.02}, {0.5, 0.001}, {10.0, 2.5}}) {
        const double parts_stock = wanted - 0;
        const double parts_water = high - wanted;
        const Recipe recipe =
            mix(percent_mass_in_volume(high), millilitres(600), percent_mass_in_volume(wanted)).value();
        EXPECT_NEAR(recipe.stock / recipe.diluent, parts_stock / parts_water, 1e-12);
    }
}

// Rules of the trade and the published strength (docs: safety rules): 8 US tsp of 0.5 % or 4 of 1 % in 32 US
// fl oz; 38 mL of 0.5 %; 1 mL of 1 % in a US quart.
TEST(WorkedExamples, recipes_of_the_trade) {
    const units::Volume bottle = units::us_fluid_ounces(32);
    const auto mg_per_l = [&](double percent, units::Volume stock) {
        return in_milligrams_per_litre(strength_of(percent_mass_in_volume(percent), stock, bottle).value());
    };
    EXPECT_NEAR(mg_per_l(0.5, units::us_teaspoons(8)), 208.333, 1e-3);
    EXPECT_NEAR(mg_per_l(1, units::us_teaspoons(4)), 208.333, 1e-3);
    EXPECT_NEAR(mg_per_l(0.5, millilitres(38)), 200.771, 1e-3);
    EXPECT_NEAR(mg_per_l(1, millilitres(1)), 10.567, 1e-3);
}

// NIST Handbook 44 (2023), appendix C: 1 US gallon 3.785 411 784 L, 1 quart 0.946 352 946 L, 1 pint
// 0.473 176 473 L, 1 fl oz 29.573 53 mL; SP 811 B.8: imperial gallon 4.546 09 L, imperial fl oz 28.413 06 mL.
TEST(WorkedExamples, bottles_of_the_handbooks) {
    const auto ml = [](const char* text) { return in_millilitres(units::parse_volume(text).value()); };
    EXPECT_DOUBLE_EQ(ml("1 US gallon"), 3785.411784);
    EXPECT_DOUBLE_EQ(ml("1 US qt"), 946.352946);
    EXPECT_DOUBLE_EQ(ml("1 US pint"), 473.176473);
    EXPECT_NEAR(ml("1 US fl oz"), 29.57353, 5e-6);
    EXPECT_DOUBLE_EQ(ml("1 imp gal"), 4546.09);
    EXPECT_DOUBLE_EQ(ml("4 imp qt"), 4546.09);
    EXPECT_DOUBLE_EQ(ml("8 imp pint"), 4546.09);
    EXPECT_NEAR(ml("1 imp fl oz"), 28.41306, 5e-6);
}

TEST(WorkedExamples, the_inverse_of_a_mix_is_its_target) {
    EXPECT_TRUE(rc::check([] {
        for (int i = 0; i < 100; ++i) {
            const double stock = *rc::gen::inRange(1, 1000000);
            const double target = stock * *rc::gen::inRange(1, 1000) / 1000.0;
            const double batch = *rc::gen::inRange(1, 100000) / 7.0;
            const Recipe recipe = mix(units::milligrams_per_litre(stock), millilitres(batch),
                                      units::milligrams_per_litre(target))
                                      .value();
            const auto back =
                strength_of(units::milligrams_per_litre(stock), recipe.stock, recipe.total).value();
            RC_ASSERT(std::fabs(in_milligrams_per_litre(back) / target - 1) < 1e-12);
            RC_ASSERT(recipe.diluent >= units::Volume());
        }
    }));
}

// ISO 4217: JPY has no decimals, KWD three, EUR two.
TEST(Money, is_read_and_written_in_the_decimals_of_its_currency) {
    EXPECT_EQ(Money::parse("18.90 EUR").value().minor_units(), 1890);
    EXPECT_EQ(Money::parse("18.9 EUR").value().minor_units(), 1890);
    EXPECT_EQ(Money::parse("1500 JPY").value().minor_units(), 1500);
    EXPECT_EQ(Money::parse("1.234 KWD").value().minor_units(), 1234);
    EXPECT_EQ(show(Money::parse("1500 JPY").value()), "1500 JPY");
    EXPECT_EQ(show(Money::parse("0.05 GBP").value()), "0.05 GBP");
    EXPECT_EQ(show(Money::parse("12.005 KWD").value()), "12.005 KWD");
    for (const char* const bad : {"", "EUR", "18.90", "18.905 EUR", "1.5 JPY", "-1 EUR", "1e3 EUR", "1,5 EUR",
                                  "99999999999999999999 EUR", "5 euro", "nan EUR", ".5 EUR"}) {
        EXPECT_FALSE(Money::parse(bad)) << bad;
    }
}

}  // namespace
}  // namespace mitefall::mixing
