#include "mixing/course.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::Days;
using units::grams;
using units::in_millilitres;
using units::millilitres;
using units::square_centimetres;

units::Day day(const char* text) { return units::parse_day(text).value(); }
Money euros(long long cents) { return Money::make(cents, "EUR").value(); }

CourseRequest two_rounds() {
    CourseRequest request;
    request.stock = {units::percent_mass_in_volume(1), std::nullopt};
    request.target = units::milligrams_per_litre(10);
    request.spare = units::share(0);
    request.sprayings = {{day("2026-03-01"), {grams(1000)}, square_centimetres(5000)},
                         {day("2026-03-08"), {grams(1000)}, square_centimetres(5000)}};
    return request;
}

// Rows of rules.toml by hand: 10 x 1000^(2/3) = 1000 cm2 x 0.005 = 5 mL on the animal, 5000 cm2 x 0.03 = 150
// mL.
TEST(Course, spray_of_one_day) {
    const auto needed = spray_needed({day("2026-03-01"), {grams(1000)}, square_centimetres(5000)}, tables());
    EXPECT_NEAR(in_millilitres(needed.value()), 155, 1e-9);
}

TEST(Course, two_rounds_a_week_apart_take_one_batch) {
    const CourseTotals totals = plan_mixing(two_rounds(), tables()).value();
    ASSERT_EQ(totals.batches.size(), 1U);
    EXPECT_EQ(units::format_day(totals.batches[0].discard_by), "2026-03-15");  // 14 d, USP <795> 2023
    EXPECT_NEAR(in_millilitres(totals.spray), 310, 1e-9);                      // 2 x 155 mL
    EXPECT_NEAR(in_millilitres(totals.stock), 0.31, 1e-12);  // 10 mg/L from 10,000 mg/L: one in 1000
    EXPECT_EQ(totals.batches[0].wetting_drops, 2);           // 6.34 per L x 0.31 L = 1.97
}

// 100 cm2 damp from the 2nd to the 15th, the 8th sprayed anyway: 13 days x 0.02 mL/cm2 x 100 cm2 = 26 mL.
TEST(Course, damp_paper_is_kept_damp) {
    CourseRequest request = two_rounds();
    request.damp = {{square_centimetres(100), day("2026-03-02"), day("2026-03-15"), {day("2026-03-08")}}};
    const CourseTotals totals = plan_mixing(request, tables()).value();
    EXPECT_NEAR(in_millilitres(totals.spray), 310 + 26, 1e-9);
    EXPECT_EQ(totals.needs.size(), 15U);  // 1 to 15 March
    EXPECT_EQ(totals.batches.size(), 1U) << "the last day of use is day 14";
}

TEST(Course, the_default_spare_is_that_of_the_evidence) {
    CourseRequest request = two_rounds();
    request.spare.reset();
    EXPECT_NEAR(in_millilitres(plan_mixing(request, tables())->spray), 310 * 1.15,
                1e-9);  // rules.toml: spare 15 %
}

TEST(Course, a_long_course_needs_fresh_batches) {
    CourseRequest request = two_rounds();
    request.sprayings.push_back(
        {day("2026-03-16"), {grams(1000)}, {}});  // a day after the first batch is thrown away
    const CourseTotals totals = plan_mixing(request, tables()).value();
    ASSERT_EQ(totals.batches.size(), 2U);
    EXPECT_EQ(units::format_day(totals.batches[1].made_on), "2026-03-16");
    request.preserved = true;
    EXPECT_EQ(plan_mixing(request, tables())->batches.size(), 1U);  // 35 d, USP <795> 2023
}

TEST(Course, stock_that_expires_ends_the_batch_and_the_course) {
    CourseRequest request = two_rounds();
    request.stock.expires = day("2026-03-08");
    EXPECT_EQ(units::format_day(plan_mixing(request, tables())->batches[0].discard_by), "2026-03-08");
    request.stock.expires = day("2026-03-07");
    const auto late = plan_mixing(request, tables());
    ASSERT_FALSE(late);
    EXPECT_NE(late.error().what.find("expired"), std::string::npos);
}

TEST(Course, batches_are_discarded_by_their_date) {
    const units::Day made = day("2026-03-01");
    EXPECT_EQ(discard_by(made, false, std::nullopt, tables()), made + Days(14));  // USP <795> 2023
    EXPECT_EQ(discard_by(made, true, std::nullopt, tables()), made + Days(35));   // USP <795> 2023
    EXPECT_EQ(discard_by(made, true, made + Days(3), tables()), made + Days(3));
    EXPECT_EQ(discard_by(made, false, made + Days(300), tables()), made + Days(14));
}

TEST(Course, wetting_agent_is_scaled) {
    EXPECT_EQ(wetting_drops(units::us_fluid_ounces(32), tables()).value(),
              6);  // common practice: 6 in 32 US fl oz
    EXPECT_EQ(wetting_drops(units::us_fluid_ounces(128), tables()).value(), 24);
    EXPECT_EQ(wetting_drops(millilitres(20), tables()).value(), 1);
    EXPECT_FALSE(wetting_drops(millilitres(0), tables()));
}

