#include "statement/statement.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace mitefall::statement {
namespace {

constexpr auto two = kind("two", takes<std::string, std::string>("a b"));
constexpr auto amount = kind("amount", takes<units::Mass>("mass"));

RC_GTEST_PROP(Statements, one_key_for_one_statement,
              (const std::string& a, const std::string& b, const std::string& c, const std::string& d)) {
    const bool is_same = a == c && b == d;
    RC_ASSERT((two(a, b) == two(c, d)) == is_same);
    RC_ASSERT((key_of(two(a, b)) == key_of(two(c, d))) == is_same);
}

TEST(Statements, keys_tell_amounts_apart_to_the_last_bit) {
    EXPECT_NE(key_of(amount(units::grams(0.1 + 0.2))), key_of(amount(units::grams(0.3))));
    EXPECT_EQ(key_of(amount(units::grams(250))), key_of(amount(units::kilograms(0.25))));
}

TEST(Statements, arguments_carry_the_names_of_their_kind) {
    const Statement made = two("x", "y");
    ASSERT_EQ(made.arguments.size(), 2u);
    EXPECT_EQ(made.arguments[0].name, "a");
    EXPECT_EQ(made.arguments[1].name, "b");
    EXPECT_EQ(row_of(two).arguments, (std::vector<std::string_view>{"a", "b"}));
    EXPECT_TRUE(Statement{}.empty());
}

}  // namespace
}  // namespace mitefall::statement
