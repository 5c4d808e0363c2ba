#include "clearance/freedom.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "base/contract.h"
#include "clearance/release.h"
#include "scene.h"

// The literature on freedom from infestation asks of populations that stand still. So does the sweep, over no
// time at all: then it must give the published numbers.
namespace mitefall::clearance {
namespace {

using fixtures::room, fixtures::tub;

/// Enclosures in one room; the first `looked_at` are checked at time 0 and would show a mite with `chance`.
Scenario survey(int enclosures, int looked_at, double chance, int times = 1) {
    Scenario scenario;
    scenario.places = {room("room")};
    for (int i = 0; i < enclosures; ++i) scenario.places.push_back(tub("tub", 0));
    for (int time = 0; time < times; ++time) {
        for (int i = 1; i <= looked_at; ++i)
            scenario.events.push_back(
                {0, scenario::CleanCheck{static_cast<PlaceIndex>(i), scenario::Amount::number(chance),
                                         scenario::Amount::number(0)}});
    }
    return scenario;
}

/// By the sweep: the chance that one feeding mite in each enclosure stays unseen.
std::vector<double> unseen(const Scenario& scenario) {
    const fixtures::Swept swept(scenario, network::lump(scenario), ensemble().mode, 0, 0,
                                branching::Question::any_check_fails);
    std::vector<double> chances;
    for (PlaceIndex p = 1; p < scenario.places.size(); ++p)
        chances.push_back(1 - swept.failure(p, Stage::adult_feeding_1));
    return chances;
}

double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value / static_cast<double>(values.size());
    return sum;
}

/// Mean of the products over all choices of `count` of the values: elementary symmetric polynomial over
/// binomial coefficient.
double mean_product(const std::vector<double>& values, std::size_t count) {
    std::array<double, 64> e{1};  // more than any test here needs
    for (const double value : values) {
        for (std::size_t k = count; k > 0; --k) e[k] += value * e[k - 1];
    }
    double choices = 1;
    for (std::size_t k = 0; k < count; ++k)
        choices *= static_cast<double>(values.size() - k) / static_cast<double>(k + 1);
    return e.at(count) / choices;
}

// MacDiarmid 1988 (Aust. Vet. J. 65): 1 - (1 - n Se / N)^D, N 40, n 20, D 2, Se 0.8 -> 0.64. D mites, each in
// any enclosure.
TEST(Freedom, macdiarmid_is_the_sweep_over_no_time) {
    EXPECT_NEAR(1 - std::pow(mean(unseen(survey(40, 20, 0.8))), 2), 0.64, 1e-12);
}

// Martin et al. 1992 (Prev. Vet. Med. 14): herd sensitivity 1 - (1 - P Se)^n, n 30, Se 0.9, P 0.1 -> 0.94095.
// Each enclosure has a mite with chance 0.1.
TEST(Freedom, martin_is_the_sweep_over_no_time) {
    double clean = 1;
    for (const double chance : unseen(survey(30, 30, 0.9))) clean *= 1 - 0.1 + 0.1 * chance;
    EXPECT_NEAR(1 - clean, 0.94095, 5e-6);  // five published digits
}

// Cameron & Baldock 1998 (Prev. Vet. Med. 34:1-17): N 40, n 20, D 4, Se 0.7, Sp 1 -> P(0) 0.170575. One mite
// in each of exactly D enclosures.
TEST(Freedom, cameron_and_baldock_is_the_sweep_over_no_time) {
    EXPECT_NEAR(mean_product(unseen(survey(40, 20, 0.7)), 4), 0.170575, 5e-7);
    EXPECT_NEAR(chance_all_look_clean(40, 20, 4, 0.7), 0.170575, 5e-7);
}

TEST(Freedom, spot_check_is_the_mean_over_every_way_to_place_the_mites) {
    for (const int checked : {0, 1, 7, 12}) {
        for (const int with_mites : {0, 1, 5, 12}) {
            EXPECT_NEAR(chance_all_look_clean(12, checked, with_mites, 0.4),
                        mean_product(unseen(survey(12, checked, 0.4)), static_cast<std::size_t>(with_mites)),
                        1e-12)
                << checked << " of 12, mites in " << with_mites;
        }
    }
}

// Cannon & Roe 1982: n = [1 - (1 - CL)^(1/D)] [N - (D - 1)/2], N 1600, D 16, CL 0.99 -> 399, an approximation
// to the exact hypergeometric sample for a perfect check, good to a few.
TEST(Freedom, sample_size_is_that_of_cannon_and_roe) {
    const auto n = enclosures_to_check(1600, 16, 1, 0.99);
    ASSERT_TRUE(n);
    EXPECT_NEAR(*n, 399, 2);
    EXPECT_LE(chance_all_look_clean(1600, *n, 16, 1), 0.01);
    EXPECT_GT(chance_all_look_clean(1600, *n - 1, 16, 1), 0.01);
}

TEST(Freedom, a_weak_check_of_everything_may_not_do) {
    EXPECT_FALSE(enclosures_to_check(20, 1, 0.5, 0.95)) << "1 - 0.5 is the best there is";
    EXPECT_EQ(enclosures_to_check(20, 20, 0.5, 0.95), 5) << "0.5^5 = 0.03125 is the first below 0.05";
    EXPECT_FALSE(enclosures_to_check(20, 0, 1, 0.95)) << "where there are none, none can be found";
    EXPECT_THROW(static_cast<void>(chance_all_look_clean(20, 21, 1, 0.5)), base::ContractViolation);
    EXPECT_THROW(static_cast<void>(chance_all_look_clean(20, 2, 1, std::nan(""))), base::ContractViolation);
}

/// An arrival that carries one mite with chance 1/2, looked at again and again on the day it came.
double sure_after(int looks, double prior, double chance) {
    MiteParameters draw = ensemble().mode;
    draw.arrival_carries = 1 - prior;
    draw.arrival_founders = 1;
    const mites::Ensemble draws = only(draw);
    const Scenario scenario = survey(1, looks > 0 ? 1 : 0, chance, looks);
    ReleaseRequest request;
    request.scenario = &scenario;
    request.ensemble = &draws;
    request.place = 1;
    request.rounds = {{1}, CheckMethod::look_over, 0, 7, 0};
    const std::vector<double> levels{0.9};
    return plan_release(request, levels)->points.front().none.clear.mean;
}

// Repeated surveys: prior / (1 - SSe (1 - prior)) with prior 0.5, SSe 0.6324887 -> 0.7312554; after a 1 %
// chance that mites came in, again -> 0.8770845, and again -> 0.9472066.
TEST(Freedom, repeated_surveys_are_the_release_of_an_arrival_over_no_time) {
    constexpr double sensitivity = 0.6324887;
    const double first = sure_after(1, 0.5, sensitivity);
    EXPECT_NEAR(first, 0.7312554, 1e-7);
    const double second = sure_after(1, 0.99 * first, sensitivity);
    EXPECT_NEAR(second, 0.8770845, 1e-7);
    EXPECT_NEAR(sure_after(1, 0.99 * second, sensitivity), 0.9472066, 1e-7);
    EXPECT_NEAR(sure_after(2, 0.5, sensitivity), 0.5 / (0.5 + 0.5 * std::pow(1 - sensitivity, 2)), 1e-9)
        << "two looks in a row are one of the product of both misses";
}

}  // namespace
}  // namespace mitefall::clearance
