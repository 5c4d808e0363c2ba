#include <gtest/gtest.h>

#include <numeric>

#include "belief/belief.h"
#include "belief/exact.h"
#include "belief/filter.h"
#include "belief/proposal.h"

// Mites found in several places: every one of them has to be explained, together with the others.
namespace mitefall::belief {
namespace {

using namespace exact;

constexpr double at = 20;

BeliefRequest request_for(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                          std::vector<scenario::Look> looks) {
    BeliefRequest request = exact::request_for(scenario, ensemble, std::move(looks), at);
    request.prior.errors.unexplained = 1e-15;
    request.options.histories = 2500;
    return request;
}

scenario::Look one_seen(scenario::PlaceIndex place, double time = at) {
    return {place, time, 0, scenario::LookedAt::animal, SeenCount::one};
}

// Two tubs in a room, one mite seen in each on the same day: P(X = 1, Y = 1) is the mixed slope at 0 of the
// product over all ways in of their generating functions of two variables.
TEST(ManyFinds, in_two_tubs_that_mites_walk_between_agree_with_the_exact_posterior) {
    scenario::Scenario scenario;
    scenario.places = {room("room"), tub("a", 0), tub("b", 0, 30)};
    const mites::Ensemble ensemble = one_draw();
    const std::vector<scenario::Look> looks{one_seen(1), one_seen(2)};
    const BeliefRequest request = request_for(scenario, ensemble, looks);
    const Belief belief = believe(request);
    const Sources sources = list_sources(scenario, {}, looks, at, request.prior);
    const std::size_t n = sources.introductions.size() - 2;  // the last are mites that came just then
    constexpr double h = 0.03;
    using Grid = std::array<std::array<double, 4>, 4>;
    std::vector<Grid> factors(n);
    std::vector<Grid> without(n);
    Grid all{};
    for (std::size_t j = 0; j < 4; ++j) {
        for (std::size_t k = 0; k < 4; ++k) {
            Exact exact(with_checks(scenario, looks, ensemble,
                                    {h * static_cast<double>(j), h * static_cast<double>(k)}),
                        ensemble, at, at, branching::Question::any_check_fails);
            all[j][k] = 1;
            for (std::size_t i = 0; i < n; ++i) {
                const double p = sources.introductions[i].prior;
                without[i][j][k] = 1 - p;
                factors[i][j][k] = 1 - p + p * exact.of(sources.introductions[i]);
                all[j][k] *= factors[i][j][k];
            }
        }
    }
    const auto mixed_slope = [&](const auto& value) {
        std::array<double, 4> slopes{};
        for (std::size_t j = 0; j < 4; ++j) {
            std::array<double, 4> row{};
            for (std::size_t k = 0; k < 4; ++k) row[k] = value(j, k);
            slopes[j] = slope_at_zero(row, h);
        }
        return slope_at_zero(slopes, h);
    };
    const double seen = mixed_slope([&](std::size_t j, std::size_t k) { return all[j][k]; });
    ASSERT_GT(seen, 0);
    for (std::size_t i = 0; i < n; ++i) {
        const double not_happened = mixed_slope(
            [&](std::size_t j, std::size_t k) { return all[j][k] / factors[i][j][k] * without[i][j][k]; });
        const double exact = 1 - not_happened / seen;
        EXPECT_NEAR(belief.introductions[i].posterior, exact, allowed(exact, belief))
            << to_text(belief.introductions[i].kind) << " " << belief.introductions[i].label;
    }
    EXPECT_GT(belief.effective_particles, 500);
}

// Tubs between which nothing can walk: each find has its own way in, and the posterior of each tub is that of
// a collection of this tub alone.
TEST(ManyFinds, in_tubs_that_stand_alone_are_each_explained_by_themselves) {
    scenario::Scenario scenario;
    constexpr std::size_t tubs = 4;
    for (std::size_t i = 0; i < tubs; ++i)
        scenario.places.push_back(tub("tub " + std::to_string(i), scenario::nowhere, 26 + double(i)));
    const mites::Ensemble ensemble = one_draw();
    std::vector<scenario::Look> looks;
    for (scenario::PlaceIndex p = 0; p < tubs; ++p) looks.push_back(one_seen(p));
    const BeliefRequest request = request_for(scenario, ensemble, looks);
    const Belief belief = believe(request);
    const Sources sources = list_sources(scenario, {}, looks, at, request.prior);
    constexpr double h = 0.02;
    for (scenario::PlaceIndex p = 0; p < tubs; ++p) {
        std::vector<double> weight;
        std::vector<std::size_t> ways;
        for (std::size_t i = 0; i < sources.introductions.size(); ++i) {
            const Introduction& source = sources.introductions[i];
            if (source.place != p || source.kind == IntroductionKind::just_then) continue;
            std::array<double, 4> g{};
            for (std::size_t k = 0; k < 4; ++k) {
                Exact exact(with_checks(scenario, {looks[p]}, ensemble, {h * static_cast<double>(k)}),
                            ensemble, at, at, branching::Question::any_check_fails);
                g[k] = exact.of(source);
            }
            // One of the two ways, so small are the chances that both happened and one was seen.
            weight.push_back(source.prior * slope_at_zero(g, h));
            ways.push_back(i);
        }
        const double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
        ASSERT_GT(sum, 0);
        for (std::size_t w = 0; w < ways.size(); ++w) {
            EXPECT_NEAR(belief.introductions[ways[w]].posterior, weight[w] / sum,
                        allowed(weight[w] / sum, belief) + 0.02)
                << p << " " << to_text(belief.introductions[ways[w]].kind);
        }
    }
    EXPECT_GT(belief.effective_particles, 100);
}

/// Thirty tubs of one room; mites were found in eight of them within three days.
struct Many {
    scenario::Scenario scenario;
    mites::Ensemble ensemble = mites::draw_parameters(tables(), 8 * branching::lane_count, 1);

