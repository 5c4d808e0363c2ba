#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "safety/methods.h"
#include "scene.h"

// The table of gates in safety.md, row by row. Expected rulings and limits come from that table.
namespace mitefall::safety {
namespace {

using records::Condition;
using records::Method;
using records::ShedState;

bool says(const Verdict& verdict, const std::string& words) {
    return std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                       [&](const Reason& r) { return r.text.find(words) != std::string::npos; });
}

bool warns(const Verdict& verdict, const std::string& words) {
    return std::any_of(verdict.cautions.begin(), verdict.cautions.end(),
                       [&](const Caution& c) { return c.text.find(words) != std::string::npos; });
}

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
    EXPECT_TRUE(warns(verdict, "Directed by Dr. A on 2026-03-09: as agreed"));
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
        const bool bears_no_handling = condition == Condition::sick || condition == Condition::neurological ||
                                       condition == Condition::gravid;
        EXPECT_EQ(scene.ask(Method::soak).ruling, bears_no_handling ? Ruling::ask_vet : Ruling::allowed);
    }
}

TEST(Condition, a_reaction_counts_for_its_agent) {
    Scene scene;
    scene.note(Condition::reacted, "Permethrin on the shelf");
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::permethrin_empty, mg_per_l(5000)).ruling, Ruling::ask_vet);
    EXPECT_EQ(scene.ask(Method::treat_room, mg_per_l(5000)).ruling, Ruling::ask_vet);
    scene.note(Condition::reacted, "some spray");
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet) << "it may have been this one";
}

TEST(Condition, a_gravid_animal_does_not_bar_its_room_but_is_named) {
    Scene scene;
    scene.note(Condition::gravid);
    const Verdict verdict = scene.ask(Method::treat_room, mg_per_l(5000));
    EXPECT_EQ(verdict.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(verdict, "gravid"));
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

TEST(Repeats, three_days_apart) {
    Scene scene;
    scene.treated(Method::spray_animal, 2);
    const Verdict verdict = scene.ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::wait_until);
    EXPECT_EQ(verdict.until, today() + days(1));
    EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::allowed) << "bedding is re-dampened daily";
    scene.anna().treatments.clear();
    scene.treated(Method::spray_animal, 3);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
}

TEST(Repeats, what_is_proposed_counts_before_and_after) {
    Scene scene;
    const CourseSoFar course{
        {scene.anna().id,
         {{Method::spray_animal, today() - days(1)}, {Method::spray_animal, today() + days(4)}}}};
    const Verdict verdict = scene.ask(Method::spray_animal, mg_per_l(10), course);
    EXPECT_EQ(verdict.ruling, Ruling::wait_until);
    EXPECT_EQ(verdict.until, today() + days(7)) << "two days on would be too near the one after";
}

TEST(Repeats, a_fourth_application_is_for_the_veterinarian) {
    Scene scene;
    for (const int ago : {7, 14}) scene.treated(Method::spray_animal, ago);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    scene.treated(Method::spray_animal, 21);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    scene.anna().treatments.back().day = today() - days(60);  // another course
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    const CourseSoFar course{{scene.anna().id, {{Method::spray_animal, today() + days(7)}}}};
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10), course).ruling, Ruling::ask_vet);
}

TEST(TwoAgents, of_different_classes_in_one_course_need_a_veterinarian) {
    Scene scene;
    scene.treated(Method::oral_afoxolaner, 20);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::ask_vet);
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed);
    scene.anna().treatments.back().day = today() - days(60);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    const CourseSoFar course{{scene.anna().id, {{Method::fipronil_wipe, today() + days(20)}}}};
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10), course).ruling, Ruling::ask_vet);
}

TEST(Permethrin, is_for_enclosure_and_room_with_airing) {
    Scene scene;
    const Verdict verdict = scene.ask(Method::permethrin_empty, mg_per_l(5000));
    EXPECT_EQ(verdict.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(verdict, "Never on the animal"));
    EXPECT_TRUE(warns(verdict, "48 hours"));
    EXPECT_TRUE(warns(verdict, "77.6 mg/L"));  // Talent 2005
    EXPECT_EQ(scene.ask(Method::permethrin_empty, mg_per_l(5001)).ruling, Ruling::ask_vet);
    for (const Method method : all_methods) {
        EXPECT_FALSE(agent_of(method) == Agent::pyrethroid && target_of(method) == Target::animal);
    }
}

