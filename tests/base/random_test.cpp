// Random numbers against the distributions of Boost.Math, by the distance of Kolmogorov & Smirnov. The bound
// is what one set of samples in a hundred thousand would go beyond (Marsaglia, Tsang & Wang 2003, J. Stat.
// Softw. 8(18)); the seeds stand.
#include "base/random.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <cmath>
#include <vector>

namespace mitefall::base {
namespace {

constexpr int samples = 40'000;
constexpr double far_apart = 2.5;  // times 1 / sqrt(samples)

TEST(RandomStream, waits_for_several_changes_as_the_gamma_distribution_says) {
    for (const int changes : {1, 2, 3, 8, 16, 40}) {
        const double rate = 0.25 * changes;
        RandomStream random(7, 1, static_cast<std::uint32_t>(changes));
        std::vector<double> waits(samples);
        for (double& wait : waits) wait = random.erlang(changes, rate);
        std::sort(waits.begin(), waits.end());
        const boost::math::gamma_distribution<> gamma(changes, 1 / rate);
        double distance = 0;
        for (int i = 0; i < samples; ++i) {
            const double below = boost::math::cdf(gamma, waits[static_cast<std::size_t>(i)]);
            distance = std::max({distance, std::abs(below - static_cast<double>(i) / samples),
                                 std::abs(below - static_cast<double>(i + 1) / samples)});
        }
        EXPECT_LT(distance, far_apart / std::sqrt(samples)) << changes << " changes";
    }
}

TEST(RandomStream, counts_successes_as_the_binomial_distribution_says) {
    for (const auto& [trials, chance] : {std::pair{1, 0.3}, std::pair{5, 0.02}, std::pair{12, 0.5},
                                         std::pair{15, 0.93}, std::pair{40, 0.61}}) {
        RandomStream random(7, 2, static_cast<std::uint32_t>(trials));
        std::vector<int> seen(static_cast<std::size_t>(trials) + 1);
        for (int i = 0; i < samples; ++i)
            ++seen.at(static_cast<std::size_t>(random.successes_of_few(trials, chance)));
        const boost::math::binomial_distribution<> binomial(trials, chance);
        double below = 0;
        for (int count = 0; count <= trials; ++count) {
            below += static_cast<double>(seen[static_cast<std::size_t>(count)]) / samples;
            EXPECT_NEAR(below, boost::math::cdf(binomial, count), far_apart / std::sqrt(samples))
                << count << " of " << trials;
        }
    }
}

TEST(RandomStream, counts_nothing_and_everything_where_nothing_is_left_to_chance) {
    RandomStream random(7, 3, 0);
    for (int i = 0; i < 100; ++i) {
        EXPECT_EQ(random.successes_of_few(9, 0), 0);
        EXPECT_EQ(random.successes_of_few(9, 1), 9);
        EXPECT_EQ(random.successes_of_few(0, 0.4), 0);
    }
}

}  // namespace
}  // namespace mitefall::base
