#include "units/whole_days.h"

#include <gtest/gtest.h>

namespace mitefall::units {
namespace {

TEST(WholeDays, a_limit_is_never_longer_than_it_says) {
    EXPECT_EQ(at_most_days(days_long(7)), Days(7));
    EXPECT_EQ(at_most_days(days_long(7.9)), Days(7));
    EXPECT_EQ(at_most_days(hours_long(23)), Days(0));
    EXPECT_EQ(at_most_days(hours_long(72)), Days(3));
}

TEST(WholeDays, a_wait_is_never_shorter_than_it_says) {
    EXPECT_EQ(at_least_days(days_long(7)), Days(7));
    EXPECT_EQ(at_least_days(days_long(7.1)), Days(8));
    EXPECT_EQ(at_least_days(hours_long(1)), Days(1));
    EXPECT_EQ(at_least_days(hours_long(72)), Days(3));
    EXPECT_EQ(at_least_days(TimeSpan()), Days(0));
}

}  // namespace
}  // namespace mitefall::units
