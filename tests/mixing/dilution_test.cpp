#include "mixing/dilution.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <limits>

#include "mixing/dose.h"
#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::in_milligrams_per_litre;
using units::in_millilitres;
using units::milligrams_per_litre;
using units::millilitres;
using units::percent_mass_in_volume;

units::Day day(const char* text) { return units::parse_day(text).value(); }

// Common practice (safety.md, "Mixing arithmetic"): both recipes make 208.3 mg/L. 4.92892159375 mL x 8 x 5
// mg/mL / 946.352946 mL = 208.333 mg/L, since a US teaspoon is 1/192 of a US quart (NIST Handbook 44).
TEST(Dilution, teaspoons_of_the_home_recipe) {
    EXPECT_NEAR(in_milligrams_per_litre(strength_of(percent_mass_in_volume(0.5), units::us_teaspoons(8),
                                                    units::us_fluid_ounces(32))
                                            .value()),
                8.0 / 192 * 5000, 1e-9);
    EXPECT_NEAR(in_milligrams_per_litre(
                    strength_of(percent_mass_in_volume(1), units::us_teaspoons(4), units::us_fluid_ounces(32))
                        .value()),
                208.3, 0.05);
}

// Common practice (safety.md): 38 mL of 0.5 % in 32 US fl oz.
TEST(Dilution, measured_home_recipe) {
    const auto strength =
        strength_of(percent_mass_in_volume(0.5), millilitres(38), units::us_fluid_ounces(32));
    EXPECT_NEAR(in_milligrams_per_litre(strength.value()), 200.8, 0.05);
}

// Klingenberg, as quoted in safety.md: 1 mL of 1 % in a US quart, 10.6 mg/L.
TEST(Dilution, the_published_recipe_is_met) {
    const auto strength = strength_of(percent_mass_in_volume(1), millilitres(1), units::us_quarts(1));
    EXPECT_NEAR(in_milligrams_per_litre(strength.value()), 10.6, 0.05);
}

// C1 V1 = C2 V2 by hand: 10 mg/mL to 10 mg/L in 1 L is 1 mL of stock; 5 mg/mL to 200 mg/L in 500 mL is 20 mL.
TEST(Dilution, worked_by_hand) {
    const Recipe weak = mix(percent_mass_in_volume(1), units::litres(1), milligrams_per_litre(10)).value();
    EXPECT_DOUBLE_EQ(in_millilitres(weak.stock), 1);
    EXPECT_DOUBLE_EQ(in_millilitres(weak.diluent), 999);
    const Recipe strong =
        mix(percent_mass_in_volume(0.5), millilitres(500), milligrams_per_litre(200)).value();
    EXPECT_DOUBLE_EQ(in_millilitres(strong.stock), 20);
    EXPECT_DOUBLE_EQ(in_millilitres(strong.total), 500);
}

TEST(Dilution, stock_alone_needs_no_diluent) {
    const Recipe recipe = mix(milligrams_per_litre(10), millilitres(100), milligrams_per_litre(10)).value();
    EXPECT_DOUBLE_EQ(in_millilitres(recipe.stock), 100);  // C1 = C2
    EXPECT_DOUBLE_EQ(in_millilitres(recipe.diluent), 0);
}

TEST(Dilution, inverse_of_forward) {
    EXPECT_TRUE(rc::check("the recipe has the strength that was asked for", [] {
        const double stock = *rc::gen::inRange(1, 1000001);
        const double part = *rc::gen::inRange(1, 1000001) / 1e6;
        const units::Volume batch = millilitres(*rc::gen::inRange(1, 100000) / 10.0);
        const units::Strength target = milligrams_per_litre(stock * part);
        const Recipe recipe = mix(milligrams_per_litre(stock), batch, target).value();
        const auto back = strength_of(milligrams_per_litre(stock), recipe.stock, recipe.total).value();
        RC_ASSERT(std::fabs(back / target - 1) < 1e-12);  // a few roundings of 2^-53
        RC_ASSERT(recipe.stock + recipe.diluent <= recipe.total * (1 + 1e-12));
        RC_ASSERT(in_millilitres(recipe.diluent) >= -1e-9);
    }));
}

