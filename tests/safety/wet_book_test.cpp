#include "safety/wet_book.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "plain_water.h"
#include "scene.h"

namespace mitefall::safety {
namespace {

using units::Day;

records::Enclosure& tub(Scene& scene) { return scene.collection.enclosures.at(records::EnclosureId("tub")); }

Inside inside(const Scene& scene) { return scene.collection.animals_in(records::EnclosureId("tub")); }

WetBook book(Scene& scene, std::vector<int> rounds) {
    std::vector<Day> on;
    for (const int round : rounds) on.push_back(today() + days(round));
    return {scene.collection, tub(scene), inside(scene), std::move(on), today(), wet_limits(tables())};
}

Wetting kept_damp(int day) { return {today() + days(day), true, today() + days(day + 30)}; }
Wetting on_animal(int day) { return {today() + days(day), false, std::nullopt}; }

/// The rule that stands against it; empty: none does.
std::string id_of(const std::optional<Against>& against) {
    return against ? std::string(against->what.id) : std::string();
}
std::string why(const WetBook& water, const Wetting& wetting) { return id_of(water.refusal(wetting)); }

// Out on days 0, 1 and 2, back on day 3 (rules.toml, water_out_max 3): wetted again on days 1 and 2.
TEST(WetBook, paper_is_wetted_until_the_dish_must_be_back) {
    Scene scene;
    WetBook water = book(scene, {0});
    EXPECT_EQ(id_of(water.add(kept_damp(0))), "");
    ASSERT_EQ(water.kept_damp().size(), 1u);
    EXPECT_EQ(water.kept_damp().front().dry, today() + days(3));
    EXPECT_EQ(water.days_without_dish(), 3);
}

TEST(WetBook, the_dish_is_in_for_a_day_before_the_next_round) {
    Scene scene;
    WetBook water = book(scene, {0, 3});
    EXPECT_EQ(id_of(water.add(kept_damp(0))), "");
    EXPECT_EQ(water.kept_damp().front().dry, today() + days(2));
    EXPECT_EQ(id_of(water.add(kept_damp(3))), "");
}

// Where the paper is not kept damp all is dry the day after, and the dish comes back at once.
TEST(WetBook, a_dish_is_out_for_one_day_where_the_paper_may_dry) {
    Scene scene;
    WetBook water = book(scene, {0, 7});
    EXPECT_EQ(id_of(water.add({today(), true, std::nullopt})), "");
    EXPECT_EQ(id_of(water.add(on_animal(0))), "") << "the same day";
    EXPECT_EQ(id_of(water.add(on_animal(7))), "");
    EXPECT_EQ(water.days_without_dish(), 2);
}

// Five rounds a week apart on damp paper: 3 + 3 + 1 + 1 + 1 days, so that every round is held.
TEST(WetBook, each_round_to_come_keeps_a_day_of_those_left) {
    Scene scene;
    WetBook water = book(scene, {0, 7, 14, 21, 28});
    for (const int day : {0, 7, 14, 21, 28}) EXPECT_EQ(id_of(water.add(kept_damp(day))), "") << day;
    EXPECT_EQ(water.days_without_dish(), 9);  // rules.toml, dry_days
}

TEST(WetBook, nothing_is_wetted_on_the_day_the_dish_must_be_back) {
    Scene scene;
    tub(scene).water_is_out = true;
    tub(scene).water_out_since = today() - days(3);
    WetBook water = book(scene, {0});
    EXPECT_EQ(why(water, on_animal(0)), "dish_must_be_in");
    EXPECT_EQ(why(water, on_animal(1)), "");
    tub(scene).water_out_since.reset();
    EXPECT_NE(why(book(scene, {0}), on_animal(0)), "") << "out since nobody knows when";
}

TEST(WetBook, a_dish_back_for_an_hour_does_not_begin_a_new_spell) {
    Scene scene;
    tub(scene).dry_spells.push_back({today() - days(4), today() - days(1)});
    tub(scene).water_is_out = true;
    tub(scene).water_out_since = today() - days(1);
    EXPECT_NE(why(book(scene, {0}), on_animal(0)), "");
}

TEST(WetBook, days_of_the_course_on_record_count) {
    Scene scene;
    for (const int ago : {10, 20, 30}) {
        tub(scene).dry_spells.push_back({today() - days(ago), today() - days(ago - 3)});
    }
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "dish_out_too_long");
    tub(scene).dry_spells.pop_back();
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "");
}

