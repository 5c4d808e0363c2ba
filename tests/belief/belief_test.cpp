#include "belief/belief.h"

#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <functional>
#include <numeric>

#include "belief/exact.h"
#include "forecast/forecast.h"
#include "shared/fixtures.h"

namespace mitefall::belief {
namespace {

using namespace fixtures;
using namespace exact;
using records::SeenCount;

constexpr scenario::PlaceIndex near = 1;  // where mites are looked for
constexpr scenario::PlaceIndex far = 2;   // where an animal arrives
constexpr double at = 20;
constexpr double arrival_day = 5;

/// Two tubs in a room; an animal joins the far one on day 5, is handled before the near one on day 8, and the
/// near one is sprayed on day 12.
scenario::Scenario two_tubs() {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("near", 0), tub("far", 0)};
    scenario.events = {
        {arrival_day, scenario::AnimalJoins{far}},
        {8, scenario::Contact{far, near, mites::Reach::on_animal, scenario::Amount::number(0.3)}},
        {12, scenario::Kill{near, mites::Reach::on_animal, scenario::Amount::number(0.5), 1}}};
    return scenario;
}

BeliefRequest request_for(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                          std::vector<scenario::Look> looks) {
    BeliefRequest request = exact::request_for(scenario, ensemble, std::move(looks), at);
    request.arrivals = {{records::AnimalId("otto"), "Otto", far, arrival_day, 0}};
    request.options.histories = 4000;
    request.options.kept = 4000;
    return request;
}

// No find: introductions stay independent, each with its own posterior odds.
TEST(Belief, after_clean_checks_agrees_with_the_exact_posterior) {
    const scenario::Scenario scenario = two_tubs();
    const mites::Ensemble ensemble = one_draw();
    const std::vector<scenario::Look> looks{{far, 14, 3, scenario::LookedAt::both, SeenCount::none},
                                            {near, 16, 3, scenario::LookedAt::both, SeenCount::none}};
    const Belief belief = believe(request_for(scenario, ensemble, looks));
    Exact clean(with_checks(scenario, looks, ensemble, {0}), ensemble, at, at,
                branching::Question::any_check_fails);
    ASSERT_EQ(belief.introductions.size(), 1U + 3U + 2U) << "an arrival, three places, two tubs with animals";
    double nothing = 1;
    for (const Introduction& source : belief.introductions) {
        const double c = clean.of(source);
        // An unnoticed entry is six cells of equal chance; two entries into one place are rare enough.
        const double p = source.prior;
        const double exact = p * c / (1 - p + p * c);
        EXPECT_NEAR(source.posterior, exact, allowed(exact, belief)) << source.label;
        nothing *= (1 - p) / (1 - p + p * c);
    }
    EXPECT_NEAR(belief.nothing_came, nothing, allowed(nothing, belief));
    EXPECT_FALSE(belief.sighted);
}

TEST(Belief, chance_of_clear_and_later_checks_agree_with_the_exact_posterior) {
    scenario::Scenario scenario = two_tubs();
    const mites::Ensemble ensemble = one_draw();
    const std::vector<scenario::Look> looks{{far, 14, 3, scenario::LookedAt::both, SeenCount::none}};
    const Belief belief = believe(request_for(scenario, ensemble, looks));
    const double horizon = 45;
    const scenario::CleanCheck usual{
        far, {}, scenario::Amount::drawn(&mites::MiteParameters::detection_nest_part), true};
    scenario.events.push_back(
        {22, scenario::Kill{far, mites::Reach::on_animal, scenario::Amount::number(0.9), 1}});
    scenario.events.push_back(
        {22, scenario::Kill{far, mites::Reach::mobile_nest, scenario::Amount::number(0.9), 1}});
    scenario.events.push_back({30, usual});
    const scenario::Scenario checked = with_checks(scenario, looks, ensemble, {0});
    Exact both(checked, ensemble, at, horizon, branching::Question::no_survivor);
    Exact clean(checked, ensemble, at, horizon, branching::Question::any_check_fails);
    double exact = 1;
    for (const Introduction& source : belief.introductions) {
        const double p = source.prior;
        exact *= (1 - p + p * both.of(source)) / (1 - p + p * clean.of(source));
    }
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = &belief;
    request.from = at;
    request.to = horizon;
    const forecast::Forecast forecast = forecast::forecast_clear(request).value();
    EXPECT_LT(exact, 0.95);
    EXPECT_NEAR(forecast.clear.mean, exact, allowed(exact, belief));
}

// One mite seen: P(X = 1) is the slope at 0 of a product of generating functions.
TEST(Belief, after_a_find_agrees_with_the_exact_posterior) {
    const scenario::Scenario scenario = two_tubs();
    const mites::Ensemble ensemble = one_draw();
    const std::vector<scenario::Look> looks{{near, 14, 3, scenario::LookedAt::both, SeenCount::none},
                                            {near, at, 3, scenario::LookedAt::animal, SeenCount::one}};
    const Belief belief = believe(request_for(scenario, ensemble, looks));
    constexpr double h = 0.02;
    // The last of them, mites that came just then, has a chance of 1e-12 here.
    const std::size_t n = belief.introductions.size() - 1;
    const BeliefRequest asked = request_for(scenario, ensemble, looks);
    const Sources sources = list_sources(scenario, {asked.arrivals, {}}, looks, at, asked.prior);
    std::array<double, 4> all{1, 1, 1, 1};
    std::vector<std::array<double, 4>> g(n);
    for (std::size_t k = 0; k < 4; ++k) {
        Exact exact(with_checks(scenario, looks, ensemble, {h * static_cast<double>(k)}), ensemble, at, at,
                    branching::Question::any_check_fails);
        for (std::size_t i = 0; i < n; ++i) {
            const double p = sources.introductions[i].prior;
            g[i][k] = exact.of(sources.introductions[i]);
            all[k] *= 1 - p + p * g[i][k];
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        const double p = sources.introductions[i].prior;
        std::array<double, 4> with{};
        for (std::size_t k = 0; k < 4; ++k) with[k] = all[k] * p * g[i][k] / (1 - p + p * g[i][k]);
        const double exact = slope_at_zero(with, h) / slope_at_zero(all, h);
        EXPECT_NEAR(belief.introductions[i].posterior, exact, allowed(exact, belief))
            << to_text(belief.introductions[i].kind) << " " << belief.introductions[i].label;
    }
    EXPECT_GT(belief.effective_particles, 1000);
    double behind = 0;
    for (const Introduction& one : belief.introductions) behind += one.behind;
    EXPECT_NEAR(behind, 1, 1e-6) << "what was seen comes from somewhere";
}

/// Nothing but contacts with the outside into the near tub, each with a chance too small to happen beside
/// another.
BeliefRequest with_contacts(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                            std::vector<scenario::OutsideOnRecord> contacts) {
    BeliefRequest request =
        request_for(scenario, ensemble, {{near, at, 3, scenario::LookedAt::animal, SeenCount::one}});
    request.arrivals.clear();
    request.prior.unnoticed_entries_per_year = 0;
    request.prior.there_for_longer = 0;
    for (double& chance : request.prior.outside.by_kind) chance *= 0.01;
    request.outside = std::move(contacts);
    return request;
}

// By hand: a contact of chance p that leads to one mite seen on the day with likelihood L is behind it with
// odds p L. L is P(X = 1), the slope at 0 of its own generating function, from the sweep.
TEST(Belief, contacts_are_behind_a_find_by_their_chance_times_the_likelihood_of_being_seen_on_the_day) {
    const scenario::Scenario scenario = two_tubs();
    const mites::Ensemble ensemble = one_draw();
    const BeliefRequest request = with_contacts(scenario, ensemble,
                                                {{1, records::OutsideKind::show, {near}, 2},
                                                 {2, records::OutsideKind::visitor, {near}, 9},
                                                 {3, records::OutsideKind::live_plants, {near, far}, 16}});
    const Belief belief = believe(request);
    ASSERT_EQ(belief.introductions.size(), 5U) << "four places reached, and mites that came just then";
    constexpr double h = 0.02;
    std::array<std::array<double, 4>, 4> g{};
    for (std::size_t k = 0; k < 4; ++k) {
        Exact exact(with_checks(scenario, request.looks, ensemble, {h * static_cast<double>(k)}), ensemble,
                    at, at, branching::Question::any_check_fails);
        for (std::size_t i = 0; i < 4; ++i) g[i][k] = exact.of(belief.introductions[i]);
    }
    // Rows of data/evidence/introduction.toml, a hundredth of each; the plants reached one of two tubs.
    const std::array<double, 4> chance{0.02, 0.005, 1 - std::sqrt(1 - 0.01 * 0.01),
                                       1 - std::sqrt(1 - 0.01 * 0.01)};
    std::array<double, 4> odds{};
    double all = 0;
    for (std::size_t i = 0; i < 4; ++i)
        all += odds[i] = (i < 2 ? 0.01 : 1) * chance[i] * slope_at_zero(g[i], h);
    ASSERT_GT(all, 0);
    for (std::size_t i = 0; i < 4; ++i) {
        const double exact = odds[i] / all;
        EXPECT_NEAR(belief.introductions[i].posterior, exact, allowed(exact, belief)) << i;
    }
    EXPECT_GT(belief.effective_particles, 1000);
}

TEST(Belief, a_contact_after_the_find_explains_nothing) {
    const scenario::Scenario scenario = two_tubs();
    const mites::Ensemble ensemble = one_draw();
    const auto with = [&](std::vector<scenario::OutsideOnRecord> contacts) {
        return believe(with_contacts(scenario, ensemble, std::move(contacts)));
    };
    const Belief later =
        with({{1, records::OutsideKind::show, {near}, 5}, {2, records::OutsideKind::show, {near}, at + 1}});
    for (const Introduction& one : later.introductions) EXPECT_NE(one.contact, 2);
    const Belief never = with({{1, records::OutsideKind::show, {near}, 5}});
    EXPECT_EQ(later.draw_weight, never.draw_weight) << "the same to the last bit";
    EXPECT_EQ(later.alive, never.alive);
}

const Introduction& arrival_of(const Belief& belief) {
    return *std::find_if(belief.introductions.begin(), belief.introductions.end(),
                         [](const Introduction& i) { return i.kind == IntroductionKind::arrival; });
}

Belief quick(const scenario::Scenario& scenario, const std::vector<scenario::Look>& looks,
             std::uint64_t seed = 1) {
    BeliefRequest request;
    request.scenario = &scenario;
    request.ensemble = &small_ensemble();
    request.looks = looks;
    request.arrivals = {{records::AnimalId("otto"), "Otto", far, arrival_day, 0}};
    request.at = at;
    request.prior = introduction_prior(tables());
    request.seed = seed;
    request.options.histories = 200;
    return believe(request);
}

TEST(Belief, a_clean_check_after_an_arrival_lowers_its_chance) {
    const scenario::Scenario scenario = two_tubs();
    const double before = arrival_of(quick(scenario, {})).posterior;
    const double after =
        arrival_of(quick(scenario, {{far, 12, 3, scenario::LookedAt::both, SeenCount::none}})).posterior;
    EXPECT_NEAR(before, introduction_prior(tables()).arrival_carries, 0.01) << "nothing was looked at";
    EXPECT_LT(after, before - 0.01);
}

TEST(Belief, more_mites_seen_came_in_earlier) {
    const auto entered = [](SeenCount count) {
        const scenario::Scenario scenario = two_tubs();
        const Belief belief = quick(scenario, {{near, at, 3, scenario::LookedAt::animal, count}});
        double mean = 0;
        for (const Particle& p : belief.particles) mean += p.weight * p.entered_on;
        return mean;
    };
    EXPECT_LT(entered(SeenCount::many), entered(SeenCount::few) - 0.5);
    EXPECT_LT(entered(SeenCount::few), entered(SeenCount::one) - 0.5);
}

TEST(Belief, a_contact_makes_mites_at_the_other_end_likelier) {
    const std::vector<scenario::Look> looks{{far, at, 3, scenario::LookedAt::animal, SeenCount::few}};
    scenario::Scenario scenario = two_tubs();
    const double with = mites_by_place(quick(scenario, looks), 3)[near].any;
    scenario.events[1].what =
        scenario::Contact{far, near, mites::Reach::on_animal, scenario::Amount::number(0)};
    EXPECT_GT(with, mites_by_place(quick(scenario, looks), 3)[near].any + 0.05);
}

void expect_sound(const Belief& belief) {
    double weights = 0;
    double after_draws = 0;
    for (const Particle& particle : belief.particles) {
        EXPECT_TRUE(std::isfinite(particle.weight) && particle.weight >= 0);
        EXPECT_TRUE(weights == 0 || particle.draw + 1 >= after_draws) << "by draw";
        after_draws = particle.draw + 1;
        weights += particle.weight;
    }
    EXPECT_NEAR(weights, 1, 0.05) << "leaving out light ones keeps the sum on average";
    EXPECT_NEAR(std::accumulate(belief.draw_weight.begin(), belief.draw_weight.end(), 0.0), 1, 1e-9);
    EXPECT_GE(belief.effective_particles, 1);
    EXPECT_TRUE(std::isfinite(belief.information) && belief.information > -1e-9);
    for (const Introduction& one : belief.introductions) {
        EXPECT_TRUE(one.posterior >= 0 && one.posterior <= 1 && one.behind <= 1 + 1e-9);
        EXPECT_TRUE(one.prior > 0 && one.prior <= 1);
    }
    EXPECT_TRUE(belief.alive >= 0 && belief.alive <= 1 + 1e-9);
}

TEST(Belief, records_that_contradict_each_other_leave_an_answer_and_a_doubt) {
    const scenario::Scenario scenario = two_tubs();
    std::vector<scenario::Look> looks;
    for (double day = 15; day < 20; day += 0.25)
        looks.push_back({near, day, 3, scenario::LookedAt::both, SeenCount::none});
    looks.push_back({near, at, 3, scenario::LookedAt::animal, SeenCount::masses});
    const Belief belief = quick(scenario, looks);
    expect_sound(belief);
    EXPECT_FALSE(belief.doubts.empty());
    EXPECT_TRUE(quick(scenario, {{near, at, 3, scenario::LookedAt::animal, SeenCount::one}}).doubts.empty());
}

TEST(Belief, a_find_where_no_mite_can_be_is_doubted_but_answered) {
    scenario::Scenario scenario = two_tubs();
    scenario.places.push_back(tub("alone", scenario::nowhere, 28, 0));
    const Belief belief = quick(scenario, {{3, at, 3, scenario::LookedAt::animal, SeenCount::few}});
    expect_sound(belief);
    ASSERT_EQ(belief.doubts.size(), 1U);
    EXPECT_GT(belief.doubts[0].chance, 0.9);
}

TEST(Belief, without_a_look_is_the_prior) {
    const scenario::Scenario scenario = two_tubs();
    const Belief belief = quick(scenario, {});
    expect_sound(belief);
    EXPECT_EQ(belief.looks, 0U);
    for (const Introduction& one : belief.introductions) EXPECT_NEAR(one.posterior, one.prior, 0.005);
    EXPECT_LT(belief.information, 0.01);
    EXPECT_NEAR(belief.nothing_came, 1 - 0.1 - 0.02, 0.02);
}

TEST(Belief, is_the_same_bit_for_bit_on_any_number_of_threads) {
    const scenario::Scenario scenario = two_tubs();
    const std::vector<scenario::Look> looks{{near, at, 3, scenario::LookedAt::animal, SeenCount::few}};
    const auto on = [&](std::size_t threads) {
        const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
        return quick(scenario, looks);
    };
    const Belief one = on(1);
    for (const std::size_t threads : {2U, 8U}) {
        const Belief other = on(threads);
        ASSERT_EQ(one.particles.size(), other.particles.size());
        for (std::size_t p = 0; p < one.particles.size(); ++p) {
            ASSERT_EQ(one.particles[p].weight, other.particles[p].weight);
            ASSERT_EQ(one.particles[p].mites.size(), other.particles[p].mites.size());
        }
        EXPECT_EQ(one.draw_weight, other.draw_weight);
        EXPECT_EQ(one.information, other.information);
    }
    EXPECT_NE(one.draw_weight, quick(scenario, looks, 2).draw_weight);
}

class RandomLooks : public testing::TestWithParam<int> {};

TEST_P(RandomLooks, leave_sound_weights) {
    const auto seed = static_cast<std::uint64_t>(GetParam());
    const scenario::Scenario scenario = random_scenario(seed, true);
    base::RandomStream random(seed, 5, 5);
    const auto pick = [&](std::size_t n) {
        return std::min(n - 1, static_cast<std::size_t>(random.uniform() * static_cast<double>(n)));
    };
    std::vector<scenario::Look> looks;
    for (std::size_t e = 0; e < scenario.events.size(); ++e) {
        if (random.uniform() < 0.5 || scenario.events[e].time > 30) continue;
        looks.push_back({2 + pick(scenario.places.size() - 2), scenario.events[e].time, e,
                         static_cast<scenario::LookedAt>(pick(3)), static_cast<SeenCount>(pick(5))});
    }
    BeliefRequest request;
    request.scenario = &scenario;
    request.ensemble = &small_ensemble();
    request.looks = looks;
    request.at = 30;
    request.prior = introduction_prior(tables());
    expect_sound(believe(request));
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomLooks, testing::Range(1, 13));

// Binomial probabilities by their definition, summed term by term.
TEST(Looks, counts_are_binomial) {
    const auto term = [](int n, int k, double p) {
        return std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) +
                        k * std::log(p) + (n - k) * std::log1p(-p));
    };
    for (const int n : {1, 2, 9, 40, 300}) {
        for (const double p : {0.02, 0.2, 0.7}) {
            double sum = 0;
            for (int k = 0; k <= n; ++k) {
                sum += term(n, k, p);
                EXPECT_NEAR(binomial_up_to(k, n, p), sum, 1e-10);
            }
        }
    }
}

TEST(Looks, likelihoods_of_all_that_can_be_written_down_sum_to_one) {
    const Eyes eyes{0.3, 0.03};
    for (const scenario::LookedAt where : {scenario::LookedAt::animal, scenario::LookedAt::nest}) {
        for (const double n : {0.0, 1.0, 7.0, 120.5}) {
            double sum = 0;
            for (const SeenCount seen :
                 {SeenCount::none, SeenCount::one, SeenCount::few, SeenCount::many, SeenCount::masses})
                sum += chance_of_count({0, 0, 0, where, seen}, {n, n}, eyes);
            EXPECT_NEAR(sum, 1, 1e-12);
        }
    }
}

}  // namespace
}  // namespace mitefall::belief
