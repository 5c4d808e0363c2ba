#include "mixing/tools.h"

#include "mixing/measure_search.h"
#include "mixing/spoons.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <map>
#include <set>

#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::in_millilitres;
using units::millilitres;

Accuracy usual() { return usual_accuracy(tables()); }

Tool cup_of_30() { return graduated_tool("30 mL cup", millilitres(30), millilitres(1)); }

// Common practice (safety.md): 38 mL with a 30 mL cup is two measures of 19 mL.
TEST(Tools, thirty_eight_millilitres_with_a_cup_of_thirty) {
    const std::vector<Tool> tools{cup_of_30()};
    const Measurement measured = measure(millilitres(38), tools, usual()).value();
    ASSERT_EQ(measured.measures.size(), 1U);
    EXPECT_DOUBLE_EQ(in_millilitres(measured.measures[0].amount), 19);
    EXPECT_EQ(measured.measures[0].times, 2);
    EXPECT_EQ(measured.steps, 2);
    EXPECT_FALSE(measured.rough);
    EXPECT_DOUBLE_EQ(in_millilitres(measured.low), 37);  // two measures, each half a graduation of 1 mL off
    EXPECT_DOUBLE_EQ(in_millilitres(measured.high), 39);
}

// 37, 38 and 39 mL of 5 mg/mL in 946.352946 mL.
TEST(Tools, range_of_the_resulting_strength) {
    const std::vector<Tool> tools{cup_of_30()};
    const Measurement measured = measure(millilitres(38), tools, usual()).value();
    const auto strength =
        strength_of(units::percent_mass_in_volume(0.5), measured, units::us_fluid_ounces(32)).value();
    EXPECT_NEAR(units::in_milligrams_per_litre(strength.low), 37 * 5000 / 946.352946, 1e-9);
    EXPECT_NEAR(units::in_milligrams_per_litre(strength.nominal), 200.8, 0.05);  // safety.md
    EXPECT_NEAR(units::in_milligrams_per_litre(strength.high), 39 * 5000 / 946.352946, 1e-9);
}

// Common practice (safety.md): 8 US teaspoons. A kitchen spoon is known to 10 % only (rules.toml,
// spoon_error).
TEST(Tools, spoons_are_a_rough_measure) {
    for (const Spoon& spoon : spoons_of_the_trade()) EXPECT_TRUE(is_spoon(spoon.marks)) << spoon.name;
    for (const Tool& tool : usual_syringes()) EXPECT_FALSE(is_spoon(tool.marks)) << tool.name;
    const std::vector<Tool> tools{level_spoon(whole_spoon(Marks::us_teaspoons), tables())};
    const Measurement measured = measure(units::us_teaspoons(8), tools, usual()).value();
    EXPECT_EQ(measured.steps, 8);
    EXPECT_TRUE(measured.rough);
    EXPECT_NEAR(measured.low / measured.total, 0.9, 1e-12);
}

TEST(Tools, a_fine_measure_goes_before_a_rough_one_of_fewer_steps) {
    const std::vector<Tool> tools{graduated_tool("20 mL syringe", millilitres(20), millilitres(1)),
                                  graduated_tool("1 mL syringe", millilitres(1), millilitres(0.01))};
    const Measurement measured = measure(millilitres(4), tools, usual()).value();
    EXPECT_EQ(measured.steps, 4);  // 4 x 1 mL; one 4 mL of the large syringe may be 0.5 mL, 12.5 %, off
    EXPECT_FALSE(measured.rough);
}

TEST(Tools, coarse_and_fine_together) {
    const std::vector<Tool> tools{graduated_tool("100 mL cup", millilitres(100), millilitres(1)),
                                  graduated_tool("1 mL syringe", millilitres(1), millilitres(0.01))};
    const Measurement measured =
        measure(millilitres(100.55), tools, {units::share(0.0055), units::share(0.0055)}).value();
    ASSERT_EQ(measured.measures.size(), 2U);  // 100 + 0.55; reading errors 0.5 + 0.005 mL are 0.5 %
    EXPECT_DOUBLE_EQ(in_millilitres(measured.measures[0].amount), 100);
    EXPECT_NEAR(in_millilitres(measured.measures[1].amount), 0.55, 1e-12);
}

