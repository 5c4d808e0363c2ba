#include "worklist/shopping.h"

#include <gtest/gtest.h>

#include "plan/stage.h"

namespace mitefall::worklist {
namespace {

using plan::Scope;
using plan::Stage;
using safety::Scene;
using safety::today;
using units::Days;
using units::in_millilitres;

mixing::Money euros(long long cents) { return mixing::Money::make(cents, "EUR").value(); }

/// Stock of 1 % = 10,000 mg/L, so 10 mg/L takes one part in 1000.
Bench bench() {
    return {{units::percent_mass_in_volume(1), std::nullopt},
            mixing::usual_syringes(),
            {{units::millilitres(0.5), euros(300)}, {units::millilitres(2), euros(1000)}},
            std::nullopt,
            false,
            mixing::StockForm::plain};
}

plan::Schedule schedule_of(const plan::Course& course, const Stage& stage) {
    return plan::fit(plan::assign(course, stage.setting), stage.setting);
}

// Hand-computed from rules.toml: floor 2000 cm2, one snake of 500 g, rounds on days 0 and 7, damp while the
// dish may be out.
//   a round    0.03 x 2000 = 60 mL on the paper, 0.005 x 10 x 500^(2/3) = 3.14980 mL on the snake: 63.14980
//   mL upkeep     0.02 x 2000 = 40 mL on each of days 1, 2, 8 and 9 batch      made on day 0, good to day 14
//   (USP <795> 2023): 2 x 63.14980 + 4 x 40 = 286.29960 mL spare 15 % 329.24454 mL;  stock one in 1000:
//   0.32924 mL;  soap 6.34 a litre: 2.09 -> 2 drops packages   one of 0.5 mL for 3.00 beats one of 2 mL
//   for 10.00; one snake, so 3.00 each
TEST(Shopping, totals_of_two_rounds_with_damp_paper) {
    const Stage stage{Scene()};
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, bench()).value();
    const mixing::CourseTotals& totals = shopping.totals;
    ASSERT_EQ(totals.needs.size(), 6u);
    EXPECT_NEAR(in_millilitres(totals.needs[0].volume), 63.14980, 1e-4);
    EXPECT_NEAR(in_millilitres(totals.needs[1].volume), 40, 1e-9);
    EXPECT_NEAR(in_millilitres(totals.needs[3].volume), 63.14980, 1e-4);
    EXPECT_EQ(totals.needs.back().day, today() + Days(9));
    ASSERT_EQ(totals.batches.size(), 1u);
    EXPECT_EQ(totals.batches[0].made_on, today());
    EXPECT_EQ(totals.batches[0].discard_by, today() + Days(14));
    EXPECT_NEAR(in_millilitres(totals.batches[0].recipe.total), 329.24454, 1e-3);
    EXPECT_NEAR(in_millilitres(totals.batches[0].recipe.stock), 0.32924, 1e-5);
    EXPECT_EQ(totals.batches[0].wetting_drops, 2);
    EXPECT_NEAR(in_millilitres(totals.spray), 329.24454, 1e-3);
    EXPECT_NEAR(in_millilitres(totals.stock), 0.32924, 1e-5);
    ASSERT_TRUE(totals.purchase.has_value());
    EXPECT_EQ(totals.purchase->number, 1);
    EXPECT_EQ(in_millilitres(totals.purchase->package.volume), 0.5);
    EXPECT_EQ(totals.purchase->cost, euros(300));
    EXPECT_EQ(totals.cost_per_animal, euros(300));
}

TEST(Shopping, the_spray_to_mix_is_the_burden_with_spare) {
    Scene scene;
    scene.add_enclosure("vivarium", "room");
    scene.add_animal("berta", "corn snake", "vivarium");
    const Stage stage(scene);
    for (const bool damp : {false, true}) {
        const plan::Schedule schedule = schedule_of({3, 9, {true, damp}, Scope::sighted_rooms}, stage);
        const auto shopping = shop_for(schedule, stage.setting, bench()).value();
        EXPECT_NEAR(in_millilitres(shopping.totals.spray), in_millilitres(schedule.burden.spray) * 1.15,
                    1e-6);
    }
}

TEST(Shopping, every_batch_says_how_to_measure_its_stock) {
    const Stage stage{Scene()};
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, bench()).value();
    ASSERT_EQ(shopping.batches.size(), shopping.totals.batches.size());
    for (const BatchSheet& sheet : shopping.batches) {
        ASSERT_TRUE(sheet.measured.has_value());
        EXPECT_TRUE(sheet.cannot_measure.empty());
        // A 1 mL syringe reads to 0.01 mL; 3 % is the error accepted (rules.toml, measuring_error).
        EXPECT_NEAR(units::in_milligrams_per_litre(sheet.measured->resulting.nominal), 10, 0.3);
        EXPECT_LE(sheet.measured->resulting.low, sheet.measured->resulting.nominal);
        EXPECT_GE(sheet.measured->resulting.high, sheet.measured->resulting.nominal);
    }
}