TEST(Dilution, refuses_impossible_amounts) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinite = std::numeric_limits<double>::infinity();
    const units::Strength stock = percent_mass_in_volume(1);
    for (const double bad : {0.0, -1.0, nan, infinite, -infinite}) {
        EXPECT_FALSE(mix(stock, millilitres(bad), milligrams_per_litre(10))) << bad;
        EXPECT_FALSE(mix(stock, millilitres(100), milligrams_per_litre(bad))) << bad;
        EXPECT_FALSE(mix(milligrams_per_litre(bad), millilitres(100), milligrams_per_litre(10))) << bad;
        EXPECT_FALSE(strength_of(stock, millilitres(bad), millilitres(100))) << bad;
        EXPECT_FALSE(strength_of(stock, millilitres(1), millilitres(bad))) << bad;
        EXPECT_FALSE(misted_dose(stock, units::grams(bad), tables())) << bad;
    }
    EXPECT_FALSE(mix(percent_mass_in_volume(101), millilitres(100), milligrams_per_litre(10)));
}

TEST(Dilution, refusals_say_value_limit_and_remedy) {
    const auto above = mix(milligrams_per_litre(100), millilitres(100), milligrams_per_litre(200));
    ASSERT_FALSE(above);
    EXPECT_EQ(above.error().kind, base::ErrorKind::invalid_input);
    EXPECT_EQ(above.error().value, "200 mg/L");
    EXPECT_NE(above.error().limit.find("100 mg/L"), std::string::npos);
    EXPECT_FALSE(above.error().remedy.empty());
    const auto small_bottle = strength_of(percent_mass_in_volume(1), millilitres(50), millilitres(30));
    ASSERT_FALSE(small_bottle);
    EXPECT_NE(small_bottle.error().what.find("bottle"), std::string::npos);
}

TEST(Dilution, refuses_expired_stock) {
    const Stock stock{percent_mass_in_volume(1), day("2026-05-31")};
    EXPECT_TRUE(mix(stock, millilitres(100), milligrams_per_litre(10), day("2026-05-31")));
    const auto late = mix(stock, millilitres(100), milligrams_per_litre(10), day("2026-06-01"));
    ASSERT_FALSE(late);
    EXPECT_NE(late.error().limit.find("2026-05-31"), std::string::npos);
}

// By hand from the evidence rows (10 x 512^(2/3) = 640 cm2; x 0.005 mL/cm2 = 3.2 mL; x 0.2 mg/mL = 0.64 mg;
// / 0.512 kg = 1.25 mg/kg). Low: 9 x 64 x 0.002 = 1.152 mL -> 0.45 mg/kg; high: 12.5 x 64 x 0.01 = 8 mL
// -> 3.125.
TEST(Dose, light_misting_of_a_512_g_animal_at_home_strength) {
    const auto dose = misted_dose(milligrams_per_litre(200), units::grams(512), tables()).value();
    EXPECT_NEAR(units::in_milligrams_per_kilogram(dose.likely), 1.25, 1e-12);
    EXPECT_NEAR(units::in_milligrams_per_kilogram(dose.low), 0.45, 1e-12);
    EXPECT_NEAR(units::in_milligrams_per_kilogram(dose.high), 3.125, 1e-12);
}

TEST(Dose, lighter_animals_get_more_per_kilogram) {
    EXPECT_TRUE(rc::check([] {
        const int light = *rc::gen::inRange(5, 5000);
        const int heavy = light + *rc::gen::inRange(1, 5000);
        const auto of = [](int grams) {
            return misted_dose(milligrams_per_litre(10), units::grams(grams), tables()).value().likely;
        };
        RC_ASSERT(of(light) > of(heavy));
    }));
}

}  // namespace
}  // namespace mitefall::mixing
