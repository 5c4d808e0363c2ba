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

TEST(Taxon, a_skink_may_be_given_an_isoxazoline_by_a_veterinarian_and_never_ivermectin) {
    Scene scene;
    scene.anna().taxon = "fire skink";
    for (const Method method : {Method::oral_afoxolaner, Method::oral_fluralaner}) {
        EXPECT_EQ(scene.ask(method).ruling, Ruling::ask_vet);
        scene.direct(method);
        EXPECT_EQ(scene.ask(method).ruling, Ruling::allowed);
    }
    for (const Method method : {Method::injected_ivermectin, Method::spray_animal, Method::spray_bedding}) {
        scene.direct(method);
        EXPECT_EQ(scene.ask(method).ruling, Ruling::never);
    }
    scene.anna().taxon = "indigo snake";
    EXPECT_EQ(scene.ask(Method::oral_afoxolaner).ruling, Ruling::never);
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

// Nobody knows whether it is venomous.
TEST(Taxon, a_snake_whose_kind_is_not_named_is_not_taken_in_hand) {
    for (const char* const kind : {"unlisted snake", "gaboon vipr", ""}) {
        Scene scene;
        scene.anna().taxon = kind;
        for (const Method method : {Method::soak, Method::wipe, Method::soap_wash, Method::oil_wipe})
            EXPECT_NE(scene.ask(method).ruling, Ruling::allowed) << kind;
    }
}

TEST(Repeats, one_application_told_three_times_is_one) {
    Scene scene;
    for (int told = 0; told < 3; ++told) scene.treated(Method::spray_animal, 8);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
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
    EXPECT_EQ(words::say(scene.ask(Method::spray_animal).reasons.front().remedy), "weigh it");
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

TEST(Direction, lifts_no_sign_that_came_after_it) {
    Scene scene;
    scene.note(Condition::gravid, {}, 5);
    scene.direct(Method::spray_animal, 4);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    for (const Condition condition : {Condition::reacted, Condition::neurological, Condition::sick}) {
        Scene later = scene;
        later.note(condition, {}, 3);
        EXPECT_EQ(later.ask(Method::spray_animal).ruling, Ruling::ask_vet);
        later.direct(Method::spray_animal, 2);
        EXPECT_EQ(later.ask(Method::spray_animal).ruling, Ruling::allowed) << "asked anew, and answered";
    }
    scene.note(Condition::reacted, {}, 4);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet) << "on its day, but after it";
}

// A typing error put right says nothing new: the sign of that day still came after what was directed.
TEST(Direction, put_right_later_is_as_old_as_when_it_was_first_told) {
    Scene scene;
    scene.note(Condition::gravid, {}, 5);
    scene.direct(Method::spray_animal, 0);
    scene.note(Condition::reacted, {}, 0);
    ASSERT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
    auto& direction = scene.anna().directions.back();
    const records::FactId first = direction.entry;
    direction.entry = scene.anna().conditions.back().entry + 1;
    scene.collection.first_told[direction.entry] = first;
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
}

TEST(Direction, without_a_number_is_for_one_treatment) {
    Scene scene;
    scene.note(Condition::gravid, {}, 30);
    scene.direct(Method::spray_animal, 20);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    scene.treated(Method::spray_animal, 10);
    const Verdict second = scene.ask(Method::spray_animal);
    EXPECT_EQ(second.ruling, Ruling::ask_vet);
    EXPECT_TRUE(warns(second, "it was for one treatment"));
}

TEST(Direction, reaches_as_many_treatments_as_it_names_given_or_planned) {
    Scene scene;
    scene.note(Condition::gravid, {}, 50);
    scene.direct(Method::spray_animal, 40, 0, 3);
    scene.treated(Method::spray_animal, 45);  // before it: not one of the three
    scene.treated(Method::spray_animal, 10);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    CourseSoFar course{{scene.anna().id, {{Method::spray_animal, today() + days(7)}}}};
    scene.anna().treatments.front().day = today() - days(90);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10), course).ruling, Ruling::allowed);
    course.begin()->second.push_back({Method::spray_animal, today() + days(14)});
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10), course).ruling, Ruling::ask_vet);
}

TEST(Direction, reaches_as_strong_as_it_names_and_without_that_what_is_published) {
    Scene scene;
    scene.note(Condition::gravid, {}, 5);
    scene.direct(Method::spray_animal);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10.6)).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(50)).ruling, Ruling::ask_vet);
    scene.direct(Method::spray_animal, 0, 50);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(50)).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(51)).ruling, Ruling::ask_vet);
    scene.direct(Method::spray_animal, 0, 1000);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(251)).ruling, Ruling::never);
}