TEST(WetBook, a_fifteenth_day_on_wet_paper_is_refused) {
    Scene scene;
    for (int ago = 1; ago <= 14; ++ago) {
        tub(scene).treatments.push_back(
            {today() - days(ago + 3), 1, {tub(scene).id, {}, records::Method::spray_bedding, mg_per_l(10)}});
    }
    EXPECT_EQ(why(book(scene, {0}), kept_damp(0)), "paper_wet_too_long");
    for (auto& given : tub(scene).treatments) given.day -= days(60);
    EXPECT_EQ(why(book(scene, {0}), kept_damp(0)), "") << "another course";
}

// What an animal went through in another enclosure counts where it lives now.

/// Anna came from the vivarium `ago` days ago; its dish has been out since `dry` days ago.
Scene moved_in(int ago, int dry) {
    Scene scene;
    scene.add_enclosure("vivarium", "room");
    records::Enclosure& old = scene.collection.enclosures.at(records::EnclosureId("vivarium"));
    old.water_is_out = true;
    old.water_out_since = today() - days(dry);
    const Day moved = today() - days(ago);
    scene.anna().stays = {{old.id, today() - days(90), 1, moved}, {tub(scene).id, moved, 2}};
    return scene;
}

Dish dish(Scene& scene) { return dish_of(scene.collection, tub(scene), inside(scene), wet_limits(tables())); }

TEST(WetBookOfWhoMoved, a_spell_without_water_goes_on_where_there_is_no_dish_either) {
    Scene scene = moved_in(1, 3);
    tub(scene).water_is_out = true;
    tub(scene).water_out_since = today() - days(1);
    EXPECT_EQ(dish(scene).since, today() - days(3));
    EXPECT_TRUE(is_due(dish(scene), today(), wet_limits(tables())));
    EXPECT_FALSE(is_overdue(dish(scene), today(), wet_limits(tables())));
    EXPECT_TRUE(is_overdue(dish(scene), today() + days(1), wet_limits(tables())));
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "dish_must_be_in");
    EXPECT_EQ(why(book(scene, {0}), on_animal(1)), "");
}

TEST(WetBookOfWhoMoved, who_comes_from_a_dry_tub_keeps_the_dish_for_a_day) {
    Scene scene = moved_in(0, 2);
    EXPECT_FALSE(dish(scene).is_out);
    EXPECT_EQ(dish(scene).last->back, today());
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "dish_must_be_in");
    EXPECT_EQ(why(book(scene, {0}), on_animal(1)), "");
}

TEST(WetBookOfWhoMoved, who_drank_that_morning_begins_a_new_spell) {
    Scene scene = moved_in(1, 0);  // the dish of the vivarium went out after it had left
    tub(scene).water_is_out = true;
    tub(scene).water_out_since = today() - days(3);
    EXPECT_EQ(dish(scene).since, today()) << "it had the dish of the vivarium yesterday";
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "");
    scene.anna().stays.clear();
    EXPECT_EQ(dish(scene).since, today() - days(3)) << "it lived here all the time";
}

TEST(WetBookOfWhoMoved, its_dry_and_damp_days_of_the_course_come_along) {
    Scene scene = moved_in(5, 0);
    records::Enclosure& old = scene.collection.enclosures.at(records::EnclosureId("vivarium"));
    for (const int ago : {10, 20, 30})
        old.dry_spells.push_back({today() - days(ago), today() - days(ago - 3)});
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "dish_out_too_long");
    old.dry_spells.clear();
    for (int ago = 6; ago <= 19; ++ago)
        old.treatments.push_back({today() - days(ago), 1, {old.id, {}, records::Method::spray_bedding, {}}});
    EXPECT_EQ(why(book(scene, {0}), kept_damp(0)), "paper_wet_too_long");
    scene.anna().stays.front().until = today() - days(10);
    scene.anna().stays.back().from = today() - days(10);
    EXPECT_EQ(why(book(scene, {0}), kept_damp(0)), "") << "it had gone by then";
}

