#include "mixing/spoons.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "mixing/bench.h"
#include "shared/tables.h"

namespace mitefall::mixing {
namespace {

using fixtures::tables;
using units::in_millilitres;
using units::millilitres;

Tool spoon(const char* written) { return level_spoon(read_spoon(written).value(), tables()); }

// NIST Handbook 44 appendix C: 1 US gallon is 231 cubic inches, 3785.411784 mL, and 768 teaspoons, each
// 4.92892159375 mL; a tablespoon is three. By hand: 14.78676478125, half of it 7.393382390625; half a
// teaspoon 2.464460796875, a quarter 1.2322303984375 mL. The metric teaspoon of the kitchen trade holds 5 mL.
TEST(Spoons, hold_the_parts_of_their_handbook) {
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1 US tsp").capacity), 3785.411784 / 768);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1/2 US tsp").capacity), 2.464460796875);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1/4 US tsp").capacity), 1.2322303984375);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1 US tbsp").capacity), 14.78676478125);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1/2 US tbsp").capacity), 7.393382390625);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("5 mL").capacity), 5);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("2.5 mL").capacity), 2.5);
    EXPECT_DOUBLE_EQ(in_millilitres(spoon("1.25 mL").capacity), 1.25);
}

// rules.toml, spoon_error: a tenth, an assumption, of a small spoon as of a large one. A tenth of 1.25 mL is
// 0.125 mL.
TEST(Spoons, are_off_by_the_same_part_of_what_they_hold_and_measure_only_themselves) {
    for (const Spoon& one : spoons_of_the_trade()) {
        const Tool tool = level_spoon(one, tables());
        EXPECT_EQ(tool.graduation, tool.capacity) << one.name;
        EXPECT_NEAR(tool.reading_error / tool.capacity, 0.1, 1e-12) << one.name;
        EXPECT_EQ(part_of_spoon(tool), one.part) << one.name;
        EXPECT_TRUE(is_spoon(tool.marks)) << one.name;
    }
    EXPECT_NEAR(in_millilitres(spoon("1.25 mL").reading_error), 0.125, 1e-12);
}

TEST(Spoons, are_asked_for_by_what_is_stamped_on_them_or_by_name_and_by_nothing_else) {
    std::set<std::string> names;
    for (const Spoon& one : spoons_of_the_trade()) {
        names.insert(std::string(one.name));
        EXPECT_EQ(read_spoon(one.written).value().name, one.name);
        EXPECT_EQ(read_spoon(one.name).value().written, one.written);
    }
    EXPECT_EQ(names.size(), spoons_of_the_trade().size()) << "a name tells one spoon";
    for (const char* const text : {"", "1/2 tsp", "1/3 US tsp", "1/2 us", "0.5 US tsp", "tablespoon"}) {
        const auto refused = read_spoon(text);
        ASSERT_FALSE(refused) << text;
        EXPECT_NE(refused.error().message().find("1/4 US tsp"), std::string::npos) << text;
    }
}

// 7.5 mL with a 5 mL and a 2.5 mL spoon: one of each, off by a tenth of each, 6.75 to 8.25 mL.
TEST(Spoons, a_half_spoon_goes_beside_a_whole_one) {
    const std::vector<Tool> tools{spoon("5 mL"), spoon("2.5 mL"), spoon("1.25 mL")};
    const Measurement measured = measure(millilitres(7.5), tools, usual_accuracy(tables())).value();
    ASSERT_EQ(measured.measures.size(), 2U);
    EXPECT_EQ(measured.measures[0].tool.name, "5 mL teaspoon");
    EXPECT_EQ(measured.measures[1].tool.name, "2.5 mL half-teaspoon");
    EXPECT_EQ(measured.steps, 2);
    EXPECT_TRUE(measured.rough);
    EXPECT_NEAR(in_millilitres(measured.low), 6.75, 1e-9);
    EXPECT_NEAR(in_millilitres(measured.high), 8.25, 1e-9);
}

// One of them, not a teaspoon that is twice as much: 2.46 mL of 1 % w/v in 32 US fl oz (946.35 mL) are
// 24.644 mg in 0.946353 L, 26.04 mg/L.
TEST(Spoons, half_a_teaspoon_is_one_half_spoon) {
    const std::vector<Tool> tools{spoon("1 US tsp"), spoon("1/2 US tsp"), spoon("1/4 US tsp")};
    const units::Volume half = units::us_teaspoons(0.5);
    const Measurement measured = measure(half, tools, usual_accuracy(tables())).value();
    ASSERT_EQ(measured.measures.size(), 1U);
    EXPECT_EQ(measured.measures[0].tool.name, "US half-teaspoon");
    EXPECT_EQ(measured.measures[0].times, 1);
    const auto made = strength_of(units::percent_mass_in_volume(1), measured, units::us_fluid_ounces(32));
    EXPECT_NEAR(units::in_milligrams_per_litre(made.value().nominal), 26.04, 0.005);
}

}  // namespace
}  // namespace mitefall::mixing
