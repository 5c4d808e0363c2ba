#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/random.h"
#include "forecast/forecast.h"
#include "request.h"
#include "scenario/actions.h"
#include "shared/fixtures.h"
#include "simulator/simulator.h"

// What treatments told in any number of entries come to, and that more of them never does less.
namespace mitefall::forecast {
namespace {

using fixtures::tables;
using M = mites::MiteParameters;
using records::Method;

scenario::Scenario two_snakes_in_a_tub() {
    scenario::Scenario scenario;
    scenario.places = {fixtures::room("room"), fixtures::tub("tub", 0)};
    scenario.places[1].animals = 2;
    return scenario;
}

scenario::Action on(scenario::Host host, Method method, double time = 1, double mg_per_l = 0) {
    return {method, 1, time, units::milligrams_per_litre(mg_per_l), 1, 0, {host}};
}

scenario::Scenario with(std::vector<scenario::Action> actions) {
    scenario::Scenario scenario = two_snakes_in_a_tub();
    scenario::Residents residents(scenario);
    while (!actions.empty()) {
        const double now = actions.front().time;
        const auto later =
            std::stable_partition(actions.begin(), actions.end(),
                                  [&](const scenario::Action& action) { return action.time == now; });
        scenario::add_treatments(scenario, {actions.begin(), later}, mites::fixed_parameters(tables()),
                                 residents);
        actions.erase(actions.begin(), later);
    }
    return scenario;
}

mites::Ensemble one_block() { return mites::draw_parameters(tables(), branching::lane_count, 3); }

std::vector<double> chances(const scenario::Scenario& scenario, const KnownStart& start, double to = 60) {
    const mites::Ensemble ensemble = one_block();
    ForecastRequest request = request_of(scenario, ensemble, start, to);
    request.tolerance = {};
    return forecast_clear(request)->chance;
}

const KnownStart feeding{{1, mites::Stage::adult_feeding_1, 4}, {1, mites::Stage::protonymph_seeking, 3}};

TEST(Treatments, of_two_animals_entered_one_by_one_are_those_entered_together) {
    for (const Method method :
         {Method::oral_fluralaner, Method::oral_afoxolaner, Method::soak, Method::wipe}) {
        const auto together = chances(with({{method, 1, 1, {}, 1, 0, {}}}), feeding);
        EXPECT_EQ(chances(with({on(0, method), on(1, method)}), feeding), together);
        EXPECT_EQ(chances(with({on(1, method), on(0, method), on(1, method)}), feeding), together);
        scenario::Action half{method, 1, 1, {}, 0.5, 0, {}};
        EXPECT_EQ(chances(with({half, half}), feeding), together) << "halves make a whole";
    }
}

/// Chance that a mite which sits on the animals at this moment lives through what is done there.
double lives_through(const scenario::Scenario& scenario, const mites::MiteParameters& draw) {
    double lives = 1;
    for (const scenario::Event& event : scenario.events) {
        if (const auto* const kill = std::get_if<scenario::Kill>(&event.what))
            lives *= 1 - kill->part * kill->chance.in(draw);
        if (const auto* const kill = std::get_if<scenario::KillOnAnimals>(&event.what))
            lives *= 1 - kill->chance(draw);
    }
    return lives;
}

// By hand: half of the mites sit on each of two animals.
TEST(Treatments, act_on_the_mites_of_their_own_animal) {
    const mites::Ensemble ensemble = one_block();
    for (const mites::MiteParameters& draw : ensemble.draws) {
        const double soak = draw.kill_soak;
        const double wipe = draw.kill_wipe;
        EXPECT_NEAR(lives_through(with({on(0, Method::soak)}), draw), 1 - soak / 2, 1e-15);
        EXPECT_NEAR(lives_through(with({on(0, Method::soak), on(1, Method::soak)}), draw), 1 - soak, 1e-15);
        EXPECT_NEAR(lives_through(with({on(0, Method::soak), on(1, Method::wipe)}), draw),
                    1 - (soak + wipe) / 2, 1e-15);
        EXPECT_NEAR(lives_through(with({on(0, Method::soak), on(0, Method::wipe)}), draw),
                    (1 + (1 - soak) * (1 - wipe)) / 2, 1e-15);
    }
}

// By hand: what the bud leaves and what the spray leaves, one after the other, of mites on the one animal.
TEST(Treatments, a_head_is_gone_over_besides_the_spray) {
    for (const mites::MiteParameters& draw : one_block().draws) {
        const double taken = draw.clear_head_taken;
        EXPECT_NEAR(lives_through(with({on(0, Method::clear_head)}), draw), 1 - taken / 2, 1e-15);
        EXPECT_NEAR(lives_through(with({on(0, Method::soak), on(0, Method::clear_head)}), draw),
                    (1 + (1 - draw.kill_soak) * (1 - taken)) / 2, 1e-15);
    }
}

// By hand: of a hundred mites in the nest the share of the table stays behind; those on the animal come
// along.
TEST(Treatments, a_clean_tub_leaves_the_nest_behind_and_takes_the_animal_along) {
    const scenario::Scenario scenario = with({{Method::fresh_tub, 1, 1, {}, 1, 0, {}}});
    ASSERT_EQ(scenario.events.size(), 3U);
    EXPECT_TRUE(std::holds_alternative<scenario::ResidueGone>(scenario.events[0].what));
    const auto kill = [&](std::size_t i) { return std::get<scenario::Kill>(scenario.events[i].what); };
    EXPECT_EQ(kill(1).reach, mites::Reach::mobile_nest);
    EXPECT_EQ(kill(2).reach, mites::Reach::eggs);
    for (const mites::MiteParameters& draw : one_block().draws) {
        EXPECT_EQ(kill(1).chance.in(draw), draw.fresh_tub_nest);
        EXPECT_EQ(kill(2).chance.in(draw), draw.fresh_tub_eggs);
        EXPECT_GE(draw.fresh_tub_nest, draw.substrate_nest_sealed) << "nothing of the old one comes along";
        EXPECT_GE(draw.fresh_tub_eggs, draw.substrate_eggs_sealed);
    }
}

TEST(Treatments, of_an_animal_that_moves_go_with_it) {
    scenario::Scenario scenario = two_snakes_in_a_tub();
    scenario.places.push_back(fixtures::tub("next", 0));
    scenario.places[2].animals = 0;
    scenario::Residents residents(scenario);
    const std::vector<scenario::Action> dosed{on(0, Method::oral_fluralaner)};
    scenario::add_treatments(scenario, dosed, mites::fixed_parameters(tables()), residents);
    residents.move(2, residents.of(1)[0], 1, 2);
    const auto said = [&](std::size_t i) { return std::get<scenario::Medicated>(scenario.events[i].what); };
    const std::size_t n = scenario.events.size();
    const mites::MiteParameters draw = one_block().draws[0];
    EXPECT_EQ(said(n - 2).place, 1U);
    EXPECT_EQ(said(n - 2).chance(draw, 3), 0);
    EXPECT_EQ(said(n - 1).place, 2U);
    EXPECT_NEAR(said(n - 1).chance(draw, 3), draw.oral_kill_per_meal, 1e-15);
    EXPECT_NEAR(said(n - 1).chance(draw, 1 + mites::days_in_blood(mites::fixed_parameters(tables()),
                                                                  Method::oral_fluralaner)),
                0, 0);
}

// By hand: strongest of two doses, each given with its chance.
TEST(Doses, of_several_in_one_animal_the_strongest_counts) {
    const mites::MiteParameters draw;
    const scenario::Medicated drugs{
        0, {{{scenario::Amount::number(0.5), 1, 10}, {scenario::Amount::number(0.8), 0.25, 5}}, {}}};
    EXPECT_NEAR(drugs.chance(draw, 4), (0.25 * 0.8 + 0.75 * 0.5) / 2, 1e-15);
    EXPECT_NEAR(drugs.chance(draw, 5), 0.5 / 2, 1e-15);
    EXPECT_NEAR(drugs.chance(draw, 10), 0, 0);
}

// Where the strong one is dry and the weak one damp they change places: 3 = 1 day of damp + log2(2 / 0.5)
// half-lives.
TEST(Residues, of_several_on_one_paper_the_strongest_counts_at_every_moment) {
    const mites::MiteParameters draw;
    const std::vector<scenario::Residue> both{
        {0, scenario::Amount::number(2), scenario::Amount::number(1), 1},
        {0, scenario::Amount::number(0.5), scenario::Amount::number(1), 8}};
    for (const auto& [time, hazard] :
         std::vector<std::pair<double, double>>{{0.5, 2}, {2, 1}, {3, 0.5}, {7, 0.5}, {9, 0.25}})
        EXPECT_NEAR(scenario::hazard_of(both, draw, time), hazard, 1e-15) << time;
}

TEST(Residues, of_a_weak_spray_leave_that_of_a_strong_one_as_it_is) {
    scenario::Action strong{Method::spray_bedding, 1, 0, units::milligrams_per_litre(200), 1, 14, {}};
    const KnownStart nest{{1, mites::Stage::protonymph_seeking, 5}};
    const auto before = chances(with({strong}), nest);
    scenario::Action weak{Method::spray_bedding, 1, 2, units::milligrams_per_litre(5), 1, 3, {}};
    const auto after = chances(with({strong, weak}), nest);
    for (std::size_t i = 0; i < before.size(); ++i) EXPECT_GE(after[i], before[i] - 1e-7);
}

// One mite that dies of nothing but the residue: exp(-integral), in closed form, with a weak residue that
// outlasts the strong one. Integral: 2 x 1 damp, 2 (1 - 2^-2) / ln 2 fading to 0.5, then 0.5 to the end.
TEST(Residues, that_change_places_are_swept_as_they_are_added_up_by_hand) {
    mites::Ensemble ensemble = one_block();
    for (mites::MiteParameters* const draw :
         {&ensemble.mode, &ensemble.draws[0], &ensemble.draws[1], &ensemble.draws[2], &ensemble.draws[3],
          &ensemble.draws[4], &ensemble.draws[5], &ensemble.draws[6], &ensemble.draws[7]}) {
        draw->host_finding_adult = 0;
        draw->leaving_rate = 0;
        draw->unfed_adult_life = 1000;
        draw->unfed_life_q10 = 1;
        draw->unfed_life_dry_factor = 1;
    }
    scenario::Scenario scenario = two_snakes_in_a_tub();
    scenario.events = {
        {0, scenario::Residue{1, scenario::Amount::number(2), scenario::Amount::number(1), 1}},
        {0, scenario::Residue{1, scenario::Amount::number(0.5), scenario::Amount::number(3), 8}}};
    ForecastRequest request = request_of(scenario, ensemble, {{1, mites::Stage::adult_seeking_1, 1}}, 6);
    request.tolerance = {};
    const double integral = 2 + 2 * (1 - 0.25) / std::log(2) + 0.5 * 3;
    // Starving in six days with a mean life of 1000 days in nine or so substages is rarer than 1e-9.
    const std::vector<double> found = forecast_clear(request)->chance;
    for (const double chance : found) EXPECT_NEAR(1 - chance, std::exp(-integral), 1e-6);
}

TEST(Strength, of_a_spray_never_kills_less_when_it_is_more) {
    const mites::Ensemble ensemble = mites::draw_parameters(tables(), 512, 11);
    const mites::FixedParameters fixed = mites::fixed_parameters(tables());
    const std::vector<std::pair<mites::ParameterMember, mites::ParameterMember>> rows{
        {&M::kill_spray_on_animal_published, &M::kill_spray_on_animal_home},
        {&M::kill_spray_nest_published_sealed, &M::kill_spray_nest_home_sealed},
        {&M::kill_spray_nest_published_porous, &M::kill_spray_nest_home_porous},
        {&M::damp_hazard_published, &M::damp_hazard_home}};
    for (const auto& [published, home] : rows) {
        for (const mites::MiteParameters& draw : ensemble.draws) {
            EXPECT_LE(draw.*published, draw.*home) << "drawn together";
            double before = 0;
            for (const double mg : {0.1, 2.0, 5.0, 9.0, 10.0, 11.0, 30.0, 100.0, 199.0, 200.0, 250.0}) {
                const double kill =
                    scenario::at_strength(published, home, units::milligrams_per_litre(mg), fixed).in(draw);
                EXPECT_GE(kill, before) << mg;
                before = kill;
            }
        }
    }
}

// More of a treatment than a draw of the stronger row allows is never less than the weaker row.
TEST(Strength, set_by_hand_below_that_of_a_weaker_spray_counts_as_that) {
    mites::MiteParameters draw;
    draw.kill_spray_on_animal_published = 0.7;
    draw.kill_spray_on_animal_home = 0.3;
    const mites::FixedParameters fixed = mites::fixed_parameters(tables());
    const auto kill = [&](double mg) {
        return scenario::at_strength(&M::kill_spray_on_animal_published, &M::kill_spray_on_animal_home,
                                     units::milligrams_per_litre(mg), fixed)
            .in(draw);
    };
    EXPECT_EQ(kill(200), kill(10));
}

// A random course in a random collection -------------------------------------------------------------------

struct Happened {
    double time = 0;
    int move = 0;  ///< 1: an animal goes from `from` to `to`
    scenario::PlaceIndex from = 0, to = 0;
    std::vector<scenario::Action> actions;
};

class RandomCourse {
  public:
    explicit RandomCourse(std::uint64_t seed) : random_(seed, 0, 0) {
        scenario_.places = {fixtures::room("room"), fixtures::tub("a", 0, 2), fixtures::tub("b", 0, 1)};
        if (coin()) scenario_.places[2].material = records::Material::porous;
        for (double time = 0; time < 25; time += std::floor(1 + 4 * random_.uniform())) {
            Happened step;
            step.time = time;
            step.move = random_.uniform() < 0.2 ? 1 : 0;
            step.from = coin() ? 1 : 2;
            step.to = 3 - step.from;
            for (int i = pick(3); i > 0; --i) step.actions.push_back(action(time));
            steps_.push_back(std::move(step));
        }
    }

