#include "forecast/sensitivity.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "base/contract.h"
#include "forecast/forecast.h"
#include "shared/fixtures.h"

namespace mitefall::forecast {
namespace {

using namespace fixtures;

constexpr std::size_t many = 1U << 16U;

/// `count` inputs uniform on [low, high], drawn independently.
std::vector<DrawnInput> uniform_inputs(std::size_t count, double low, double high, std::size_t draws,
                                       std::uint64_t seed) {
    static constexpr std::array<std::string_view, 8> names{"x1", "x2", "x3", "x4", "x5", "x6", "x7", "x8"};
    std::vector<DrawnInput> inputs;
    for (std::size_t j = 0; j < count; ++j) {
        base::RandomStream random(seed, static_cast<std::uint32_t>(j), 1);
        DrawnInput input{names[j], {}};
        for (std::size_t i = 0; i < draws; ++i) input.values.push_back(low + (high - low) * random.uniform());
        inputs.push_back(std::move(input));
    }
    return inputs;
}

template <class F>
SensitivityRequest request_of(std::vector<DrawnInput> inputs, F f) {
    SensitivityRequest request;
    for (std::size_t i = 0; i < inputs.front().values.size(); ++i) {
        std::vector<double> x;
        for (const DrawnInput& input : inputs) x.push_back(input.values[i]);
        request.measure.push_back(f(x));
    }
    request.answer = request.measure;
    request.inputs = std::move(inputs);
    return request;
}

std::map<std::string_view, Influence> by_key(const Sensitivity& found) {
    std::map<std::string_view, Influence> influences;
    for (const auto* const list : {&found.named, &found.rest}) {
        for (const Influence& influence : *list) influences[influence.key] = influence;
    }
    return influences;
}

// Ishigami & Homma 1990 (Proc. ISUMA, 398-403) with a = 7, b = 0.1; S1 = 0.3139, 0.4424, 0 as in Saltelli et
// al. 2008, Global Sensitivity Analysis: The Primer. 40 classes flatten two full waves of x2 by (4 pi / 40)^2
// / 12 = 0.8 %; the standard error of an index from 65,536 draws is about 0.004.
TEST(Sensitivity, agrees_with_the_published_indices_of_ishigami) {
    const double pi = std::numbers::pi;
    const auto found =
        by_key(rank_influences(request_of(uniform_inputs(3, -pi, pi, many, 1), [](const auto& x) {
            return std::sin(x[0]) + 7 * std::pow(std::sin(x[1]), 2) +
                   0.1 * std::pow(x[2], 4) * std::sin(x[0]);
        })));
    EXPECT_NEAR(found.at("x1").explained, 0.3139, 0.012);
    EXPECT_NEAR(found.at("x2").explained, 0.4424, 0.016);
    EXPECT_NEAR(found.at("x3").explained, 0, 0.004);
    EXPECT_GT(found.at("x1").direction, 0.3);
    EXPECT_NEAR(found.at("x2").direction, 0, 0.02) << "a wave goes neither way";
}

// Sobol' 1993 (Math. Model. Comput. Exp. 1:407-414): g = prod (|4 x - 2| + a) / (1 + a);
// S_i = V_i / (prod (1 + V_j) - 1), V_i = 1 / (3 (1 + a_i)^2).
TEST(Sensitivity, agrees_with_the_closed_form_of_sobols_g) {
    const std::vector<double> a{0, 1, 4.5, 9, 99};
    double all = 1;
    for (const double a_i : a) all *= 1 + 1 / (3 * (1 + a_i) * (1 + a_i));
    const auto found =
        by_key(rank_influences(request_of(uniform_inputs(5, 0, 1, many, 2), [&](const auto& x) {
            double g = 1;
            for (std::size_t i = 0; i < a.size(); ++i) g *= (std::abs(4 * x[i] - 2) + a[i]) / (1 + a[i]);
            return g;
        })));
    const std::array<std::string_view, 5> names{"x1", "x2", "x3", "x4", "x5"};
    for (std::size_t i = 0; i < a.size(); ++i) {
        const double index = 1 / (3 * (1 + a[i]) * (1 + a[i])) / (all - 1);
        EXPECT_NEAR(found.at(names[i]).explained, index, 0.015) << names[i];
    }
}

// y = sum c_i x_i, x uniform: S_i = c_i^2 / sum c^2. Means over the outer thirds of x: -+ c_i / 3 about the
// mean. The few draws of a usual forecast must do: six classes flatten a slope by 1/36.
TEST(Sensitivity, a_linear_model_with_few_draws) {
    const std::vector<double> c{3, -2, 0.5, 0, 0, 0, 0, 0};
    const auto found = rank_influences(request_of(uniform_inputs(8, 0, 1, 256, 3), [&](const auto& x) {
        double y = 0;
        for (std::size_t i = 0; i < c.size(); ++i) y += c[i] * x[i];
        return y;
    }));
    ASSERT_GE(found.named.size(), 2U);
    EXPECT_EQ(found.named[0].key, "x1");
    EXPECT_EQ(found.named[1].key, "x2");
    // Standard error of an index near 0.7 from 256 draws: about 0.04.
    EXPECT_NEAR(found.named[0].explained, 9 / 13.25, 0.1);
    EXPECT_NEAR(found.named[1].explained, 4 / 13.25, 0.1);
    EXPECT_GT(found.named[0].direction, 0.6);
    EXPECT_LT(found.named[1].direction, -0.3);
    // Standard error of a mean over 85 draws of standard deviation 0.7: 0.08, of a difference 0.11.
    EXPECT_NEAR(found.named[0].if_high - found.named[0].if_low, 3 * 2 / 3.0, 0.45);
    EXPECT_NEAR(found.named[0].low_up_to, 1 / 3.0, 0.07);
    EXPECT_NEAR(found.named[0].high_from, 2 / 3.0, 0.07);
}

// Of 200 answers that depend on nothing, one in twenty may name something: 10 expected, binomial standard
// deviation 3.1; four of those above is 22.
TEST(Sensitivity, names_what_does_nothing_once_in_twenty_times) {
    int named = 0;
    double sum = 0;
    for (std::uint64_t trial = 0; trial < 200; ++trial) {
        base::RandomStream random(77, static_cast<std::uint32_t>(trial), 3);
        auto request = request_of(uniform_inputs(8, 0, 1, 64, 1000 + trial),
                                  [&](const auto&) { return random.uniform(); });
        const Sensitivity found = rank_influences(request);
        if (!found.named.empty()) ++named;
        for (const auto& [key, influence] : by_key(found)) sum += influence.explained;
    }
    EXPECT_LE(named, 22);
    EXPECT_GE(named, 1);
    // Without bias: an index that is 0 has standard deviation sqrt(2 x 3) / 64 = 0.04; the mean of 1,600 of
    // them 0.001 (those of one trial are nearly independent).
    EXPECT_NEAR(sum / 1600, 0, 0.004);
}

// The first 256 Sobol points of many coordinates leave pairs that resemble each other (correlation ratios up
// to 0.58 among the parameters of a usual ensemble). Here x2 is x1 with noise, correlation ratio 0.8.
TEST(Sensitivity, an_input_that_only_resembles_one_that_matters_is_not_named) {
    auto inputs = uniform_inputs(4, 0, 1, 256, 8);
    const auto noise = uniform_inputs(2, 0, 1, 256, 9);
    for (std::size_t i = 0; i < 256; ++i)
        inputs[1].values[i] = inputs[0].values[i] + 0.5 * noise[0].values[i];
    std::size_t i = 0;
    const auto found = rank_influences(
        request_of(std::move(inputs), [&](const auto& x) { return x[0] + 0.5 * noise[1].values[i++]; }));
    ASSERT_EQ(found.named.size(), 1U);
    EXPECT_EQ(found.named[0].key, "x1");
    EXPECT_GT(by_key(found).at("x2").explained_plain, 0.5) << "by itself it would pass for one that matters";
}

TEST(Sensitivity, a_weight_is_a_number_of_equal_draws) {
    EXPECT_TRUE(rc::check("weights 1 to 4 or draws repeated", [] {
        auto once = request_of(uniform_inputs(3, 0, 1, 40, *rc::gen::inRange<std::uint64_t>(0, 10'000)),
                               [](const auto& x) { return x[0] + x[0] * x[1]; });
        once.classes = 4;
        SensitivityRequest repeated = once;
        for (std::size_t i = 0; i < 40; ++i) {
            const int times = *rc::gen::inRange(0, 4);
            once.weights.push_back(i < 8 ? 1 + times : times);
            for (int t = 1; t < std::max<int>(1, static_cast<int>(once.weights.back())); ++t) {
                repeated.measure.push_back(once.measure[i]);
                repeated.answer.push_back(once.answer[i]);
                for (DrawnInput& input : repeated.inputs) input.values.push_back(input.values[i]);
            }
            repeated.weights.push_back(once.weights.back() > 0 ? 1 : 0);
        }
        repeated.weights.resize(repeated.measure.size(), 1);
        const auto a = by_key(rank_influences(once));
        const auto b = by_key(rank_influences(repeated));
        for (const auto& [key, one] : a) {
            const Influence& other = b.at(key);
            RC_ASSERT(std::abs(one.explained_plain - other.explained_plain) < 1e-9);
            RC_ASSERT(std::abs(one.direction - other.direction) < 1e-9);
            RC_ASSERT(std::abs(one.if_low - other.if_low) < 1e-9);
            RC_ASSERT(std::abs(one.if_high - other.if_high) < 1e-9);
            RC_ASSERT(one.low_up_to == other.low_up_to && one.high_from == other.high_from);
        }
    }));
}

// Importance weights: draws uniform on [0, 1], weights 2 x turn them into draws of density 2 x. For
// y = x + e, e uniform on [0, 1] and independent: Var x = 1/18, Var e = 1/12, S = 0.4.
TEST(Sensitivity, weights_turn_the_draws_into_those_of_another_distribution) {
    auto request = request_of(uniform_inputs(2, 0, 1, many, 5), [](const auto& x) { return x[0] + x[1]; });
    for (const double x : request.inputs[0].values) request.weights.push_back(2 * x);
    const Sensitivity found = rank_influences(request);
    EXPECT_NEAR(by_key(found).at("x1").explained, 0.4, 0.012);
    EXPECT_NEAR(by_key(found).at("x2").explained, 0.6, 0.012);
    // sum w = n, sum w^2 = n 4 / 3.
    EXPECT_NEAR(found.effective_draws, many * 0.75, many * 0.01);
}

TEST(Sensitivity, an_answer_that_does_not_vary_depends_on_nothing) {
    const auto found =
        rank_influences(request_of(uniform_inputs(3, 0, 1, 64, 6), [](const auto&) { return 0.1 + 0.2; }));
    EXPECT_TRUE(found.named.empty());
    EXPECT_EQ(found.rest.size(), 3U);
}

TEST(Sensitivity, refuses_what_it_cannot_rank) {
    auto request = request_of(uniform_inputs(2, 0, 1, 16, 6), [](const auto& x) { return x[0]; });
    auto bad = request;
    bad.answer.pop_back();
    EXPECT_THROW(static_cast<void>(rank_influences(bad)), base::ContractViolation);
    bad = request;
    bad.weights.assign(16, 0);
    EXPECT_THROW(static_cast<void>(rank_influences(bad)), base::ContractViolation);
    bad = request;
    bad.measure[3] = std::nan("");
    EXPECT_THROW(static_cast<void>(rank_influences(bad)), base::ContractViolation);
}

TEST(Sensitivity, log_odds_are_those_of_a_chance_and_end_at_one_in_a_million) {
    const auto odds = log_odds(std::vector<double>{0.5, 0.75, 0, 1});
    EXPECT_NEAR(odds[0], 0, 1e-12);
    EXPECT_NEAR(odds[1], std::log(3.0), 1e-12);
    EXPECT_NEAR(odds[2], -std::log(1e6 - 1), 1e-9);
    EXPECT_NEAR(odds[3], std::log(1e6 - 1), 1e-9);
}

/// One plastic tub in a room, sprayed twice, nothing else: most of the parameters cannot matter.
Sensitivity of_two_sprayings(const mites::Ensemble& ensemble) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("tub", 0)};
    for (const double day : {0.0, 7.0}) {
        scenario.events.push_back(
            {day, scenario::Kill{
                      1, mites::Reach::on_animal,
                      scenario::Amount::drawn(&mites::MiteParameters::kill_spray_on_animal_published)}});
        scenario.events.push_back(
            {day, scenario::Kill{
                      1, mites::Reach::mobile_nest,
                      scenario::Amount::drawn(&mites::MiteParameters::kill_spray_nest_published_sealed)}});
    }
    ForecastRequest forecast;
    forecast.scenario = &scenario;
    forecast.ensemble = &ensemble;
    forecast.start =
        KnownStart{{1, mites::Stage::adult_feeding_1, 1}, {1, mites::Stage::protonymph_seeking, 1}};
    forecast.to = 42;
    const auto answer = forecast_clear(forecast)->chance;
    return rank_influences({drawn_inputs(ensemble), log_odds(answer), answer, {}, 0});
}

// What a scenario has no use for is a control inside the program's own draws: over 40 seeds, 256 draws each,
// about 20 such parameters. One answer in twenty names some: more than 6 of 40 do with a chance of 0.3 %
// (binomial).
TEST(Sensitivity, parameters_a_course_has_no_use_for_are_not_named) {
    const std::set<std::string_view> unused{"contact_handled_after",
                                            "contact_shared_item",
                                            "contact_shared_bag",
                                            "kill_spray_nest_published_porous",
                                            "damp_hazard_published",
                                            "residual_half_life",
                                            "kill_permethrin_nest_sealed",
                                            "kill_permethrin_nest_porous",
                                            "kill_room_treatment",
                                            "substrate_nest_sealed",
                                            "substrate_nest_porous",
                                            "substrate_eggs_sealed",
                                            "substrate_eggs_porous",
                                            "kill_soak",
                                            "kill_wipe",
                                            "oral_kill_per_meal",
                                            "detection_light",
                                            "detection_nest_part",
                                            "sighting_quantile"};
    int wrong = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const Sensitivity found = of_two_sprayings(mites::draw_parameters(tables(), 256, seed));
        ASSERT_FALSE(found.named.empty());
        wrong += std::any_of(found.named.begin(), found.named.end(),
                             [&](const Influence& influence) { return unused.contains(influence.key); });
    }
    EXPECT_LE(wrong, 6);
}

}  // namespace
}  // namespace mitefall::forecast
