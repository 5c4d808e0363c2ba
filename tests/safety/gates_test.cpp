#include <gtest/gtest.h>

#include <cmath>

#include "scene.h"

// The table of gates in safety.md, first half: the animal and the strength. Rulings and limits come from that
// table.
namespace mitefall::safety {
namespace {

using records::Condition;
using records::Method;
using records::ShedState;

TEST(Gates, a_sound_snake_may_be_sprayed_at_the_published_strength) {
    const Verdict verdict = Scene().ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::allowed);
    EXPECT_TRUE(verdict.reasons.empty());
    EXPECT_TRUE(warns(verdict, "head"));
    EXPECT_TRUE(warns(verdict, "veterinarian"));
}

TEST(Taxon, who_may_be_given_ivermectin) {
    for (const auto& [taxon, ruling] :
         std::initializer_list<std::pair<const char*, Ruling>>{{"ball python", Ruling::allowed},
                                                               {"Hermann's tortoise", Ruling::never},
                                                               {"dwarf caiman", Ruling::never},
                                                               {"indigo snake", Ruling::never},
                                                               {"Drymarchon sp.", Ruling::never},
                                                               {"blue-tongued skink", Ruling::never},
                                                               {"leopard gecko", Ruling::ask_vet},
                                                               {"axolotl", Ruling::ask_vet},
                                                               {"tarantula", Ruling::ask_vet},
                                                               {"snake", Ruling::ask_vet},
                                                               {"no such thing", Ruling::ask_vet},
                                                               {"", Ruling::ask_vet}}) {
        for (const Method method : {Method::spray_animal, Method::spray_bedding}) {
            Scene scene;
            scene.anna().taxon = taxon;
            EXPECT_EQ(scene.ask(method).ruling, ruling) << taxon;
        }
    }
}

TEST(Taxon, a_tortoise_gets_no_ivermectin_by_needle_whatever_anybody_directs) {
    Scene scene;
    scene.anna().taxon = "Testudo graeca";
    scene.direct(Method::injected_ivermectin);
    const Verdict verdict = scene.ask(Method::injected_ivermectin);
    EXPECT_EQ(verdict.ruling, Ruling::never);
    EXPECT_NE(verdict.reasons.front().source.find("Teare"), std::string::npos);
}

TEST(Taxon, gentle_methods_remain) {
    Scene scene;
    scene.anna().taxon = "";
    EXPECT_EQ(scene.ask(Method::change_substrate).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::ask_vet);
    scene.anna().taxon = "indigo snake";
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::wipe).ruling, Ruling::allowed);
    scene.anna().taxon = "tarantula";
    EXPECT_EQ(scene.ask(Method::wipe).ruling, Ruling::ask_vet);
}

TEST(Taxon, an_unlisted_snake_can_be_treated_on_a_direction_an_unknown_one_cannot) {
    Scene scene;
    scene.direct(Method::spray_animal);
    scene.anna().taxon = "unlisted snake";
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    scene.anna().taxon = "something";
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
}

TEST(Weight, limits_are_at_200_and_160_grams) {
    for (const auto& [grams, on_animal, bedding] : std::initializer_list<std::tuple<double, Ruling, Ruling>>{
             {200, Ruling::allowed, Ruling::allowed},
             {199.9, Ruling::bedding_only, Ruling::bedding_only},
             {160, Ruling::bedding_only, Ruling::bedding_only},
             {159.9, Ruling::ask_vet, Ruling::ask_vet},
             {0, Ruling::ask_vet, Ruling::ask_vet}}) {
        Scene scene;
        scene.weigh(grams);
        EXPECT_EQ(scene.ask(Method::spray_animal).ruling, on_animal) << grams;
        EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, bedding) << grams;
        EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed) << grams;
    }
}

TEST(Weight, unknown_or_stale_means_weigh_first) {
    Scene scene;
    scene.direct(Method::spray_animal);
    scene.weigh(500, 60);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    scene.weigh(500, 61);
    EXPECT_EQ(scene.ask(Method::spray_animal).reasons.front().remedy, "weigh it");
    scene.weigh(500, -1);  // a weight of tomorrow is not known today
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    scene.anna().weight.reset();
    const Verdict verdict = scene.ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::ask_vet);
    EXPECT_TRUE(verdict.reasons.front().needs_fact) << "a direction does not stand in for a weight";
}

TEST(Weight, a_direction_lifts_bedding_only_and_stays_visible) {
    Scene scene;
    scene.weigh(170);
    scene.direct(Method::spray_animal);
    const Verdict verdict = scene.ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(verdict, "anna: directed by Dr. A on 9 Mar 2026: as agreed"));
    EXPECT_TRUE(warns(verdict, "170 g"));
}

TEST(Direction, counts_for_its_method_and_from_its_day) {
    Scene scene;
    scene.note(Condition::gravid);
    scene.direct(Method::spray_bedding);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    scene.direct(Method::spray_animal, -1);  // given tomorrow
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    scene.direct(Method::spray_animal, 0);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
}