    /// The course, with or without one more treatment on a random day.
    [[nodiscard]] scenario::Scenario write(const scenario::Action* extra) const {
        scenario::Scenario scenario = scenario_;
        scenario::Residents residents(scenario);
        const mites::FixedParameters fixed = mites::fixed_parameters(tables());
        for (const Happened& step : steps_) {
            if (step.move == 1 && !residents.of(step.from).empty())
                residents.move(step.time, residents.of(step.from).front(), step.from, step.to);
            std::vector<scenario::Action> actions = step.actions;
            if (extra != nullptr && extra->time == step.time) actions.push_back(*extra);
            scenario::add_treatments(scenario, actions, fixed, residents);
        }
        return scenario;
    }

    /// Anything but new paper, which takes the residue on the old out (M11).
    [[nodiscard]] scenario::Action more() {
        const double time = steps_[static_cast<std::size_t>(pick(static_cast<int>(steps_.size())))].time;
        scenario::Action extra = action(time);
        while (records::row_of(extra.method).paper == records::Paper::renewed) extra = action(time);
        return extra;
    }

  private:
    [[nodiscard]] int pick(int n) { return std::min(n - 1, static_cast<int>(random_.uniform() * n)); }
    [[nodiscard]] bool coin() { return random_.uniform() < 0.5; }

