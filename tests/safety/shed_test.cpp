#include "safety/shed.h"

#include <gtest/gtest.h>

#include "safety/scene.h"

// rules.toml: cloudy_to_shed 10 days, shed_asked_again 3 days, clear_to_shed 7 days, wait_after_shed 1 day.
namespace mitefall::safety {
namespace {

using records::Method;
using records::ShedState;

constexpr Method on_skin[] = {Method::spray_animal, Method::spray_bedding, Method::wipe};

Scene cloudy(int since, int told) {
    Scene scene;
    scene.anna().shed = {today() - days(told), 6, ShedState::cloudy};
    scene.anna().cloudy_since = today() - days(since);
    return scene;
}

std::optional<ShedAwaited> awaited(Scene scene) { return shed_awaited(scene.anna(), today(), tables()); }

TEST(ShedAwaited, is_asked_for_after_the_usual_time_and_again_after_each_still_cloudy) {
    EXPECT_EQ(awaited(cloudy(0, 0))->ask_from, today() + days(10));
    EXPECT_EQ(awaited(cloudy(10, 10))->ask_from, today());
    EXPECT_EQ(awaited(cloudy(10, 0))->ask_from, today() + days(3)) << "still cloudy, said today";
    EXPECT_EQ(awaited(cloudy(12, 2))->ask_from, today() + days(1));
    EXPECT_EQ(awaited(cloudy(4, 0))->ask_from, today() + days(6)) << "told twice within the usual time";
    EXPECT_EQ(awaited(cloudy(5, 5))->since, today() - days(5));
}

TEST(ShedAwaited, is_over_with_the_shed_and_after_a_time_of_clear_eyes) {
    Scene scene;
    EXPECT_FALSE(awaited(scene));
    scene.anna().shed = {today(), 6, ShedState::shed};
    EXPECT_FALSE(awaited(scene));
    scene.anna().shed = {today() - days(7), 6, ShedState::clear};
    ASSERT_TRUE(awaited(scene));
    EXPECT_FALSE(awaited(scene)->ask_from) << "nothing more is asked";
    EXPECT_EQ(awaited(scene)->free_from, today() + days(1));
    scene.anna().shed->day = today() - days(8);
    EXPECT_FALSE(awaited(scene));
}

// However long ago it should have shed: on the day itself nothing but the answer of its keeper frees it.
TEST(ShedAwaited, an_animal_that_is_cloudy_on_record_gets_nothing_on_its_skin_today) {
    for (const int since : {0, 1, 9, 10, 11, 30, 300}) {
        for (const Method method : on_skin) {
            Scene scene = cloudy(since, since);
            EXPECT_EQ(scene.ask(method).ruling, Ruling::wait_until) << since;
            EXPECT_EQ(scene.ask(Method::soak).ruling, Ruling::allowed) << since;
        }
    }
}

TEST(ShedAwaited, its_shed_is_counted_on_for_a_later_day_with_a_word_about_it) {
    for (const Method method : on_skin) {
        Scene scene = cloudy(4, 4);
        EXPECT_EQ(scene.ask(method).until, today() + days(7));
        EXPECT_EQ(scene.ask(method, mg_per_l(10), {}, today() + days(6)).ruling, Ruling::wait_until);
        const Verdict then = scene.ask(method, mg_per_l(10), {}, today() + days(7));
        EXPECT_TRUE(permits(then));
        EXPECT_TRUE(warns(then, "only once it has shed"));
        Scene overdue = cloudy(30, 30);
        EXPECT_EQ(overdue.ask(method).until, today() + days(1));
    }
}

TEST(ShedAwaited, clear_eyes_without_a_shed_wait_for_the_longest_usual_time) {
    for (const Method method : on_skin) {
        Scene scene;
        scene.anna().shed = {today(), 6, ShedState::clear};
        EXPECT_EQ(scene.ask(method).ruling, Ruling::wait_until);
        EXPECT_EQ(scene.ask(method).until, today() + days(8));
        scene.anna().shed->day = today() - days(8);
        EXPECT_TRUE(permits(scene.ask(method)));
    }
}

}  // namespace
}  // namespace mitefall::safety