TEST(Tools, uneven_measures_are_written_out) {
    const std::vector<Tool> tools{graduated_tool("cup", millilitres(15), millilitres(1))};
    const Measurement measured =
        measure(millilitres(38), tools, {units::share(0.1), units::share(0.1)}).value();
    ASSERT_EQ(measured.measures.size(), 2U);  // 38 = 2 x 13 + 12
    EXPECT_DOUBLE_EQ(in_millilitres(measured.measures[0].amount * measured.measures[0].times +
                                    measured.measures[1].amount * measured.measures[1].times),
                     38);
    EXPECT_EQ(measured.steps, 3);
}

TEST(Tools, refuses_what_the_tools_cannot_do) {
    const std::vector<Tool> tools{graduated_tool("20 mL syringe", millilitres(20), millilitres(1))};
    const auto small = measure(millilitres(1), tools, usual());
    ASSERT_FALSE(small);  // half a graduation is half of what is wanted
    EXPECT_NE(small.error().remedy.find("0.06 mL"), std::string::npos);  // 2 x 3 % of 1 mL
    EXPECT_NE(small.error().remedy.find("larger batch"), std::string::npos);
    EXPECT_FALSE(measure(millilitres(5000), tools, usual())) << "250 measures are not a recipe";
    EXPECT_FALSE(measure(millilitres(10), {}, usual()));
}

TEST(Tools, refuses_marks_nobody_can_read_and_more_tools_than_anybody_has) {
    const std::vector<Tool> finest{graduated_tool("syringe", millilitres(20), millilitres(20) / most_marks)};
    EXPECT_TRUE(measure(millilitres(19), finest, usual()));
    for (const double mark : {0.00001, 1e-300}) {
        const std::vector<Tool> finer{graduated_tool("cup", millilitres(250), millilitres(mark))};
        const auto refused = measure(millilitres(38), finer, usual());
        ASSERT_FALSE(refused) << mark;
        EXPECT_NE(refused.error().what.find("cup"), std::string::npos);
        EXPECT_NE(refused.error().limit.find("10000 marks"), std::string::npos) << refused.error().limit;
    }
    const std::vector<Tool> many(most_tools, cup_of_30());
    EXPECT_TRUE(measure(millilitres(38), many, usual()));
    const std::vector<Tool> more(most_tools + 1, cup_of_30());
    EXPECT_FALSE(measure(millilitres(38), more, usual()));
}

/// As many tools as may be, as finely marked as may be, no mark of one on a mark of another.
std::vector<Tool> hostile_tools() {
    std::vector<Tool> tools;
    for (std::size_t i = 0; i < most_tools; ++i) {
        const auto capacity = millilitres(std::sqrt(101.0 + static_cast<double>(i)));
        tools.push_back(graduated_tool("tool", capacity, capacity / (most_marks - 1)));
    }
    return tools;
}

TEST(Tools, looks_through_so_many_sequences_and_no_more) {
    const auto tools = hostile_tools();
    for (const double wanted : {5.0, 38.0, 150.0, 390.0}) {
        Effort little(1000);
        const auto measured = measure(millilitres(wanted), tools, usual(), little);
        if (!measured) {
            EXPECT_NE(measured.error().what.find("more marks"), std::string::npos);
        }
        EXPECT_EQ(measured.has_value(), !little.is_spent()) << "nothing is called best of a part";
    }
    Effort little(1000);
    EXPECT_FALSE(measure(millilitres(390), tools, usual(), little));
    EXPECT_TRUE(little.is_spent());
}

// However the tools are made, the question ends.
TEST(Tools, hostile_ones_are_answered_or_refused) {
    const auto tools = hostile_tools();
    for (const double wanted : {0.001, 0.5, 38.0, 390.0, 5000.0}) {
        const auto measured = measure(millilitres(wanted), tools, {units::share(1e-6), units::share(2e-6)});
        if (!measured) {
            EXPECT_FALSE(measured.error().what.empty());
        }
    }
}

TEST(Tools, usual_ones_take_a_small_part_of_the_effort) {
    std::vector<Tool> tools = usual_syringes();
    tools.push_back(cup_of_30());
    tools.push_back(level_spoon(whole_spoon(Marks::us_teaspoons), tables()));
    Effort tenth(Effort::usual / 10);
    for (int tenths = 1; tenths < 400; ++tenths)
        static_cast<void>(measure(millilitres(tenths / 10.0), tools, usual(), tenth));
    EXPECT_FALSE(tenth.is_spent()) << "four hundred questions together";
}

