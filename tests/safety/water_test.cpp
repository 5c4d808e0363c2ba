#include <gtest/gtest.h>

#include "mixing/dose.h"
#include "safety/cautions.h"
#include "safety/permit.h"
#include "scene.h"
#include "words/words.h"

// Who must always be able to drink, and what lies on an animal on wet paper.
namespace mitefall::safety {
namespace {

using records::Condition;
using records::Method;

/// Neither spray, even where a veterinarian directed it.
void expect_dish_stays(Scene scene) {
    for (const Method method : {Method::spray_animal, Method::spray_bedding}) {
        scene.direct(method);
        const Verdict verdict = scene.ask(method);
        EXPECT_FALSE(permits(verdict)) << records::to_text(method);
        EXPECT_TRUE(reasons_with(verdict, "water dish")) << records::to_text(method);
    }
    EXPECT_FALSE(reasons_with(scene.ask(Method::soak), "water dish"));
    EXPECT_FALSE(reasons_with(scene.ask(Method::change_substrate), "water dish"));
}

TEST(Dish, stays_in_for_thin_dehydrated_and_newborn_animals) {
    for (const Condition condition : {Condition::thin, Condition::dehydrated, Condition::neonate}) {
        Scene scene;
        scene.note(condition);
        expect_dish_stays(std::move(scene));
    }
}

TEST(Dish, stays_in_for_small_animals) {
    Scene scene;
    scene.weigh(159.9);  // rules.toml, dry_min_body_mass 160
    expect_dish_stays(scene);
    scene.weigh(160);
    EXPECT_FALSE(reasons_with(scene.ask(Method::spray_bedding), "water dish"));
}

TEST(Dish, stays_in_for_rainforest_kinds_under_any_of_their_names) {
    for (const char* const name :
         {"Morelia viridis", "Chondropython viridis", "emerald tree boa", "rainbow boa"}) {
        Scene scene;
        scene.anna().taxon = name;
        EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::never) << name;
        expect_dish_stays(std::move(scene));
    }
}

TEST(Dish, stays_in_for_a_housemate_that_needs_it) {
    Scene scene;
    scene.add_animal("vera", "Morelia viridis", "tub");
    EXPECT_FALSE(permits(scene.ask(Method::spray_animal)));
    const Case with = prepare(scene.collection, tables(), taxa());
    EXPECT_FALSE(
        permit_enclosure(with, scene.anna().enclosure, {Method::spray_bedding, mg_per_l(10), today()}, {}));
}

// 10 x 500^(2/3) = 629.96 cm2 of skin, 0.3 of it on the paper, 0.02 mL/cm2 a day (rules.toml:
// body_surface_constant, skin_on_paper, redampen_per_area): 3.77976 mL of 10 mg/L a day on 0.5 kg.
TEST(DampPaper, brings_its_spray_to_belly_and_coil) {
    const auto dose = mixing::damp_paper_dose(mg_per_l(10), units::grams(500), tables()).value();
    EXPECT_NEAR(units::in_milligrams_per_kilogram(dose.likely), 0.0755952, 1e-6);
    EXPECT_LT(dose.low, dose.likely);
    EXPECT_GT(dose.high, dose.likely);
    EXPECT_FALSE(mixing::damp_paper_dose(mg_per_l(-1), units::grams(500), tables()));
    EXPECT_FALSE(mixing::damp_paper_dose(mg_per_l(10), units::grams(0), tables()));
}

TEST(DampPaper, says_so_with_its_assumption_beside_the_spraying_and_nowhere_else) {
    Scene scene;
    const Verdict verdict = scene.ask(Method::spray_bedding);
    EXPECT_TRUE(warns(verdict, "a day to its skin"));
    EXPECT_TRUE(warns(verdict, "189 cm2") || warns(verdict, "190 cm2")) << "the area taken";
    EXPECT_FALSE(warns(scene.ask(Method::soak), "a day to its skin"));
}

TEST(DampPaper, warns_of_inflamed_skin_at_every_wetting) {
    const auto told = cautions_for(Method::spray_bedding, tables());
    const auto told_of = [&](const char* text) {
        return std::any_of(told.begin(), told.end(), [&](const Caution& one) {
            return words::say(one.what).find(text) != std::string::npos;
        });
    };
    EXPECT_TRUE(told_of("belly scales"));
    EXPECT_TRUE(told_of("blister or redness stop"));
    EXPECT_TRUE(told_of("at most 14 d"));
}

}  // namespace
}  // namespace mitefall::safety
