#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "safety/cautions.h"
#include "scene.h"
#include "words/words.h"

// Methods that exclude each other, and methods beside the sprays. Days from methods.toml: oil 7,
// predators 30.
namespace mitefall::safety {
namespace {

using records::Method;

TEST(Company, oil_and_spray_stay_a_week_apart_whichever_comes_first) {
    Scene oiled;
    oiled.treated(Method::oil_wipe, 2);
    const Verdict spray = oiled.ask(Method::spray_animal);
    EXPECT_EQ(spray.ruling, Ruling::wait_until);
    EXPECT_EQ(spray.until, today() + days(5));
    EXPECT_TRUE(reasons_with(spray, "oil"));
    Scene sprayed;
    sprayed.treated(Method::spray_animal, 2);
    EXPECT_EQ(sprayed.ask(Method::oil_wipe).until, today() + days(5));
    EXPECT_EQ(sprayed.ask(Method::oil_wipe, mg_per_l(0), {}, today() + days(5)).ruling, Ruling::allowed);
    EXPECT_EQ(sprayed.ask(Method::soap_wash).ruling, Ruling::allowed);
}

TEST(Company, predatory_mites_wait_for_the_acaricide_and_are_lost_to_the_next) {
    Scene scene;
    auto& tub = scene.collection.enclosures.at(records::EnclosureId("tub"));
    tub.treatments.push_back({today() - days(10), 1, {tub.id, {}, Method::spray_bedding, mg_per_l(10)}});
    const Verdict release = scene.ask(Method::predatory_mites);
    EXPECT_EQ(release.ruling, Ruling::wait_until);
    EXPECT_EQ(release.until, today() + days(20));
    EXPECT_TRUE(warns(release, "loose, damp substrate"));  // the tub has paper
    tub.treatments = {{today() - days(10), 1, {tub.id, {}, Method::predatory_mites, mg_per_l(0)}}};
    const Verdict spray = scene.ask(Method::spray_bedding);
    EXPECT_EQ(spray.ruling, Ruling::allowed) << "an animal with mites is not left untreated for their sake";
    EXPECT_TRUE(warns(spray, "ends the predatory mites"));
}

TEST(Company, a_bedding_sprayed_counts_for_two_agents_on_whoever_lived_in_it) {
    Scene scene;
    scene.direct(Method::oral_afoxolaner);
    scene.anna().exposures.push_back(
        {today() - days(5), 1, {scene.anna().enclosure, {}, Method::spray_bedding, mg_per_l(10)}});
    const Verdict verdict = scene.ask(Method::oral_afoxolaner);
    EXPECT_TRUE(warns(verdict, "two acaricides on one animal")) << "lifted by the direction, still shown";
}

TEST(Company, nobody_comes_back_wet_to_one_that_may_not_lie_on_wet_paper) {
    Scene scene;
    scene.add_animal("berta", "corn snake", "tub");
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    EXPECT_TRUE(warns(scene.ask(Method::spray_animal), "anna: 2 animals share its enclosure"));
    auto& berta = scene.collection.animals.at(records::AnimalId("berta"));
    berta.weight = {today() - days(1), 1, units::grams(130)};
    const Verdict light = scene.ask(Method::spray_animal);
    EXPECT_EQ(light.ruling, Ruling::ask_vet);
    EXPECT_TRUE(reasons_with(light, "berta shares its enclosure"));
    EXPECT_EQ(words::say(light.reasons.front().remedy), "house berta apart first and record the move");
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed);
    berta.weight->value = units::grams(500);
    berta.shed = {today(), 6, records::ShedState::shed};
    EXPECT_EQ(scene.ask(Method::spray_animal).until, today() + days(1));
}

TEST(Company, what_leaves_the_animal_alone_is_allowed_for_any) {
    for (const char* const taxon : {"", "no such animal", "Testudo hermanni", "dart frog", "copperhead"}) {
        Scene scene;
        scene.anna().taxon = taxon;
        scene.note(records::Condition::neurological);
        for (const Method method : {Method::change_substrate, Method::heat_objects, Method::freeze_objects})
            EXPECT_EQ(scene.ask(method).ruling, Ruling::allowed) << taxon;
    }
}

TEST(Company, nothing_is_done_by_hand_to_a_venomous_snake_whoever_directs_it) {
    for (const char* const taxon : {"copperhead", "western hognose", "Heterodon nasicus", "viper"}) {
        Scene scene;
        scene.anna().taxon = taxon;
        for (const Method method :
             {Method::spray_animal, Method::soak, Method::wipe, Method::oil_wipe, Method::soap_wash}) {
            scene.direct(method, 0, 200, 9);
            EXPECT_EQ(scene.ask(method).ruling, Ruling::never) << taxon;
        }
        EXPECT_TRUE(warns(scene.ask(Method::spray_bedding), "second person present"));
        EXPECT_TRUE(warns(scene.ask(Method::change_substrate), "locked in a shift box"));
    }
}

TEST(Company, a_very_long_snake_needs_two_people) {
    Scene scene;
    EXPECT_FALSE(warns(scene.ask(Method::soak), "two people"));
    for (const char* const taxon : {"reticulated python", "green anaconda", "python"}) {
        scene.anna().taxon = taxon;
        EXPECT_TRUE(warns(scene.ask(Method::soak), "two people")) << taxon;
    }
}

TEST(Company, home_remedies_are_not_for_the_frail_or_for_frogs) {
    for (const Method method : {Method::oil_wipe, Method::soap_wash}) {
        Scene thin;
        thin.note(records::Condition::dehydrated);
        EXPECT_EQ(thin.ask(method).ruling, Ruling::ask_vet);
        Scene frog;
        frog.anna().taxon = "dart frog";
        EXPECT_EQ(frog.ask(method).ruling, Ruling::ask_vet);
        EXPECT_TRUE(warns(Scene().ask(method), "little behind it"));
    }
}

TEST(Company, an_unknown_name_is_asked_about) {
    Scene scene;
    scene.anna().taxon = "corn snak";
    const Verdict verdict = scene.ask(Method::spray_animal);
    ASSERT_FALSE(verdict.reasons.empty());
    EXPECT_NE(words::say(verdict.reasons.front().remedy).find("did you mean \"corn snake\""),
              std::string::npos);
    EXPECT_FALSE(permits(verdict));
}

/// Anna came into the vivarium `ago` days ago; its paper was sprayed `sprayed` days ago.
Scene on_sprayed_paper(int ago, int sprayed) {
    Scene scene;
    scene.add_enclosure("vivarium", "room");
    const records::EnclosureId vivarium("vivarium");
    auto& place = scene.collection.enclosures.at(vivarium);
    place.treatments.push_back(
        {today() - days(sprayed), ++scene.last_entry, {vivarium, {}, Method::spray_bedding, mg_per_l(10)}});
    const units::Day moved = today() - days(ago);
    scene.anna().enclosure = vivarium;
    scene.anna().stays = {{records::EnclosureId("tub"), today() - days(90), 1, moved},
                          {vivarium, moved, ++scene.last_entry}};
    return scene;
}

TEST(Company, who_comes_onto_wet_paper_is_exposed_like_those_who_lay_on_it) {
    for (const int sprayed : {0, 1, 2}) {
        Scene scene = on_sprayed_paper(0, sprayed);
        scene.direct(Method::injected_ivermectin, 3);
        EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::ask_vet) << sprayed;
        scene.last_entry = 99;
        scene.direct(Method::injected_ivermectin, 0);  // knows of both
        EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::allowed) << sprayed;
    }
    Scene late = on_sprayed_paper(0, 3);
    late.direct(Method::injected_ivermectin, 4);
    EXPECT_EQ(late.ask(Method::injected_ivermectin).ruling, Ruling::allowed);
}

