#include <gtest/gtest.h>

#include "safety/methods.h"
#include "scene.h"

// The table of gates in safety.md, second half: agents, repeats, air, and what a verdict looks like.
namespace mitefall::safety {
namespace {

using records::Condition;
using records::Method;
using records::ShedState;

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
    for (const Method method : records::all_of<Method>()) {
        EXPECT_FALSE(agent_of(method) == Agent::pyrethroid && target_of(method) == Target::animal);
    }
}

TEST(Fipronil, asks_a_veterinarian_and_never_for_ball_pythons_or_small_animals) {
    Scene scene;
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::ask_vet);
    scene.direct(Method::fipronil_wipe, 0);
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::allowed);
    scene.weigh(199);
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::never);
    scene.weigh(1500);
    scene.anna().taxon = "royal python";
    EXPECT_EQ(scene.ask(Method::fipronil_wipe).ruling, Ruling::never);
    scene.anna().taxon = "garter snake";
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
        EXPECT_TRUE(warns(verdict, "directed by"));
    }
}

// safety.md: no ivermectin spray for 14 days after an injection without a veterinarian, nor the other way
// round.
TEST(Injection, and_spray_are_fourteen_days_apart) {
    for (const Method spray : {Method::spray_animal, Method::spray_bedding}) {
        for (const auto& [first, then] :
             {std::pair(Method::injected_ivermectin, spray), std::pair(spray, Method::injected_ivermectin)}) {
            Scene scene;
            scene.treated(first, 13);
            EXPECT_TRUE(reasons_with(scene.ask(then), "as an injection and as a spray within 14 days"));
            EXPECT_EQ(scene.ask(then).ruling, Ruling::ask_vet);
            EXPECT_FALSE(
                reasons_with(scene.ask(then, mg_per_l(10), {}, today() + days(1)), "as an injection"));
            const CourseSoFar course{{scene.anna().id, {{first, today() + days(5)}}}};
            scene.anna().treatments.clear();
            EXPECT_TRUE(reasons_with(scene.ask(then, mg_per_l(10), course), "as an injection")) << "proposed";
        }
    }
}

TEST(Air, a_tortoise_in_the_room_or_anywhere_in_the_house_forbids_spraying) {
    for (const char* const room : {"room", ""}) {
        Scene scene;
        scene.add_bystander("tortoise", room);
        scene.direct(Method::spray_animal);
        const Verdict verdict = scene.ask(Method::spray_animal);
        EXPECT_EQ(verdict.ruling, Ruling::never);
        EXPECT_NE(words::say(verdict.reasons.front().remedy).find("another room"), std::string::npos);
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
    EXPECT_EQ(words::say(verdict.reasons.front().remedy), "enter the species");
}

TEST(Air, other_life_in_the_room_is_warned_of) {
    Scene scene;
    for (const char* const taxon : {"dog", "cat", "goldfish", "dart frog", "tarantula"})
        scene.add_bystander(taxon, "room");
    const Verdict spray = scene.ask(Method::spray_animal);
    EXPECT_EQ(spray.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(spray, "ABCB1"));
    EXPECT_TRUE(warns(spray, "0.1 mg/kg"));
    EXPECT_TRUE(warns(spray, "traces kill them; move them out"));
    EXPECT_FALSE(warns(spray, "stop the air pump"));
    EXPECT_TRUE(warns(spray, "Never stop the air of an aquarium"));
    EXPECT_TRUE(warns(scene.ask(Method::permethrin_empty, mg_per_l(5000)), "permethrin poisons cats"));
}

TEST(Verdicts, reasons_come_most_severe_first_and_all_of_them) {
    Scene scene;
    scene.weigh(170);
    scene.anna().shed = {today(), 6, ShedState::shed};
    scene.note(Condition::thin);
    scene.add_bystander("tortoise", "room");
    const Verdict verdict = scene.ask(Method::spray_animal, mg_per_l(200));
    ASSERT_EQ(verdict.reasons.size(), 6U);
    EXPECT_EQ(verdict.reasons[0].ruling, Ruling::never);
    EXPECT_EQ(verdict.reasons[1].ruling, Ruling::ask_vet);
    EXPECT_EQ(verdict.reasons[2].ruling, Ruling::ask_vet);
    EXPECT_EQ(verdict.reasons[3].ruling, Ruling::wait_until);
    EXPECT_EQ(verdict.reasons[4].ruling, Ruling::wait_until) << "a thin animal keeps its dish";
    EXPECT_EQ(verdict.reasons[5].ruling, Ruling::bedding_only);
    EXPECT_FALSE(verdict.until) << "only a verdict to wait has a day";
}

TEST(Verdicts, the_whole_table_has_every_animal_and_method) {
    Scene scene;
    scene.add_animal("berta", "ball python", "tub");
    const auto all = judge_all(scene.collection, mg_per_l(10), today(), tables(), taxa(), {});
    ASSERT_EQ(all.size(), 2 * records::method_rows.size());
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