// Nobody is taken to have a plain solution: what to buy is told, how to measure it is not.
TEST(Shopping, no_recipe_before_the_bottle_is_named) {
    const Stage stage{Scene()};
    Bench unnamed = bench();
    unnamed.stock_is = mixing::StockForm::not_told;
    const auto schedule = schedule_of({2, 7, {false, true}, Scope::sighted}, stage);
    const auto shopping = shop_for(schedule, stage.setting, unnamed).value();
    ASSERT_FALSE(shopping.batches.empty());
    for (const BatchSheet& sheet : shopping.batches) {
        EXPECT_FALSE(sheet.measured.has_value());
        EXPECT_NE(sheet.cannot_measure.find("what is in the bottle?"), std::string::npos);
    }
    EXPECT_EQ(in_millilitres(shopping.totals.stock),
              in_millilitres(shop_for(schedule, stage.setting, bench()).value().totals.stock));
}

TEST(Shopping, without_a_fine_enough_tool_it_says_so_and_still_totals) {
    const Stage stage{Scene()};
    Bench coarse = bench();
    coarse.tools = {mixing::graduated_tool("cup", units::millilitres(250), units::millilitres(50))};
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, coarse).value();
    EXPECT_NEAR(in_millilitres(shopping.totals.stock), 0.32924, 1e-5);
    for (const BatchSheet& sheet : shopping.batches) {
        EXPECT_FALSE(sheet.measured.has_value());
        EXPECT_FALSE(sheet.cannot_measure.empty());
    }
}

// The weight is too old on day 7 (rules.toml, weight_valid_for 60 d), so only day 0 is sprayed and days 1 and
// 2 kept damp: 63.14980 + 2 x 40 = 143.14980 mL.
TEST(Shopping, what_is_refused_is_not_mixed) {
    Scene scene;
    scene.weigh(500, 55);
    const Stage stage(scene);
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, bench()).value();
    EXPECT_NEAR(in_millilitres(shopping.totals.spray), 143.14980 * 1.15, 1e-3);
}

TEST(Shopping, a_plan_that_sprays_nothing_needs_no_drug_but_what_its_tasks_do) {
    Scene scene;
    scene.weigh(100);
    const Stage stage(scene);
    const auto shopping =
        shop_for(schedule_of({1, 7, {true, true}, Scope::sighted}, stage), stage.setting, bench());
    ASSERT_TRUE(shopping.has_value());
    EXPECT_TRUE(shopping->batches.empty());
    EXPECT_EQ(in_millilitres(shopping->totals.spray), 0);
    EXPECT_FALSE(shopping->supplies.empty());
    const auto nothing = shop_for(plan::Schedule{}, stage.setting, bench());
    ASSERT_FALSE(nothing.has_value());
    EXPECT_EQ(nothing.error().kind, base::ErrorKind::not_found);
}

TEST(Shopping, refuses_a_stock_that_expires_before_it_is_needed) {
    const Stage stage{Scene()};
    Bench old = bench();
    old.stock.expires = today() + Days(5);
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, false}, Scope::sighted}, stage), stage.setting, old);
    ASSERT_FALSE(shopping.has_value());
    EXPECT_EQ(shopping.error().kind, base::ErrorKind::invalid_input);
}

// As above, 286.29960 mL before the spare of 15 %. A 300 mL bottle holds 260.870 mL of that: days 0 to 8 take
// 246.29960, day 9 would make 286.29960, so it is mixed on its own.
TEST(Shopping, no_batch_is_larger_than_the_bottle_and_each_is_made_when_it_is_needed) {
    const Stage stage{Scene()};
    Bench small = bench();
    small.bottle = units::millilitres(300);
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, small).value();
    ASSERT_EQ(shopping.batches.size(), 2U);
    const std::vector<std::pair<int, double>> expected{{0, 246.29960}, {9, 40}};
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_EQ(shopping.batches[i].batch.made_on, today() + Days(expected[i].first));
        EXPECT_NEAR(in_millilitres(shopping.batches[i].batch.recipe.total), expected[i].second * 1.15, 1e-3);
    }
    EXPECT_NEAR(in_millilitres(shopping.totals.spray), 329.24454, 1e-3);
}

TEST(Shopping, each_animal_and_enclosure_has_its_share) {
    const Stage stage{Scene()};
    const auto shopping =
        shop_for(schedule_of({2, 7, {false, true}, Scope::sighted}, stage), stage.setting, bench()).value();
    ASSERT_EQ(shopping.animals.size(), 1U);
    EXPECT_EQ(shopping.animals[0].times, 2);
    EXPECT_NEAR(in_millilitres(shopping.animals[0].each.likely), 3.14980, 1e-5);
    ASSERT_EQ(shopping.enclosures.size(), 1U);
    EXPECT_EQ(shopping.enclosures[0].sprayings, 2);
    EXPECT_NEAR(in_millilitres(shopping.enclosures[0].each), 60, 1e-9);
    EXPECT_EQ(shopping.enclosures[0].damp_days, 4);  // days 1, 2, 8 and 9
    EXPECT_NEAR(in_millilitres(shopping.enclosures[0].upkeep), 40, 1e-9);
}

}  // namespace
}  // namespace mitefall::worklist