    scenario::Action action(double time) {
        static constexpr std::array methods{Method::spray_animal,
                                            Method::spray_bedding,
                                            Method::soak,
                                            Method::wipe,
                                            Method::clear_head,
                                            Method::oral_afoxolaner,
                                            Method::oral_fluralaner,
                                            Method::permethrin_empty,
                                            Method::treat_room,
                                            Method::change_substrate,
                                            Method::fresh_tub};
        static constexpr std::array strengths{2.0, 10.0, 40.0, 200.0};
        scenario::Action done;
        done.method = methods[static_cast<std::size_t>(pick(methods.size()))];
        done.place = done.method == Method::treat_room ? 0 : coin() ? 1 : 2;
        done.time = time;
        const bool is_spray = done.method == Method::spray_animal || done.method == Method::spray_bedding;
        if (is_spray)
            done.strength = units::milligrams_per_litre(strengths[static_cast<std::size_t>(pick(4))]);
        done.part = coin() ? 1 : random_.uniform();
        if (coin())
            done.animals = {
                static_cast<scenario::Host>(pick(3))};  // maybe one that lives elsewhere: nobody is treated
        done.damp_until = time + 6 * random_.uniform();
        return done;
    }

    base::RandomStream random_;
    scenario::Scenario scenario_;
    std::vector<Happened> steps_;
};

TEST(TreatmentProperties, one_more_treatment_never_lowers_the_chance_of_clear_in_any_draw) {
    EXPECT_TRUE(rc::check("one more treatment", [] {
        RandomCourse course(*rc::gen::arbitrary<std::uint64_t>());
        const scenario::Action extra = course.more();
        const scenario::Scenario before = course.write(nullptr);
        const scenario::Scenario after = course.write(&extra);
        RC_ASSERT(scenario::check_scenario(before).has_value());
        RC_ASSERT(scenario::check_scenario(after).has_value());
        const KnownStart start{{1, mites::Stage::adult_feeding_1, 2},
                               {2, mites::Stage::protonymph_seeking, 2},
                               {1, mites::Stage::egg, 3}};
        const auto less = chances(before, start, 40);
        const auto more = chances(after, start, 40);
        for (std::size_t i = 0; i < less.size(); ++i) RC_ASSERT(more[i] >= less[i] - 1e-6);
    }));
}

}  // namespace
}  // namespace mitefall::forecast