TEST(Company, new_paper_ends_what_an_animal_may_lie_on) {
    Scene scene = on_sprayed_paper(0, 2);
    scene.collection.enclosures.at(scene.anna().enclosure).substrate_changed = today() - days(1);
    scene.direct(Method::injected_ivermectin, 3);
    EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::allowed);
    // On the day of the spraying it may have been laid before it.
    scene.collection.enclosures.at(scene.anna().enclosure).substrate_changed = today() - days(2);
    EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::ask_vet);
}

TEST(Company, paper_wetted_again_is_an_exposure_of_that_day_and_no_treatment_more) {
    Scene scene = on_sprayed_paper(40, 17);
    scene.direct(Method::injected_ivermectin, 18);
    EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::allowed);
    scene.wet_again(15);
    EXPECT_EQ(scene.ask(Method::injected_ivermectin).ruling, Ruling::ask_vet);  // wet until 13 days ago
    Scene directed = on_sprayed_paper(40, 1);
    directed.note(records::Condition::gravid, {}, 50);
    directed.direct(Method::spray_bedding, 2, 10, 2);
    directed.anna().exposures = directed.collection.enclosures.at(directed.anna().enclosure).treatments;
    const Ruling before = directed.ask(Method::spray_bedding).ruling;
    directed.wet_again(0);
    EXPECT_EQ(before, Ruling::allowed);
    EXPECT_EQ(directed.ask(Method::spray_bedding).ruling, before);
}

TEST(Company, a_wait_that_ends_in_another_is_told_to_its_end) {
    Scene scene;
    scene.treated(Method::oil_wipe, 6);  // free tomorrow
    const CourseSoFar course{{scene.anna().id, {{Method::spray_animal, today() + days(2)}}}};
    const Verdict verdict = scene.ask(Method::spray_animal, mg_per_l(10), course);
    EXPECT_EQ(verdict.until, today() + days(5));  // three days after the proposed one
}

// Who only reads a sentence cannot know whether "Paper" is an animal: what a caution names, it says beside
// its text.
TEST(Cautions, those_that_name_an_animal_say_which_and_the_others_name_none) {
    Scene scene;
    scene.add_animal("boris", "corn snake", "tub");
    scene.add_enclosure("glass", "room");
    scene.add_animal("nemo", "", "glass");
    scene.add_animal("tara", "dart frog", "glass");
    scene.add_bystander("dog", "room");
    scene.direct(Method::spray_animal);
    scene.note(records::Condition::dehydrated);
    scene.collection.rooms.at(records::RoomId("room")).adjoining.emplace_back("other room");
    scene.add_enclosure("shell", "other room");
    scene.add_animal("tortuga", "tortoise", "shell");
    std::set<std::string> named;
    for (const Method method : {Method::spray_animal, Method::spray_bedding, Method::soak, Method::wipe,
                                Method::permethrin_empty, Method::desiccant_dust, Method::change_substrate}) {
        for (const Caution& caution : scene.ask(method).cautions) {
            for (const auto& [id, animal] : scene.collection.animals) {
                const bool is_told = words::say(caution.what).find(id.text()) != std::string::npos;
                const bool is_named =
                    std::find(caution.animals.begin(), caution.animals.end(), id) != caution.animals.end();
                EXPECT_EQ(is_named, is_told) << caution.what.id;
                if (is_named) named.insert(id.text());
            }
        }
    }
    EXPECT_EQ(named, (std::set<std::string>{"anna", "nemo", "tara", "tortuga"}));
    for (const Caution& caution : cautions_for(Method::spray_animal, tables()))
        EXPECT_TRUE(caution.animals.empty()) << caution.what.id;
}

}  // namespace
}  // namespace mitefall::safety
