#include "base/band.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

namespace mitefall::base {
namespace {

// By hand: of 0, 1 ... 10 the values numbered 0.1 x 10 and 0.9 x 10.
TEST(Band, points_are_the_order_statistics_the_model_page_names) {
    const Band band = band_of({10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0});
    EXPECT_EQ(band.p10, 1);
    EXPECT_NEAR(band.mean, 5, 1e-12);
    EXPECT_EQ(band.p90, 9);
    // Of 8 values 0.1 x 7 = 0.7 and 0.9 x 7 = 6.3, rounded.
    const Band eight = band_of({0, 10, 20, 30, 40, 50, 60, 70});
    EXPECT_EQ(eight.p10, 10);
    EXPECT_EQ(eight.p90, 60);
}

// Nineteen draws all but sure and one that fails pull the mean below every tenth.
TEST(Band, a_range_reaches_to_the_mean_it_stands_beside) {
    std::vector<double> values(19, 0.9999);
    values.push_back(0.1);
    const Band band = band_of(values);
    EXPECT_NEAR(band.mean, (19 * 0.9999 + 0.1) / 20, 1e-12);
    EXPECT_EQ(band.p10, band.mean);
    EXPECT_EQ(band.p90, 0.9999);
}

TEST(Band, every_range_holds_its_mean) {
    EXPECT_TRUE(rc::check("weighted or not", [] {
        const auto values = *rc::gen::nonEmpty(rc::gen::container<std::vector<double>>(
            rc::gen::map(rc::gen::inRange(0, 1000), [](int i) { return std::pow(i / 1000.0, 9); })));
        std::vector<double> weights;
        for (std::size_t i = 0; i < values.size(); ++i) weights.push_back(*rc::gen::inRange(1, 100));
        for (const Band& band : {band_of(values), band_of(values, weights)})
            RC_ASSERT(band.p10 <= band.mean && band.mean <= band.p90);
    }));
}

// Rounding of a sum may lift it: weights of a third and the like.
TEST(Band, a_mean_stays_among_its_values) {
    EXPECT_TRUE(rc::check("certainties", [] {
        const auto count = *rc::gen::inRange<std::size_t>(1, 300);
        const std::vector<double> values(count, *rc::gen::element(1.0, 0.1, 1.0 / 3));
        std::vector<double> weights;
        for (std::size_t i = 0; i < count; ++i) weights.push_back(*rc::gen::inRange(1, 1000) / 7.0);
        for (const Band& band : {band_of(values), band_of(values, weights)}) {
            RC_ASSERT(band.mean == values[0]);
            RC_ASSERT(band.p10 == values[0] && band.p90 == values[0]);
        }
    }));
}

// Bayes by hand: 1/4 x 0.2 and 3/4 x 0.4 -> 1/7 and 6/7.
TEST(Weigh, prior_times_likelihood_together_1) {
    const auto weights = weigh({0.25, 0.75, 0}, {std::log(0.2) - 900, std::log(0.4) - 900, 0});
    EXPECT_NEAR(weights[0], 1.0 / 7, 1e-12);
    EXPECT_NEAR(weights[1], 6.0 / 7, 1e-12);
    EXPECT_EQ(weights[2], 0) << "ruled out before";
    EXPECT_EQ(weigh({1, 1}, {-INFINITY, -INFINITY}), (std::vector<double>{0, 0}));
}

}  // namespace
}  // namespace mitefall::base