TEST(WetBookOfWhoMoved, nobody_is_thirsty_in_an_empty_tub) {
    Scene scene;
    tub(scene).water_is_out = true;
    tub(scene).water_out_since = today() - days(9);
    EXPECT_TRUE(is_overdue(dish(scene), today(), wet_limits(tables())));
    scene.collection.animals.clear();
    EXPECT_FALSE(is_overdue(dish(scene), today(), wet_limits(tables())));
    EXPECT_TRUE(is_due(dish(scene), today(), wet_limits(tables())));
}

TEST(WetBookOfWhoMoved, those_before_it_do_not_count) {
    Scene scene = moved_in(5, 0);
    for (const int ago : {10, 20, 30})
        tub(scene).dry_spells.push_back({today() - days(ago), today() - days(ago - 3)});
    EXPECT_EQ(why(book(scene, {0}), on_animal(0)), "");
}

/// Something on record about dish and paper.
void add_any_past(records::Enclosure& place) {
    for (int ago = 40; ago > 6; ago -= *rc::gen::inRange(4, 20)) {
        const Day out = today() - days(ago);
        place.dry_spells.push_back({out, out + days(*rc::gen::inRange(1, 4))});
    }
    for (int i = *rc::gen::inRange(0, 16); i > 0; --i) {
        place.treatments.push_back({today() - days(*rc::gen::inRange(1, 65)),
                                    1,
                                    {place.id, {}, records::Method::spray_bedding, mg_per_l(10)}});
    }
    place.water_is_out = *rc::gen::arbitrary<bool>();
    if (place.water_is_out && *rc::gen::inRange(0, 5) != 0)
        place.water_out_since = today() - days(*rc::gen::inRange(0, 5));
}

TEST(WetBookProperties, what_it_takes_keeps_the_rules_told_a_second_time) {
    EXPECT_TRUE(rc::check([] {
        Scene scene;
        scene.add_enclosure("vivarium", "room");
        for (auto& [id, place] : scene.collection.enclosures) {
            if (*rc::gen::arbitrary<bool>()) add_any_past(place);
        }
        for (const char* const name : {"anna", "berta"}) {
            records::Animal& animal = scene.add_animal(name, "corn snake", "tub");
            if (*rc::gen::inRange(0, 3) == 0) continue;  // always here
            const Day moved = today() - days(*rc::gen::inRange(0, 30));
            animal.stays = {{records::EnclosureId("vivarium"), moved - days(30), 1, moved},
                            {animal.enclosure, moved, 2}};
        }
        std::vector<int> rounds;
        for (int day = 0; day < 40; day += *rc::gen::inRange(1, 12)) rounds.push_back(day);
        WetBook water = book(scene, rounds);
        plain::DaySet wet;
        plain::DaySet damp;
        for (int i = 0; i < 12; ++i) {
            const Wetting wetting{
                today() + days(*rc::gen::inRange(-1, 45)), *rc::gen::arbitrary<bool>(),
                *rc::gen::arbitrary<bool>() ? std::optional(today() + days(60)) : std::nullopt};
            const std::string refusal = why(water, wetting);
            RC_ASSERT(id_of(water.add(wetting)) == refusal);
            if (!refusal.empty()) continue;
            RC_ASSERT(wetting.day >= today());
            wet.insert(wetting.day);
            if (wetting.of_paper) damp.insert(wetting.day);
        }
        for (const KeptDamp& kept : water.kept_damp()) {
            for (Day day = kept.sprayed; day < kept.dry; day += days(1)) {
                wet.insert(day);
                damp.insert(day);
            }
        }
        const std::string wrong = plain::wrong_with(scene.collection, tub(scene), wet, damp);
        RC_LOG() << wrong;
        RC_ASSERT(wrong.empty());
    }));
}

}  // namespace
}  // namespace mitefall::safety
