#include "mixing/thinning.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::in_milligrams_per_litre;
using units::in_millilitres;
using units::milligrams_per_litre;
using units::millilitres;

MeasuredStrength strength(double nominal, double low, double high) {
    return {milligrams_per_litre(nominal), milligrams_per_litre(low), milligrams_per_litre(high)};
}

// By hand, C1 V1 = C2 V2: 1 L of 20 mg/L, 25 at the most, down to 10 with jugs that are 5 % off. Water: 1,000
// (25/10 - 1) / 0.95 = 1,579 mL, rounded up 1,600; then 20 / 2.6 = 7.69, at the most 25 / (1 + 1.6 x 0.95)
// = 9.92. Part: 1,000 x 0.4 x 0.95 / 1.05 = 362 mL, rounded down 360; then 20 x 0.36 = 7.2, at the most 25 x
// 0.36 x 1.05 / 0.95 = 9.95.
TEST(Thinning, brings_a_litre_at_twice_the_strongest_published_below_it) {
    const Thinning thinned =
        thin(strength(20, 15, 25), millilitres(1000), milligrams_per_litre(10), tables());
    EXPECT_FALSE(thinned.mix_anew);
    const std::vector<Thinned>& ways = thinned.ways;
    ASSERT_EQ(ways.size(), 2u);
    EXPECT_EQ(ways[0].way, ThinWay::all);
    EXPECT_EQ(ways[1].way, ThinWay::part);
    EXPECT_DOUBLE_EQ(in_millilitres(ways[0].water), 1600);
    EXPECT_DOUBLE_EQ(in_millilitres(ways[0].total), 2600);
    EXPECT_NEAR(in_milligrams_per_litre(ways[0].resulting.nominal), 7.6923, 1e-4);
    EXPECT_NEAR(in_milligrams_per_litre(ways[0].resulting.high), 9.9206, 1e-4);
    EXPECT_DOUBLE_EQ(in_millilitres(ways[1].mix), 360);
    EXPECT_DOUBLE_EQ(in_millilitres(ways[1].water), 640);
    EXPECT_DOUBLE_EQ(in_milligrams_per_litre(ways[1].resulting.nominal), 7.2);
    EXPECT_NEAR(in_milligrams_per_litre(ways[1].resulting.high), 9.9474, 1e-4);
}

TEST(Thinning, is_not_asked_for_where_a_mix_is_weak_enough_at_its_strongest) {
    const Thinning none = thin(strength(8, 7, 10), millilitres(1000), milligrams_per_litre(10), tables());
    EXPECT_TRUE(none.ways.empty());
    EXPECT_FALSE(none.mix_anew);
}

// A litre at ten times the limit would become more than ten litres; at more than that it is mixed anew.
TEST(Thinning, is_no_use_where_it_is_more_than_ten_times_too_strong) {
    const auto of = [](double high) {
        return thin(strength(high / 1.2, high / 1.5, high), millilitres(1000), milligrams_per_litre(10),
                    tables());
    };
    EXPECT_EQ(of(100).ways.size(), 2u);
    EXPECT_GT(in_millilitres(of(100).ways[0].total), 10'000);
    EXPECT_TRUE(of(101).ways.empty());
    EXPECT_TRUE(of(101).mix_anew);
}

RC_GTEST_PROP(Thinning, never_leaves_more_than_the_limit_and_never_more_drug_than_there_was, ()) {
    const double high = *rc::gen::inRange(1, 630) / 7.0 + 10;
    const auto before = strength(high / 1.2, high / 1.5, high);
    const auto total = millilitres(*rc::gen::inRange(20, 20'000));
    const std::vector<Thinned> ways = thin(before, total, milligrams_per_litre(10), tables()).ways;
    RC_ASSERT(ways.size() == 2u);
    for (const Thinned& way : ways) {
        RC_ASSERT(in_milligrams_per_litre(way.resulting.high) <= 10 * (1 + 1e-12));
        RC_ASSERT(way.resulting.low <= way.resulting.nominal && way.resulting.nominal <= way.resulting.high);
        RC_ASSERT(way.mix <= total && way.water > units::Volume{});
        const double drug = (way.resulting.nominal * way.total) / (before.nominal * way.mix);
        RC_ASSERT(drug > 1 - 1e-9 && drug < 1 + 1e-9);
    }
}

}  // namespace
}  // namespace mitefall::mixing