TEST(Course, whole_packages_at_least_cost) {
    const std::vector<Package> packages{{millilitres(50), euros(1200)}, {millilitres(200), euros(2000)}};
    const Purchase few = choose_packages(millilitres(50), packages).value();
    EXPECT_EQ(few.number, 1);
    EXPECT_EQ(few.cost->minor_units(), 1200);
    const Purchase many = choose_packages(millilitres(51), packages).value();  // 2 x 12 EUR or 1 x 20 EUR
    EXPECT_EQ(many.number, 1);
    EXPECT_EQ(many.cost->minor_units(), 2000);
}

TEST(Course, without_prices_the_least_excess) {
    const std::vector<Package> packages{{millilitres(50), std::nullopt}, {millilitres(200), std::nullopt}};
    EXPECT_EQ(choose_packages(millilitres(90), packages)->number, 2);  // 100 mL rather than 200
}

TEST(Course, cost_per_animal_is_rounded_up) {
    CourseRequest request = two_rounds();
    request.sprayings[0].animals = {grams(500), grams(600), grams(700)};
    request.packages = {{millilitres(50), euros(1000)}};
    const CourseTotals totals = plan_mixing(request, tables()).value();
    EXPECT_EQ(totals.purchase->number, 1);
    EXPECT_EQ(totals.cost_per_animal->minor_units(), 334);  // 10.00 / 3
}

TEST(Course, refuses_mixed_currencies_and_missing_prices) {
    const std::vector<Package> mixed{{millilitres(50), euros(1)},
                                     {millilitres(50), Money::make(1, "USD").value()}};
    EXPECT_FALSE(choose_packages(millilitres(10), mixed));
    const std::vector<Package> missing{{millilitres(50), euros(1)}, {millilitres(50), std::nullopt}};
    EXPECT_FALSE(choose_packages(millilitres(10), missing));
    EXPECT_FALSE(choose_packages(millilitres(10), {}));
}

TEST(Course, refuses_impossible_requests) {
    EXPECT_FALSE(plan_mixing({}, tables())) << "nothing to spray";
    CourseRequest request = two_rounds();
    request.target = units::percent_mass_in_volume(2);
    EXPECT_FALSE(plan_mixing(request, tables())) << "target above the stock";
    request = two_rounds();
    request.sprayings[0].animals = {grams(std::nan(""))};
    EXPECT_FALSE(plan_mixing(request, tables()));
    request = two_rounds();
    request.sprayings[0].bedding = square_centimetres(-1);
    EXPECT_FALSE(plan_mixing(request, tables()));
    request = two_rounds();
    request.damp = {{square_centimetres(100), day("2026-03-15"), day("2026-03-02"), {}}};
    EXPECT_FALSE(plan_mixing(request, tables())) << "the last day before the first";
    request = two_rounds();
    request.spare = units::share(std::nan(""));
    EXPECT_FALSE(plan_mixing(request, tables()));
}

TEST(Course, batches_cover_every_day_and_are_never_used_late) {
    EXPECT_TRUE(rc::check([] {
        CourseRequest request = two_rounds();
        request.sprayings.clear();
        const auto days = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 120));
        RC_PRE(!days.empty());
        for (const int d : days) request.sprayings.push_back({day("2026-03-01") + Days(d), {grams(300)}, {}});
        request.preserved = *rc::gen::arbitrary<bool>();
        const CourseTotals totals = plan_mixing(request, tables()).value();
        units::Volume needed;
        for (const DayNeed& need : totals.needs) {
            needed += need.volume;
            const auto covers = [&](const Batch& b) {
                return b.made_on <= need.day && need.day <= b.discard_by;
            };
            RC_ASSERT(std::any_of(totals.batches.begin(), totals.batches.end(), covers));
        }
        RC_ASSERT(std::fabs(totals.spray / needed - 1) < 1e-9);  // no spare was asked for
    }));
}

TEST(Money, whole_minor_units_of_one_currency) {
    EXPECT_EQ(euros(150).plus(euros(50))->minor_units(), 200);
    EXPECT_EQ(euros(150).times(3)->minor_units(), 450);
    EXPECT_FALSE(euros(1).plus(Money::make(1, "USD").value()));
    for (const char* const code : {"", "eur", "EU", "EURO", "E1R"})
        EXPECT_FALSE(Money::make(1, code)) << code;
    EXPECT_FALSE(Money::make(-1, "EUR"));
    EXPECT_FALSE(euros(std::numeric_limits<long long>::max()).plus(euros(1)));
    EXPECT_FALSE(euros(std::numeric_limits<long long>::max()).times(2));
    EXPECT_FALSE(euros(1).times(-1));
    EXPECT_FALSE(euros(1).split(0));
}

}  // namespace
}  // namespace mitefall::mixing