// 190 g was known, 150 g was not; a weighing that says again what was known asks nothing anew.
TEST(Direction, lifts_a_low_weight_it_knew_and_no_lower_one) {
    Scene scene;
    const auto weigh = [&](double grams, int ago) {
        scene.weigh(grams, ago);
        scene.anna().weighings.push_back(*scene.anna().weight);
    };
    weigh(190, 20);
    scene.direct(Method::spray_animal, 10);
    weigh(185, 5);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
    weigh(150, 2);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
}

TEST(Direction, for_one_animal_says_nothing_of_its_housemates) {
    Scene scene;
    auto& berta = scene.add_animal("berta", "corn snake", "tub");
    berta.conditions.push_back({today() - days(2), 50, {berta.id, Condition::gravid, true, {}, {}}});
    scene.direct(Method::spray_animal, 0, 0, 9);
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet) << "she comes back wet to berta";
    berta.directions.push_back({today(), 99, {berta.id, Method::spray_bedding, "Dr. A", "berta too"}});
    EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::allowed);
}

TEST(Shed, cloudy_waits_for_the_shed_but_may_be_soaked) {
    Scene scene;
    scene.anna().shed = {today() - days(5), 6, ShedState::cloudy};
    scene.direct(Method::spray_animal);
    for (const Method method : {Method::spray_animal, Method::spray_bedding, Method::wipe}) {
        const Verdict verdict = scene.ask(method);
        EXPECT_EQ(verdict.ruling, Ruling::wait_until) << "a direction does not lift a wait";
        EXPECT_EQ(verdict.until, today() + days(6)) << "ten days from the first, and the day after";
    }
    EXPECT_EQ(scene.ask(Method::change_substrate).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed);
    EXPECT_TRUE(warns(scene.ask(Method::soak), "about to shed: plain water only"));
}

// safety.md: 28 to 30 C by a thermometer, depth, chin rest, time, when to stop.
TEST(Soak, says_how_warm_how_deep_how_long_and_when_to_stop) {
    const Verdict verdict = Scene().ask(Method::soak);
    for (const char* const words : {"28 to 30 C by a thermometer", "No deeper than the animal is thick",
                                    "rest its chin on", "30 minutes at most", "Stop at once"})
        EXPECT_TRUE(warns(verdict, words)) << words;
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
        const bool bears_no_handling = condition == Condition::sick || condition == Condition::thin ||
                                       condition == Condition::neurological ||
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

// docs/decisions/0052: what sickness stands against, a sign stands against, and nothing more.
TEST(Signs, stand_against_everything_done_to_the_animal_and_nothing_else) {
    Scene sick;
    sick.note(records::Condition::sick);
    for (const records::Sign sign : records::all_of<records::Sign>()) {
        Scene scene;
        scene.anna().signs.push_back({today(), ++scene.last_entry, sign});
        for (const records::MethodRow& row : records::method_rows) {
            const Verdict verdict = scene.ask(row.method);
            EXPECT_EQ(verdict.ruling, sick.ask(row.method).ruling) << row.key;
            if (row.target == records::Target::animal) {
                EXPECT_GE(verdict.ruling, Ruling::ask_vet) << row.key;
                EXPECT_TRUE(reasons_with(verdict, "sign of illness")) << row.key;
            }
        }
        EXPECT_EQ(scene.ask(records::Method::change_substrate).ruling, Ruling::allowed);
    }
}

TEST(Signs, seen_after_a_direction_ask_anew) {
    Scene scene;
    scene.direct(records::Method::soak);
    EXPECT_EQ(scene.ask(records::Method::soak).ruling, Ruling::allowed);
    scene.anna().signs.push_back({today(), ++scene.last_entry, records::Sign::limp});
    EXPECT_EQ(scene.ask(records::Method::soak).ruling, Ruling::ask_vet);
    scene.direct(records::Method::soak, 0);
    EXPECT_EQ(scene.ask(records::Method::soak).ruling, Ruling::allowed);
}

/// Of berta, two days ago, in `enclosure`.
records::Death& died(Scene& scene, const std::string& enclosure) {
    records::Animal berta;
    berta.id = records::AnimalId("berta");
    berta.enclosure = records::EnclosureId(enclosure);
    return scene.collection.deaths.emplace_back(
        records::Death{{today() - days(2), ++scene.last_entry, std::move(berta)}, {}});
}

TEST(Deaths, whoever_lives_where_it_died_waits_for_somebody_to_say_on) {
    Scene scene;
    records::Death& death = died(scene, "tub");
    for (const auto method : {records::Method::spray_animal, records::Method::spray_bedding}) {
        EXPECT_EQ(scene.ask(method).ruling, Ruling::ask_vet);
        EXPECT_TRUE(reasons_with(scene.ask(method), "berta died on 8 Mar 2026"));
    }
    EXPECT_EQ(scene.ask(records::Method::soak).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(records::Method::change_substrate).ruling, Ruling::allowed);
    death.answered = {today(), ++scene.last_entry, {records::AnimalId("berta"), "it was old"}};
    EXPECT_EQ(scene.ask(records::Method::spray_animal).ruling, Ruling::allowed);
}

// death_look_back is 30 days: that is asserted in days, beside the row of data/evidence/rules.toml.
TEST(Deaths, of_one_that_was_treated_stop_the_room_and_no_other_room) {
    Scene scene;
    scene.add_enclosure("shelf", "room");
    scene.add_enclosure("far", "other room");
    const auto spray = [&] { return scene.ask(records::Method::spray_animal).ruling; };
    records::Animal& dead = died(scene, "shelf").died.value;
    EXPECT_EQ(spray(), Ruling::allowed);
    dead.treatments.push_back(
        {today() - days(32), 1, {dead.enclosure, {dead.id}, records::Method::spray_animal, {}}});
    EXPECT_EQ(spray(), Ruling::ask_vet);
    dead.treatments[0].day = today() - days(33);
    EXPECT_EQ(spray(), Ruling::allowed);
    dead.exposures.push_back(
        {today() - days(3), 1, {dead.enclosure, {}, records::Method::spray_bedding, {}}});
    EXPECT_EQ(spray(), Ruling::ask_vet);
    dead.enclosure = records::EnclosureId("far");
    EXPECT_EQ(spray(), Ruling::allowed);
}

TEST(Condition, nobodys_room_is_treated_with_them_in_it) {
    Scene scene;
    const Verdict verdict = scene.ask(Method::treat_room, mg_per_l(5000));
    EXPECT_EQ(verdict.ruling, Ruling::wait_until);
    EXPECT_FALSE(verdict.until.has_value());
    ASSERT_FALSE(verdict.reasons.empty());
    EXPECT_NE(words::say(verdict.reasons.front().remedy).find("another room"), std::string::npos);
}

TEST(Strength, above_the_published_needs_acknowledgement) {
    Scene scene;
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10.6)).ruling, Ruling::allowed);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(10.7)).ruling, Ruling::ask_vet);
    const Verdict strong = scene.ask(Method::spray_animal, mg_per_l(200));
    EXPECT_EQ(strong.ruling, Ruling::ask_vet);
    EXPECT_TRUE(reasons_with(strong, "20 times the strongest published spray"));
    // By hand: 10 x 500^(2/3) = 629.96 cm2 x 0.005 mL/cm2 x 0.2 mg/mL / 0.5 kg = 1.26 mg/kg, shown to two
    // figures.
    EXPECT_TRUE(reasons_with(strong, "1.3 mg/kg"));
    EXPECT_TRUE(reasons_with(strong, "veterinarians inject 0.2 mg/kg"));
    scene.acknowledge(200);
    const Verdict accepted = scene.ask(Method::spray_animal, mg_per_l(200));
    EXPECT_EQ(accepted.ruling, Ruling::allowed);
    EXPECT_TRUE(warns(accepted, "20 times the strongest published spray"));
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(208.3)).ruling, Ruling::ask_vet);
}