TEST(Shed, cloudy_waits_without_a_date) {
    Scene scene;
    scene.anna().shed = {today() - days(5), 6, ShedState::cloudy};
    scene.direct(Method::spray_animal);
    for (const Method method : {Method::spray_animal, Method::spray_bedding, Method::soak, Method::wipe}) {
        const Verdict verdict = scene.ask(method);
        EXPECT_EQ(verdict.ruling, Ruling::wait_until) << "a direction does not lift a wait";
        EXPECT_FALSE(verdict.until);
    }
    EXPECT_EQ(scene.ask(Method::change_substrate).ruling, Ruling::allowed);
}

TEST(Shed, the_day_of_the_shed_waits_until_the_day_after) {
    Scene scene;
    scene.anna().shed = {today(), 6, ShedState::shed};
    const Verdict verdict = scene.ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::wait_until);
    EXPECT_EQ(verdict.until, today() + days(1));
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10), {}, today() + days(1)).ruling, Ruling::allowed);
}

TEST(Condition, an_ill_animal_is_for_the_veterinarian) {
    for (const Condition condition :
         {Condition::sick, Condition::thin, Condition::dehydrated, Condition::neonate, Condition::gravid,
          Condition::neurological, Condition::reacted}) {
        Scene scene;
        scene.note(condition);
        EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
        EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::ask_vet);
        EXPECT_EQ(scene.ask(Method::change_substrate).ruling, Ruling::allowed);
        // One that reacted did so two days ago: rules.toml, rest_after_reaction.
        const bool bears_no_handling = condition == Condition::sick || condition == Condition::neurological ||
                                       condition == Condition::gravid || condition == Condition::reacted;
        EXPECT_EQ(scene.ask(Method::soak).ruling, bears_no_handling ? Ruling::ask_vet : Ruling::allowed);
    }
}

TEST(Condition, a_reaction_counts_for_its_agent) {
    Scene scene;
    scene.note(Condition::reacted, "Permethrin on the shelf", 20);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::permethrin_empty, mg_per_l(5000)).ruling, Ruling::ask_vet);
    EXPECT_EQ(scene.ask(Method::treat_room, mg_per_l(5000)).ruling, Ruling::ask_vet);
    scene.note(Condition::reacted, "some spray", 20);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet) << "it may have been this one";
}

// rules.toml, rest_after_reaction: 14 days.
TEST(Condition, who_has_just_reacted_is_left_alone_whatever_it_was) {
    for (const Method method : {Method::soak, Method::wipe, Method::soap_wash, Method::spray_animal}) {
        Scene scene;
        scene.note(Condition::reacted, "permethrin", 13);
        EXPECT_EQ(scene.ask(method).ruling, Ruling::ask_vet) << records::to_text(method);
        EXPECT_EQ(scene.ask(method, mg_per_l(10), {}, today() + days(1)).ruling, Ruling::allowed);
        scene.direct(method);
        EXPECT_EQ(scene.ask(method).ruling, Ruling::allowed) << "as a veterinarian directed";
    }
}

TEST(Condition, nobodys_room_is_treated_with_them_in_it) {
    Scene scene;
    const Verdict verdict = scene.ask(Method::treat_room, mg_per_l(5000));
    EXPECT_EQ(verdict.ruling, Ruling::wait_until);
    EXPECT_FALSE(verdict.until.has_value());
    ASSERT_FALSE(verdict.reasons.empty());
    EXPECT_NE(verdict.reasons.front().remedy.find("another room"), std::string::npos);
}

TEST(Strength, above_the_published_needs_acknowledgement) {
    Scene scene;
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10.6)).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10.7)).ruling, Ruling::ask_vet);
    const Verdict strong = scene.ask(Method::spray_animal, mg_per_l(200));
    EXPECT_EQ(strong.ruling, Ruling::ask_vet);
    EXPECT_TRUE(says(strong, "20 times the strongest published spray"));
    // By hand: 10 x 500^(2/3) = 629.96 cm2 x 0.005 mL/cm2 x 0.2 mg/mL / 0.5 kg = 1.26 mg/kg, shown to two
    // figures.
    EXPECT_TRUE(says(strong, "1.3 mg/kg"));
    scene.collection.acknowledged = mg_per_l(200);
    const Verdict accepted = scene.ask(Method::spray_animal, mg_per_l(200));
    EXPECT_EQ(accepted.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(accepted, "20 times the strongest published spray"));
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(208.3)).ruling, Ruling::ask_vet);
}

TEST(Strength, unknown_strength_is_never_allowed) {
    Scene scene;
    scene.direct(Method::spray_animal);
    scene.collection.acknowledged = mg_per_l(1e9);
    for (const double bad : {0.0, -5.0, std::nan(""), HUGE_VAL, 1e7}) {
        EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(bad)).ruling, Ruling::ask_vet) << bad;
    }
}

}  // namespace
}  // namespace mitefall::safety