TEST(Fipronil, asks_a_veterinarian_and_never_for_ball_pythons_or_small_animals) {
    Scene scene;
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::ask_vet);
    scene.direct(Method::fipronil_wipe);
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::allowed);
    scene.weigh(199);
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::never);
    scene.weigh(1500);
    scene.anna().taxon = "royal python";
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::never);
    scene.anna().taxon = "western hognose";
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::never);
}

TEST(Prescription, needs_a_direction_for_that_animal_and_method) {
    for (const Method method :
         {Method::oral_afoxolaner, Method::oral_fluralaner, Method::injected_ivermectin}) {
        Scene scene;
        EXPECT_EQ(scene.ask(method).ruling, Ruling::ask_vet);
        scene.direct(method);
        const Verdict verdict = scene.ask(method);
        EXPECT_EQ(verdict.ruling, Ruling::allowed);
        EXPECT_TRUE(warns(verdict, "Directed by"));
    }
}

TEST(Air, a_tortoise_in_the_room_or_anywhere_in_the_house_forbids_spraying) {
    for (const char* const room : {"room", ""}) {
        Scene scene;
        scene.add_bystander("tortoise", room);
        scene.direct(Method::spray_animal);
        const Verdict verdict = scene.ask(Method::spray_animal);
        EXPECT_EQ(verdict.ruling, Ruling::never);
        EXPECT_NE(verdict.reasons.front().remedy.find("another room"), std::string::npos);
        EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::never);
        EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed);
    }
}

TEST(Air, is_judged_by_room) {
    Scene scene;
    scene.add_enclosure("table", "other room");
    scene.add_animal("tank", "Testudo hermanni", "table");
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    scene.collection.rooms.at(records::RoomId("room")).adjoining = {records::RoomId("other room")};
    EXPECT_TRUE(warns(scene.ask(Method::spray_animal), "next door"));
    scene.collection.enclosures.at(records::EnclosureId("table")).room = records::RoomId("room");
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::never);
}

TEST(Air, company_of_unknown_kind_must_be_named_first) {
    Scene scene;
    scene.add_bystander("", "room");
    scene.direct(Method::spray_animal);
    const Verdict verdict = scene.ask(Method::spray_animal);
    EXPECT_EQ(verdict.ruling, Ruling::ask_vet);
    EXPECT_EQ(verdict.reasons.front().remedy, "enter the species");
}

TEST(Air, other_life_in_the_room_is_warned_of) {
    Scene scene;
    for (const char* const taxon : {"dog", "cat", "goldfish", "dart frog", "tarantula"})
        scene.add_bystander(taxon, "room");
    const Verdict spray = scene.ask(Method::spray_animal);
    EXPECT_EQ(spray.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(spray, "ABCB1"));
    EXPECT_TRUE(warns(spray, "air pump"));
    EXPECT_TRUE(warns(scene.ask(Method::permethrin_empty, mg_per_l(5000)), "permethrin poisons cats"));
}

TEST(Verdicts, reasons_come_most_severe_first_and_all_of_them) {
    Scene scene;
    scene.weigh(170);
    scene.anna().shed = {today(), 6, ShedState::shed};
    scene.note(Condition::thin);
    scene.add_bystander("tortoise", "room");
    const Verdict verdict = scene.ask(Method::spray_animal, mg_per_l(200));
    ASSERT_EQ(verdict.reasons.size(), 5U);
    EXPECT_EQ(verdict.reasons[0].ruling, Ruling::never);
    EXPECT_EQ(verdict.reasons[1].ruling, Ruling::ask_vet);
    EXPECT_EQ(verdict.reasons[2].ruling, Ruling::ask_vet);
    EXPECT_EQ(verdict.reasons[3].ruling, Ruling::wait_until);
    EXPECT_EQ(verdict.reasons[4].ruling, Ruling::bedding_only);
    EXPECT_FALSE(verdict.until) << "only a verdict to wait has a day";
}

TEST(Verdicts, the_whole_table_has_every_animal_and_method) {
    Scene scene;
    scene.add_animal("berta", "ball python", "tub");
    const auto all = judge_all(scene.collection, mg_per_l(10), today(), tables(), taxa(), {});
    ASSERT_EQ(all.size(), 2 * all_methods.size());
    for (const Verdict& verdict : all) {
        const Verdict alone =
            judge(scene.collection, scene.collection.animals.at(verdict.animal), verdict.method,
                  agent_of(verdict.method) == Agent::pyrethroid ? mg_per_l(5000) : mg_per_l(10), today(),
                  tables(), taxa(), {});
        EXPECT_EQ(verdict.ruling, alone.ruling);
    }
}

}  // namespace
}  // namespace mitefall::safety
