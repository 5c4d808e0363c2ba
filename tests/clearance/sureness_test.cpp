#include "clearance/sureness.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <limits>

#include "base/contract.h"
#include "scene.h"

namespace mitefall::clearance {
namespace {

TEST(Sureness, keeps_the_digits_of_a_tiny_risk) {
    const Sureness sure = sureness_of({{-1e-20, -3e-20}, {0, 0}, {0.5, 0.5}});
    EXPECT_EQ(sure.clear.mean, 1) << "a chance alone cannot tell";
    EXPECT_NEAR(sure.risk.mean, 2e-20, 1e-33);
    EXPECT_NEAR(sure.risk.p90, 3e-20, 1e-33);
}

// Two draws, worked by hand: P(clean) 0.8 and 0.2 turn even weights into 0.8 and 0.2.
TEST(Sureness, clean_checks_weigh_the_draws_by_bayes) {
    const Draws draws{{std::log(0.9), std::log(0.5)}, {std::log(0.8), std::log(0.2)}, {0.5, 0.5}};
    EXPECT_NEAR(posterior_weights(draws)[0], 0.8, 1e-15);
    EXPECT_NEAR(sureness_of(draws).clear.mean, 0.8 * 0.9 + 0.2 * 0.5, 1e-15);
}

TEST(Sureness, weighs_checks_that_no_number_could_hold_outside_the_logarithm) {
    const Draws draws{{-1, -2}, {-2000, -2001}, {0.5, 0.5}};
    EXPECT_NEAR(posterior_weights(draws)[0], 1 / (1 + std::exp(-1)), 1e-12);
}

// Kish 1965: n even weights are worth n, one that outweighs all others is worth 1.
TEST(Sureness, says_how_many_draws_it_rests_on) {
    EXPECT_NEAR(sureness_of({{-1, -1, -1, -1}, {0, 0, 0, 0}, {.25, .25, .25, .25}}).effective_draws, 4,
                1e-12);
    EXPECT_NEAR(sureness_of({{-1, -1}, {0, -50}, {0.5, 0.5}}).effective_draws, 1, 1e-12);
}

TEST(Sureness, refuses_what_is_no_chance) {
    const double nan = std::nan("");
    const double infinite = std::numeric_limits<double>::infinity();
    EXPECT_THROW(static_cast<void>(sureness_of({{nan}, {0}, {1}})), base::ContractViolation);
    EXPECT_THROW(static_cast<void>(sureness_of({{0.1}, {0}, {1}})), base::ContractViolation);
    EXPECT_THROW(static_cast<void>(sureness_of({{0}, {-infinite}, {1}})), base::ContractViolation);
    EXPECT_THROW(static_cast<void>(sureness_of({{0, 0}, {0}, {1}})), base::ContractViolation);
    EXPECT_EQ(sureness_of({{-infinite}, {0}, {1}}).risk.mean, 1) << "mites are there for certain";
}

TEST(Sureness, points_of_even_weights_are_order_statistics) {
    const std::vector<double> values{5, 1, 4, 2, 3, 10, 9, 8, 7, 6};
    const std::vector<double> weights(10, 0.1);
    const auto band = base::band_of(values, weights);
    EXPECT_NEAR(band.mean, 5.5, 1e-12);
    EXPECT_EQ(band.p10, 1);
    EXPECT_EQ(band.p90, 9);
}

TEST(Sureness, band_is_ordered_and_risk_mirrors_chance) {
    EXPECT_TRUE(rc::check([](std::vector<std::pair<unsigned char, unsigned char>> rows) {
        RC_PRE(!rows.empty());
        Draws draws;
        for (const auto& [clear, clean] : rows) {
            draws.log_clear.push_back(-clear / 64.0);
            draws.log_clean.push_back(-clean / 16.0);
            draws.prior.push_back(1.0 / static_cast<double>(rows.size()));
        }
        const Sureness sure = sureness_of(draws);
        RC_ASSERT(sure.clear.p10 <= sure.clear.p90);
        RC_ASSERT(sure.clear.p10 >= 0 && sure.clear.p90 <= 1);
        RC_ASSERT(std::abs(sure.clear.mean + sure.risk.mean - 1) < 1e-12);
        RC_ASSERT(sure.risk.p90 >= sure.risk.p10);
    }));
}

/// ln P(clear | clean) per draw, by sweeps with steps a thousand times as exact.
std::vector<double> fine_log_clear(const Standing& known) {
    forecast::ForecastRequest request;
    request.scenario = known.scenario;
    request.ensemble = known.ensemble;
    request.start = known.start;
    request.to = known.today;
    request.tolerance = {1e-11, 1e-17};
    std::vector<double> both = *forecast::log_chances(request, branching::Question::no_survivor);
    const auto clean = *forecast::log_chances(request, branching::Question::any_check_fails);
    for (std::size_t i = 0; i < both.size(); ++i) both[i] -= clean[i];
    return both;
}

// The risk is a difference of two sweeps: at the end of a long clean watch, and of thousands of mites, it
// must still have its digits.
TEST(Sureness, long_clean_watch_leaves_an_exact_risk) {
    double least = 1;
    for (const double today : {20.0, 80.0}) {
        std::vector<double> days;
        for (double day = 10; day <= today; day += 3.5) days.push_back(day);
        const Scenario scenario = checked(days, CheckMethod::soak);
        for (const unsigned crowd : {1U, 1000U}) {
            Standing known = standing(scenario, ensemble(), today);
            auto mites = few_mites();
            for (scenario::MiteCount& some : mites) some.count *= crowd;
            known.start = mites;
            const auto told = Enquiry(known, {}, 1).draws_at(scenario, today)->log_clear;
            const auto fine = fine_log_clear(known);
            for (std::size_t i = 0; i < fine.size(); ++i) {
                const double risk = -std::expm1(fine[i]);
                least = std::min(least, risk);
                EXPECT_NEAR(-std::expm1(told[i]), risk, 5e-3 * risk)
                    << today << " days, " << crowd << " times the mites";
            }
        }
    }
    EXPECT_LT(least, 1e-8) << "one of them is a tiny risk";
}

// What is told is worked out quickly where nobody could see the difference: in the end of a short watch, of a
// few mites and of thousands; and as exactly as may be where the risk is tiny, or the checks could hardly be
// clean. Against steps to 1e-11.
TEST(Sureness, is_told_to_a_thousandth_of_the_risk) {
    bool is_plain_once = false;
    bool is_tiny_once = false;
    for (const double today : {8.0, 12.0, 20.0, 60.0}) {
        std::vector<double> days;
        for (double day = 10; day <= today; day += 5) days.push_back(day);
        const Scenario scenario = checked(days, CheckMethod::soak);
        for (const unsigned crowd : {1U, 30U, 1000U}) {
            Standing known = standing(scenario, ensemble(), today);
            auto mites = few_mites();
            for (scenario::MiteCount& some : mites) some.count *= crowd;
            known.start = mites;
            Draws draws = *Enquiry(known, {}, 1).draws_to_tell(scenario, today);
            const Sureness told = sureness_of(draws);
            draws.log_clear = fine_log_clear(known);
            const Sureness exact = sureness_of(draws);
            EXPECT_NEAR(told.risk.mean, exact.risk.mean, 1e-3 * exact.risk.mean) << today << ' ' << crowd;
            EXPECT_NEAR(told.risk.p90, exact.risk.p90, 1e-3 * exact.risk.p90) << today << ' ' << crowd;
            is_plain_once |= exact.risk.mean > 1e-2;
            is_tiny_once |= exact.risk.mean < 1e-4;
        }
    }
    EXPECT_TRUE(is_plain_once && is_tiny_once) << "both ways are taken";
}

}  // namespace
}  // namespace mitefall::clearance