TEST(Strength, is_acknowledged_for_each_animal_and_from_its_day) {
    Scene scene;
    scene.collection.acknowledged = mg_per_l(200);  // as older journals have it, for all
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(200)).ruling, Ruling::ask_vet);
    scene.acknowledge(200, -1);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(200)).ruling, Ruling::ask_vet) << "tomorrow";
    scene.acknowledge(200);
    EXPECT_EQ(scene.ask(Method::spray_bedding, mg_per_l(200)).ruling, Ruling::allowed);
    scene.add_enclosure("next", "room");
    const records::Animal& berta = scene.add_animal("berta", "corn snake", "next");
    EXPECT_EQ(
        judge(scene.collection, berta, Method::spray_animal, mg_per_l(200), today(), tables(), taxa(), {})
            .ruling,
        Ruling::ask_vet);
}

// rules.toml, highest_spray_strength: 250 mg/L.
TEST(Strength, above_any_known_practice_nothing_is_permitted) {
    Scene scene;
    scene.acknowledge(1000);
    scene.direct(Method::spray_animal, 0, 1000, 9);
    EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(250)).ruling, Ruling::allowed);
    for (const Method method : {Method::spray_animal, Method::spray_bedding})
        EXPECT_EQ(scene.ask(method, mg_per_l(250.1)).ruling, Ruling::never);
}

TEST(Strength, unknown_strength_is_never_allowed) {
    Scene scene;
    scene.direct(Method::spray_animal);
    scene.acknowledge(1e9);
    for (const double bad : {0.0, -5.0, std::nan(""), HUGE_VAL, 1e7}) {
        EXPECT_EQ(scene.ask(Method::spray_animal, mg_per_l(bad)).ruling, Ruling::ask_vet) << bad;
    }
}

}  // namespace
}  // namespace mitefall::safety
