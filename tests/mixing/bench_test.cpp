#include "mixing/bench.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "mixing/compare.h"
#include "mixing/spoons.h"
#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::in_milligrams_per_litre;
using units::in_millilitres;
using units::milligrams_per_litre;
using units::millilitres;

const units::Strength one_percent = units::percent_mass_in_volume(1);

// 100 mL of 10 mg/L from 10 mg/mL takes 0.1 mL. A 1 mL syringe is read to 0.005 mL: 5 %, more than 3 %. One
// part in ten first: 0.5 mL of stock and 4.5 mL of water, and 1 mL of that. By hand, each off by half a mark:
//   0.5 mL +- 0.005; 4.5 mL as 3 mL +- 0.05 and 2 x 0.75 mL +- 0.01; 1 mL +- 0.005
//   least 10,000 x 0.495/(0.495 + 4.56) x 0.995/100 = 9.74332
//   most  10,000 x 0.505/(0.505 + 4.44) x 1.005/100 = 10.26340
TEST(Bench, a_stock_too_strong_for_the_tools_is_diluted_first) {
    const Recipe recipe = mix(one_percent, millilitres(100), milligrams_per_litre(10)).value();
    const std::vector<Tool> tools{graduated_tool("1 mL syringe", millilitres(1), millilitres(0.01)),
                                  graduated_tool("3 mL syringe", millilitres(3), millilitres(0.1))};
    EXPECT_TRUE(measure(recipe.stock, tools, usual_accuracy(tables())).value().rough);
    const Measured made = measure_batch(recipe, one_percent, tools, usual_accuracy(tables())).value();
    ASSERT_TRUE(made.first.has_value());
    EXPECT_NEAR(in_millilitres(made.first->stock.total), 0.5, 1e-9);
    EXPECT_NEAR(in_millilitres(made.first->water.total), 4.5, 1e-9);
    EXPECT_NEAR(in_milligrams_per_litre(made.first->strength.nominal), 1000, 1e-6);
    EXPECT_NEAR(in_millilitres(made.measurement.total), 1, 1e-9);
    EXPECT_NEAR(in_milligrams_per_litre(made.resulting.nominal), 10, 1e-9);
    EXPECT_NEAR(in_milligrams_per_litre(made.resulting.low), 9.74332, 1e-5);
    EXPECT_NEAR(in_milligrams_per_litre(made.resulting.high), 10.26340, 1e-5);
}

TEST(Bench, what_can_be_measured_at_once_is) {
    const Recipe recipe = mix(one_percent, units::litres(1), milligrams_per_litre(10)).value();
    const auto syringes = usual_syringes();
    const Measured made = measure_batch(recipe, one_percent, syringes, usual_accuracy(tables())).value();
    EXPECT_FALSE(made.first.has_value());
    EXPECT_EQ(made.measurement.steps, 1);
}

TEST(Bench, spoons_alone_stay_rough_and_a_bucket_is_refused) {
    const Recipe recipe =
        mix(units::percent_mass_in_volume(0.5), units::us_quarts(1), milligrams_per_litre(208.333)).value();
    const std::vector<Tool> spoons{level_spoon(whole_spoon(Marks::us_teaspoons), tables())};
    const Measured made =
        measure_batch(recipe, units::percent_mass_in_volume(0.5), spoons, usual_accuracy(tables())).value();
    EXPECT_TRUE(made.measurement.rough);
    EXPECT_FALSE(made.first.has_value());
    const std::vector<Tool> bucket{graduated_tool("bucket", units::litres(10), units::litres(1))};
    EXPECT_FALSE(measure_batch(recipe, one_percent, bucket, usual_accuracy(tables())));
    EXPECT_FALSE(measure_batch(recipe, one_percent, {}, usual_accuracy(tables())));
}

TEST(Bench, every_way_found_is_within_three_percent_whichever_way_the_errors_fall) {
    EXPECT_TRUE(rc::check([] {
        const double stock_mg_per_ml = *rc::gen::element(5.0, 10.0, 18.7, 50.0, 100.0);
        const units::Strength stock = units::milligrams_per_millilitre(stock_mg_per_ml);
        const double batch = *rc::gen::inRange(50, 3000);
        const double target = *rc::gen::element(5.0, 10.0, 10.6, 200.0);
        const Recipe recipe = mix(stock, millilitres(batch), milligrams_per_litre(target)).value();
        const auto tools = usual_syringes();
        const auto made = measure_batch(recipe, stock, tools, usual_accuracy(tables()));
        RC_ASSERT(made.has_value() || !made.error().remedy.empty());
        if (!made || made->measurement.rough) return;
        // A second way: the mass of active ingredient, with each volume at one of its ends.
        for (const int a : {-1, 1}) {
            for (const int w : {-1, 1}) {
                for (const int b : {-1, 1}) {
                    const auto end = [](const Measurement& m, int side) {
                        return in_millilitres(side < 0 ? m.low : m.high);
                    };
                    double mg_per_ml = stock_mg_per_ml;
                    if (made->first) {
                        const double in = end(made->first->stock, a);
                        mg_per_ml *= in / (in + end(made->first->water, w));
                    }
                    const double mg_per_l = mg_per_ml * end(made->measurement, b) / batch * 1000;
                    RC_ASSERT(std::fabs(mg_per_l / target - 1) <= 0.03 + 1e-9);
                    RC_ASSERT(mg_per_l >= in_milligrams_per_litre(made->resulting.low) * (1 - 1e-9));
                    RC_ASSERT(mg_per_l <= in_milligrams_per_litre(made->resulting.high) * (1 + 1e-9));
                }
            }
        }
    }));
}

TEST(Compare, stands_where_the_published_sprays_put_it) {
    const auto standing = [](double mg_per_l) {
        return compare_strength(milligrams_per_litre(mg_per_l), tables()).standing;
    };
    EXPECT_EQ(standing(4.9), Standing::weaker);
    EXPECT_EQ(standing(5), Standing::published);
    EXPECT_EQ(standing(10.6), Standing::published);
    EXPECT_EQ(standing(10.7), Standing::above);
    EXPECT_EQ(standing(std::nan("")), Standing::above) << "what is not a number is never fine";
    EXPECT_NEAR(compare_strength(milligrams_per_litre(200), tables()).multiple, 20, 1e-12);
}

// rules.toml: published 5 to 10 mg/L, strongest in print 10.6.
TEST(Compare, a_mix_is_judged_by_the_strongest_it_may_be) {
    const auto mg = [](double value) { return milligrams_per_litre(value); };
    const auto fine = compare_strength(MeasuredStrength{mg(10), mg(9.8), mg(10.5)}, tables());
    EXPECT_EQ(fine.standing, Standing::published);
    EXPECT_FALSE(fine.perhaps);
    EXPECT_EQ(fine.judged, mg(10));
    const auto perhaps = compare_strength(MeasuredStrength{mg(10), mg(5), mg(30)}, tables());
    EXPECT_EQ(perhaps.standing, Standing::above);
    EXPECT_TRUE(perhaps.perhaps);
    EXPECT_EQ(perhaps.judged, mg(30));
    EXPECT_NEAR(perhaps.multiple, 3, 1e-12);
    const auto above = compare_strength(MeasuredStrength{mg(200), mg(190), mg(210)}, tables());
    EXPECT_FALSE(above.perhaps);
    EXPECT_NEAR(above.multiple, 20, 1e-12);
}

}  // namespace
}  // namespace mitefall::mixing
