#include <gtest/gtest.h>

#include <cmath>

#include "scenario/actions.h"
#include "shared/fixtures.h"

// Common practice, all else equal: what every keeper would expect of one course beside another. No published
// source; the model must at least agree with these.
namespace mitefall::scenario {
namespace {

using namespace fixtures;
using records::Method;

struct Practice {
    std::vector<double> rounds{0, 7, 14};
    bool substrate = true;
    bool damp = true;
    bool whole_room = true;
    records::Material material = records::Material::sealed;
};

Scenario course(const Practice& practice) {
    const mites::FixedParameters& fixed = small_ensemble().fixed;
    Scenario scenario;
    scenario.places = {room("room"), tub("sighted", 0), tub("neighbour", 0), tub("other", 0)};
    for (Place& place : scenario.places) place.material = practice.material;
    for (const double day : practice.rounds) {
        for (PlaceIndex p = 1; p < (practice.whole_room ? 4U : 2U); ++p) {
            add_action(scenario, {Method::spray_animal, p, day, units::milligrams_per_litre(10), 1, 0},
                       fixed);
            if (practice.substrate) add_action(scenario, {Method::change_substrate, p, day, {}, 1, 0}, fixed);
            add_action(scenario,
                       {Method::spray_bedding, p, day, units::milligrams_per_litre(10), 1,
                        practice.damp ? day + 14 : day},
                       fixed);
        }
        if (practice.whole_room) add_action(scenario, {Method::treat_room, 0, day, {}, 1, 0}, fixed);
    }
    return scenario;
}

/// ln of the chance of clear after 60 days, mites in the sighted enclosure and a few next door.
double log_clear(const Practice& practice) {
    const Scenario scenario = course(practice);
    const std::vector<MiteCount> start{{1, mites::Stage::egg, 20},
                                       {1, mites::Stage::adult_feeding_1, 4},
                                       {1, mites::Stage::adult_seeking_2, 2},
                                       {2, mites::Stage::adult_seeking_1, 1}};
    return Swept(scenario, network::lump(scenario), small_ensemble().mode, 0, 60).log_chance(start);
}

Practice with(void (*change)(Practice&)) {
    Practice practice;
    change(practice);
    return practice;
}

TEST(Direction, three_rounds_beat_two_beat_one) {
    const double one = log_clear(with([](Practice& p) { p.rounds = {0}; }));
    const double two = log_clear(with([](Practice& p) { p.rounds = {0, 7}; }));
    EXPECT_LT(one, two);
    EXPECT_LT(two, log_clear({}));
}

TEST(Direction, the_room_beats_one_enclosure) {
    EXPECT_LT(log_clear(with([](Practice& p) { p.whole_room = false; })), log_clear({}));
}

TEST(Direction, plastic_beats_wood) {
    EXPECT_LT(log_clear(with([](Practice& p) { p.material = records::Material::porous; })), log_clear({}));
}

TEST(Direction, damp_paper_beats_dry_paper) {
    EXPECT_LT(log_clear(with([](Practice& p) { p.damp = false; })), log_clear({}));
}

TEST(Direction, changing_the_substrate_beats_leaving_it) {
    EXPECT_LT(log_clear(with([](Practice& p) { p.substrate = false; })), log_clear({}));
}

TEST(Direction, two_rounds_a_week_apart_beat_two_a_day_apart) {
    const double day = log_clear(with([](Practice& p) { p.rounds = {0, 1}; }));
    EXPECT_LT(day, log_clear(with([](Practice& p) { p.rounds = {0, 7}; })));
}

TEST(Direction, a_stronger_spray_kills_more) {
    const mites::MiteParameters& mode = small_ensemble().mode;
    double last = 0;
    for (const double strength : {2.0, 5.0, 50.0, 200.0}) {
        const double kill = at_strength(&mites::MiteParameters::kill_spray_on_animal_published,
                                        &mites::MiteParameters::kill_spray_on_animal_home,
                                        units::milligrams_per_litre(strength), small_ensemble().fixed)
                                .in(mode);
        EXPECT_GT(kill, last);
        last = kill;
    }
}

// The strengths between which the effect of a spray is interpolated are those of the evidence tables.
TEST(Strength, anchors_are_those_of_the_evidence) {
    const mites::MiteParameters& mode = small_ensemble().mode;
    const auto kill = [&](units::Strength s) {
        return at_strength(&mites::MiteParameters::kill_spray_on_animal_published,
                           &mites::MiteParameters::kill_spray_on_animal_home, s, small_ensemble().fixed)
            .in(mode);
    };
    EXPECT_DOUBLE_EQ(kill(tables().strength("published_strength_low").value),
                     mode.kill_spray_on_animal_published);
    EXPECT_DOUBLE_EQ(kill(tables().strength("strength_without_caution").value),
                     mode.kill_spray_on_animal_published);
    EXPECT_DOUBLE_EQ(kill(tables().strength("home_strength").value), mode.kill_spray_on_animal_home);
}

TEST(Strength, anchors_follow_the_parameters) {
    const mites::MiteParameters& mode = small_ensemble().mode;
    mites::FixedParameters fixed = small_ensemble().fixed;
    fixed.published_strength_low = 8;
    fixed.strength_without_caution = 20;
    fixed.home_strength = 80;
    const auto kill = [&](double mg_per_l) {
        return at_strength(&mites::MiteParameters::kill_spray_on_animal_published,
                           &mites::MiteParameters::kill_spray_on_animal_home,
                           units::milligrams_per_litre(mg_per_l), fixed)
            .in(mode);
    };
    const double low = mode.kill_spray_on_animal_published;
    const double high = mode.kill_spray_on_animal_home;
    EXPECT_DOUBLE_EQ(kill(4), low / 2);
    EXPECT_DOUBLE_EQ(kill(20), low);
    EXPECT_DOUBLE_EQ(kill(40), (low + high) / 2);  // halfway in the logarithm
    EXPECT_DOUBLE_EQ(kill(80), high);
}

}  // namespace
}  // namespace mitefall::scenario
