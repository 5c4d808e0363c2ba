#include "safety/meal.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "safety/permit.h"
#include "safety/scene.h"
#include "shared/random_collections.h"

// rules.toml: meal_rest 2 days, large_meal 15 %, large_meal_rest 4, regurgitation_rest 10,
// meal_after_treatment 1. The hour of a meal is not on record, so that its own day does not count. Anna
// weighs 500 g.
namespace mitefall::safety {
namespace {

using records::MealOutcome;
using records::Method;

constexpr Method disturbing[] = {Method::spray_animal, Method::spray_bedding, Method::soak,
                                 Method::wipe,         Method::oil_wipe,      Method::fresh_tub};

void feed(Scene& scene, int days_ago, double grams, MealOutcome outcome = MealOutcome::eaten,
          bool treated = false) {
    records::Animal& anna = scene.anna();
    anna.meals.push_back({today() - days(days_ago),
                          ++scene.last_entry,
                          {anna.id, outcome, "mouse", 1, units::grams(grams), treated}});
}

Scene fed(int days_ago, double grams, MealOutcome outcome = MealOutcome::eaten) {
    Scene scene;
    feed(scene, days_ago, grams, outcome);
    return scene;
}

TEST(Meals, nothing_wets_or_moves_an_animal_until_two_days_are_surely_over) {
    for (const Method method : disturbing) {
        Scene scene = fed(0, 20);
        EXPECT_EQ(scene.ask(method).ruling, Ruling::wait_until);
        EXPECT_EQ(scene.ask(method).until, today() + days(3)) << records::to_text(method);
        EXPECT_EQ(scene.ask(method, mg_per_l(10), {}, today() + days(2)).ruling, Ruling::wait_until);
        EXPECT_TRUE(permits(scene.ask(method, mg_per_l(10), {}, today() + days(3))));
        EXPECT_TRUE(permits(fed(3, 20).ask(method)));
    }
    EXPECT_TRUE(permits(fed(0, 20).ask(Method::change_substrate)));
    EXPECT_TRUE(permits(fed(0, 20).ask(Method::freeze_objects)));
}

TEST(Meals, a_large_one_and_one_of_which_little_is_known_rest_for_longer) {
    EXPECT_EQ(fed(0, 74).ask(Method::soak).until, today() + days(3)) << "14.8 % of 500 g";
    EXPECT_EQ(fed(0, 76).ask(Method::soak).until, today() + days(5)) << "15.2 %";
    EXPECT_EQ(fed(0, 0).ask(Method::soak).until, today() + days(5)) << "nobody weighed it";
    Scene twice = fed(0, 40);
    feed(twice, 0, 40);
    EXPECT_EQ(twice.ask(Method::soak).until, today() + days(5)) << "together they are large";
    Scene unweighed = fed(0, 20);
    unweighed.anna().weight.reset();
    EXPECT_EQ(unweighed.ask(Method::soak).until, today() + days(5));
    EXPECT_TRUE(reasons_with(unweighed.ask(Method::soak), "counts as a large meal"));
}

TEST(Meals, refused_nothing_is_inside) {
    for (const Method method : disturbing)
        EXPECT_TRUE(permits(fed(0, 400, MealOutcome::refused).ask(method)));
}

TEST(Meals, one_that_came_up_rests_for_ten_days_and_a_second_asks_for_a_veterinarian) {
    Scene scene = fed(0, 0, MealOutcome::regurgitated);
    EXPECT_EQ(scene.ask(Method::soak).until, today() + days(11));
    feed(scene, 30, 0, MealOutcome::regurgitated);
    EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::ask_vet);
    EXPECT_TRUE(permits(scene.ask(Method::change_substrate)));
    Scene long_ago = fed(11, 0, MealOutcome::regurgitated);
    feed(long_ago, 60, 0, MealOutcome::regurgitated);
    EXPECT_TRUE(permits(long_ago.ask(Method::soak))) << "course_window is 60 days";
}

TEST(Meals, treated_prey_puts_a_drug_into_the_animal_of_which_nobody_knows_how_much) {
    for (const MealOutcome outcome : {MealOutcome::eaten, MealOutcome::regurgitated}) {
        Scene scene;
        feed(scene, 30, 20, outcome, true);
        EXPECT_EQ(scene.ask(Method::spray_animal).ruling, Ruling::ask_vet);
        EXPECT_EQ(scene.ask(Method::spray_bedding).ruling, Ruling::ask_vet);
        EXPECT_TRUE(permits(scene.ask(Method::soak)));
        scene.direct(Method::spray_animal);
        EXPECT_TRUE(permits(scene.ask(Method::spray_animal))) << "the veterinarian knew";
    }
    Scene refused;
    feed(refused, 3, 20, MealOutcome::refused, true);
    EXPECT_TRUE(permits(refused.ask(Method::spray_animal)));
}

// Whatever is put on record of a meal, nothing is allowed that was not; and less known of one never allows
// more.
TEST(Meals, no_meal_on_record_permits_what_was_not) {
    EXPECT_TRUE(rc::check([] {
        const Scene before = any_scene();
        Scene after = before;
        for (auto& [id, animal] : after.collection.animals) add_any_meals(animal);
        Scene vague = after;
        for (auto& [id, animal] : vague.collection.animals) {
            for (auto& meal : animal.meals) meal.value.mass = {};
        }
        const Case was = prepare(before.collection, tables(), taxa());
        const Case is = prepare(after.collection, tables(), taxa());
        const Case little = prepare(vague.collection, tables(), taxa());
        for (const Method method : records::all_of<Method>()) {
            const Request request{method, mg_per_l(10), today() + days(*rc::gen::inRange(0, 12))};
            for (const auto& [id, animal] : before.collection.animals) {
                const bool then = permits(judge(is, is.collection.animals.at(id), request, {}));
                RC_ASSERT(!then || permits(judge(was, animal, request, {})));
                RC_ASSERT(then || !permits(judge(little, little.collection.animals.at(id), request, {})));
            }
        }
    }));
}

TEST(Meals, the_next_is_a_whole_day_after_the_animal_was_wet_or_moved) {
    const auto from = [](Scene scene) { return fed_again_from(scene.collection, scene.anna(), tables()); };
    Scene scene;
    EXPECT_FALSE(from(scene));
    scene.treated(Method::change_substrate, 0);
    EXPECT_FALSE(from(scene));
    scene.treated(Method::soak, 1);
    EXPECT_EQ(from(scene), today() + days(1));
    scene.treated(Method::spray_animal, 0);
    EXPECT_EQ(from(scene), today() + days(2));
}

TEST(Meals, a_meal_before_a_treatment_bars_it) {
    EXPECT_TRUE(meal_bars(today(), today(), tables()));
    EXPECT_TRUE(meal_bars(today(), today() + days(2), tables()));
    EXPECT_FALSE(meal_bars(today(), today() + days(3), tables()));
    EXPECT_FALSE(meal_bars(today(), today() - days(1), tables()));
}

TEST(Eggs, are_never_treated_nor_what_they_lie_in_nor_the_room_around_them) {
    Scene scene;
    records::Enclosure& tub = scene.collection.enclosures.at(records::EnclosureId("tub"));
    tub.eggs = records::Dated{today() - days(1), 9};
    for (const Method method : records::all_of<Method>()) {
        if (is_taken_in(method)) continue;
        EXPECT_EQ(scene.ask(method).ruling, Ruling::never) << records::to_text(method);
    }
    scene.collection.animals.clear();
    const Case with = prepare(scene.collection, tables(), taxa());
    for (const Method method : {Method::spray_bedding, Method::permethrin_empty, Method::change_substrate,
                                Method::fresh_tub, Method::heat_objects, Method::desiccant_dust}) {
        const auto permit = permit_enclosure(with, tub.id, {method, mg_per_l(10), today()}, {});
        ASSERT_FALSE(permit) << records::to_text(method);
        EXPECT_EQ(permit.error().reason.what.id, "eggs_inside");
    }
    const Request spray{Method::treat_room, tables().strength("permethrin_strength").value, today()};
    const auto room = permit_room(with, records::RoomId("room"), spray, {});
    ASSERT_FALSE(room);
    EXPECT_EQ(room.error().reason.what.id, "eggs_in_the_room");
    EXPECT_TRUE(permit_room(with, records::RoomId("other room"), spray, {}));
}

}  // namespace
}  // namespace mitefall::safety