TEST(Tools, refuses_impossible_inputs) {
    const std::vector<Tool> good{cup_of_30()};
    for (const double bad : {0.0, -1.0, std::nan(""), HUGE_VAL}) {
        EXPECT_FALSE(measure(millilitres(bad), good, usual())) << bad;
        const std::vector<Tool> no_capacity{graduated_tool("cup", millilitres(bad), millilitres(1))};
        EXPECT_FALSE(measure(millilitres(10), no_capacity, usual())) << bad;
        const std::vector<Tool> no_graduation{graduated_tool("cup", millilitres(30), millilitres(bad))};
        EXPECT_FALSE(measure(millilitres(10), no_graduation, usual())) << bad;
    }
    const std::vector<Tool> upside_down{graduated_tool("cup", millilitres(1), millilitres(30))};
    EXPECT_FALSE(measure(millilitres(10), upside_down, usual()));
    EXPECT_FALSE(measure(millilitres(10), good, {units::share(0.1), units::share(0.05)}));
    EXPECT_FALSE(measure(millilitres(10), good, {units::share(std::nan("")), units::share(0.05)}));
}

/// Fewest measures by breadth-first search over all volumes, in units of 0.1 mL; reading errors left out.
int fewest_measures_slowly(int wanted, const std::vector<std::pair<int, int>>& capacity_and_graduation,
                           int tolerance) {
    std::set<std::pair<int, std::set<std::size_t>>> reached{{0, {}}};
    for (int steps = 1; steps <= 8; ++steps) {
        std::set<std::pair<int, std::set<std::size_t>>> next;
        for (const auto& [sum, used] : reached) {
            for (std::size_t tool = 0; tool < capacity_and_graduation.size(); ++tool) {
                auto with = used;
                with.insert(tool);
                if (with.size() > 2) continue;
                const auto [capacity, graduation] = capacity_and_graduation[tool];
                for (int amount = graduation; amount <= capacity && sum + amount <= wanted + tolerance;
                     amount += graduation) {
                    if (std::abs(sum + amount - wanted) <= tolerance) return steps;
                    next.insert({sum + amount, with});
                }
            }
        }
        reached = std::move(next);
    }
    return 9;
}

TEST(Tools, fewest_steps_agree_with_a_blind_search) {
    EXPECT_TRUE(rc::check("no shorter sequence exists", [] {
        const int wanted = *rc::gen::inRange(1, 60);
        const int count = *rc::gen::inRange(1, 4);
        std::vector<std::pair<int, int>> shapes;
        std::vector<Tool> tools;
        for (int i = 0; i < count; ++i) {
            const int graduation = *rc::gen::inRange(1, 6);
            const int capacity = graduation * *rc::gen::inRange(1, 5);
            shapes.emplace_back(capacity, graduation);
            // A reading error of next to nothing leaves the deviation as the only error.
            tools.push_back(
                {"tool", millilitres(capacity / 10.0), millilitres(graduation / 10.0), millilitres(1e-12)});
        }
        const double limit = 0.05;
        const int slow =
            fewest_measures_slowly(wanted, shapes, static_cast<int>(std::floor(wanted * limit + 1e-9)));
        const auto fast =
            measure(millilitres(wanted / 10.0), tools, {units::share(limit), units::share(limit)});
        if (slow <= 8) {
            RC_ASSERT(fast.has_value());
            RC_ASSERT(fast->steps == slow);
        } else {
            RC_ASSERT(!fast || fast->steps > 8);
        }
    }));
}

TEST(Tools, every_measure_can_be_read_off_its_tool) {
    EXPECT_TRUE(rc::check([] {
        const std::vector<Tool> tools = usual_syringes();
        const units::Volume wanted = millilitres(*rc::gen::inRange(10, 40000) / 100.0);
        const auto measured = measure(wanted, tools, usual());
        RC_PRE(measured.has_value());
        double total = 0;
        int steps = 0;
        for (const Measure& m : measured->measures) {
            const double graduations = m.amount / m.tool.graduation;
            RC_ASSERT(std::fabs(graduations - std::round(graduations)) < 1e-6);
            RC_ASSERT(m.amount <= m.tool.capacity * (1 + 1e-9));
            RC_ASSERT(m.times >= 1 && graduations > 0.5);
            total += in_millilitres(m.amount) * m.times;
            steps += m.times;
        }
        RC_ASSERT(steps == measured->steps);
        RC_ASSERT(std::fabs(total - in_millilitres(measured->total)) < 1e-9);
        const double worst = std::max(measured->high / wanted - 1, 1 - measured->low / wanted);
        RC_ASSERT(worst <= (measured->rough ? 0.15 : 0.03) +
                               1e-9);  // rules.toml: rough_measuring_error, measuring_error
    }));
}

}  // namespace
}  // namespace mitefall::mixing