    Many() {
        scenario.places.push_back(room("room"));
        for (int i = 0; i < 30; ++i) scenario.places.push_back(tub("tub " + std::to_string(i), 0, 29));
    }

    [[nodiscard]] Belief believed(std::uint64_t seed) const {
        BeliefRequest request;
        request.scenario = &scenario;
        request.ensemble = &ensemble;
        request.looks = {one_seen(3, 58), one_seen(1, 59)};
        for (const scenario::PlaceIndex place : {4U, 6U, 12U, 14U, 15U, 21U}) {
            request.looks.push_back(one_seen(place, 60));
            if (place % 2 == 1) request.looks[request.looks.size() - 1].seen = SeenCount::few;
        }
        request.at = 60;
        request.prior = introduction_prior(tables());
        request.seed = seed;
        return believe(request);
    }
};

// The same records give the same answer, whatever the dice: the chance that mites are in a tub nobody looked
// into, and how many there are as an order of magnitude.
TEST(ManyFinds, in_eight_of_thirty_tubs_give_the_same_answer_for_any_seed) {
    const Many many;
    std::vector<double> elsewhere;
    std::vector<double> logs;
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        const Belief belief = many.believed(seed);
        EXPECT_GT(belief.effective_particles, 15) << "of 64 draws";
        elsewhere.push_back(mites_by_place(belief, many.scenario.places.size())[30].any);
        double log_mean = 0;
        for (const Particle& particle : belief.particles) {
            double mites = 0;
            for (const scenario::MiteCount& m : particle.mites) mites += m.count;
            log_mean += particle.weight * std::log10(std::max(1.0, mites));
        }
        logs.push_back(log_mean);
    }
    for (std::size_t i = 0; i < elsewhere.size(); ++i) {
        EXPECT_GT(elsewhere[i], 0.8) << "eight of thirty by chance means that most have them";
        EXPECT_NEAR(elsewhere[i], elsewhere[0], 0.12);
        EXPECT_NEAR(logs[i], logs[0], 0.25);
    }
}

TEST(ManyFinds, moments_to_choose_lie_close_before_a_find_and_never_on_a_whole_day) {
    const std::vector<scenario::Look> looks{one_seen(1, 31), one_seen(2, 60)};
    const std::vector<double> moments = moments_to_choose(looks, 60);
    ASSERT_FALSE(moments.empty());
    for (std::size_t i = 0; i < moments.size(); ++i) {
        EXPECT_NE(moments[i], std::floor(moments[i]));
        EXPECT_TRUE(moments[i] > 0 && moments[i] < 60);
        EXPECT_TRUE(i == 0 || moments[i] > moments[i - 1]);
    }
    for (const double find : {31.0, 60.0}) {
        EXPECT_TRUE(
            std::any_of(moments.begin(), moments.end(), [&](double m) { return m > find - 1 && m < find; }));
    }
    EXPECT_TRUE(moments_to_choose({}, 60).empty()) << "nothing found, nothing to look ahead to";
}

/// Four cells of unlike chances.
Sources four_cells() {
    Sources sources;
    sources.introductions.resize(4);
    for (std::uint32_t i = 0; i < 4; ++i)
        sources.cells.push_back({i, 0, 1, std::array<double, 4>{0.3, 0.05, 0.05, 0.01}[i]});
    sources.alike_until = ends_of_alike(sources.cells);
    EXPECT_EQ(sources.alike_until, (std::vector<std::uint32_t>{1, 3, 3, 4}));
    return sources;
}

double prior_of(const Sources& sources, std::span<const std::uint32_t> cells) {
    double chance = 1;
    for (std::uint32_t c = 0; c < sources.cells.size(); ++c) {
        const bool happened = std::find(cells.begin(), cells.end(), c) != cells.end();
        chance *= happened ? sources.cells[c].chance : 1 - sources.cells[c].chance;
    }
    return chance;
}

// Over all sets of four cells the densities sum to one, and sets come as often as their density says (four
// standard errors of a share among the draws).
TEST(Proposal, draws_sets_as_often_as_their_ratio_says) {
    const Sources sources = four_cells();
    for (const std::size_t picks : {1U, 2U, 3U, 5U}) {
        const Proposal proposal(sources, {0.1, 0.5, 0.1, 0.3}, picks);
        constexpr int times = 40'000;
        std::map<std::vector<std::uint32_t>, int> drawn;
        base::RandomStream random(9, static_cast<std::uint32_t>(picks), 1);
        for (int i = 0; i < times; ++i) ++drawn[proposal.draw(random)];
        double all = 0;
        for (unsigned bits = 1; bits < 16; ++bits) {
            std::vector<std::uint32_t> cells;
            for (std::uint32_t c = 0; c < 4; ++c) {
                if ((bits >> c) & 1U) cells.push_back(c);
            }
            const double density = prior_of(sources, cells) * proposal.ratio(cells);
            all += density;
            EXPECT_NEAR(drawn[cells] / double(times), density,
                        4 * std::sqrt(density * (1 - density) / times) + 1e-9)
                << picks << " picks, set " << bits;
        }
        EXPECT_NEAR(all, 1, 1e-12) << picks;
    }
}

// Many finds on the first days looked back on: nothing explains them, and there is an answer all the same.
TEST(ManyFinds, before_anything_could_have_come_in_leave_an_answer) {
    Many many;
    BeliefRequest request;
    request.scenario = &many.scenario;
    request.ensemble = &many.ensemble;
    for (int day = 0; day < 3; ++day) {
        for (scenario::PlaceIndex place = 1; place <= 30; ++place)
            request.looks.push_back(one_seen(place, day));
    }
    request.looks.push_back(one_seen(1, 30));
    request.at = 30;
    request.prior = introduction_prior(tables());
    request.options.most_passes = 1;
    const Belief belief = believe(request);
    EXPECT_FALSE(belief.particles.empty());
    double weights = 0;
    for (const double weight : belief.draw_weight) weights += weight;
    EXPECT_NEAR(weights, 1, 1e-9);
    EXPECT_GT(belief.alive, 0.99) << "where mites are found some live";
}

TEST(Belief, the_heaviest_blocks_of_draws_come_first_with_all_that_is_theirs) {
    mites::Ensemble ensemble = mites::draw_parameters(tables(), 3 * branching::lane_count, 5);
    const mites::Ensemble before = ensemble;
    Belief belief;
    belief.draw_weight.assign(ensemble.draws.size(), 0.0);
    belief.draw_weight[3] = 0.1;
    belief.draw_weight[18] = 0.9;
    for (const mites::MiteParameters& draw : ensemble.draws) belief.shapes.push_back(draw.erlang_shape);
    belief.particles.resize(2);
    belief.particles[0] = {0.1, 3, 0, {}, {}};
    belief.particles[1] = {0.9, 18, 0, {}, {}};
    put_heavy_blocks_first(ensemble, belief);
    EXPECT_DOUBLE_EQ(belief.draw_weight[2], 0.9) << "the third of its block";
    EXPECT_DOUBLE_EQ(belief.draw_weight[8 + 3], 0.1);
    EXPECT_EQ(belief.particles[0].draw, 2U);
    EXPECT_DOUBLE_EQ(belief.particles[0].weight, 0.9);
    EXPECT_EQ(belief.particles[1].draw, 11U);
    EXPECT_EQ(ensemble.draws[2].leaving_rate, before.draws[18].leaving_rate);
    EXPECT_EQ(belief.shapes[2], before.draws[18].erlang_shape);
}

}  // namespace
}  // namespace mitefall::belief
