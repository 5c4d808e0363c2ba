#include "plan/emptied.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "plan/planned.h"
#include "plan/tubs.h"

// Wood that is emptied for the course: everybody into a tub, once.
namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EmptiedWood;
using records::EnclosureId;
using records::Journal;
using records::Material;
using records::Method;

const EmptiedWood vivarium{EnclosureId("a"), EnclosureId("tub-for-a")};

/// A snake in wood, where mites were seen, and one in a tub beside it.
Journal den(const char* kind = "corn snake", double grams = 900, bool with_tub = false) {
    Journal journal;
    const auto first = records::day(1, 1);
    journal.add(first, records::room("snakes"));
    records::EnclosureAdded wood = records::tub("a");
    wood.material = Material::porous;
    journal.add(first, wood);
    journal.add(first, records::tub("b"));
    for (const char* const where : {"a", "b"}) {
        const std::string name = std::string("snake-") + where;
        records::AnimalArrived snake = records::snake(name.c_str(), where);
        if (std::string(where) == "a") snake.taxon = kind;
        journal.add(first, snake);
        journal.add(records::day(3, 1), records::Weighed{AnimalId(name), units::grams(grams)});
    }
    if (with_tub) journal.add(planned_on, records::tub("tub-for-a"));
    journal.add(planned_on,
                records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    return journal;
}

/// The tub stands in the collection for the plan's sake, and nowhere in the case.
struct InWood {
    explicit InWood(Journal of = den(), int spare = 1) : planned(std::move(of), 16) {
        const auto& wood = collection.enclosures.at(vivarium.enclosure);
        collection.enclosures.try_emplace(
            vivarium.tub,
            records::Enclosure{vivarium.tub, "tub-for-a", wood.room, Material::sealed,
                               records::Substrate::paper, wood.climate, wood.floor, false, std::nullopt});
        setting.limits.spare_tubs = spare;
    }
    Planned planned;
    records::Collection collection = planned.collection;
    safety::Case with{collection, planned.with.tables, planned.with.survey};
    Setting setting{with, planned.known, planned.setting.exposed, planned_on, planned.setting.strength,
                    {},   {vivarium}};
    [[nodiscard]] Schedule fitted(bool emptied, int rounds = 2) const {
        Course course{rounds, 7, {true, true, false}, Scope::sighted_rooms, false};
        if (emptied) course.choices.emptied_wood = {vivarium};
        return fit(assign(course, setting), setting);
    }
    [[nodiscard]] PlanChoice choose() const {
        return choose_plan(setting, planned.ensemble, planned.belief(), {}).value();
    }
    [[nodiscard]] scenario::Scenario present() const {
        return scenario::forget_past(planned.known.scenario, planned.known.from);
    }
};

std::vector<std::string> keys_of(const Schedule& schedule) {
    std::vector<std::string> keys;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& one : round.treatments) keys.push_back(one.key());
    }
    std::sort(keys.begin(), keys.end());
    return keys;
}

TEST(EmptiedWood, is_left_once_and_treated_as_an_empty_enclosure_beside_the_tub) {
    const std::vector<std::string> as_told{
        "2026-03-10/animal/snake-a",    "2026-03-10/animal/snake-b",    "2026-03-10/bedding/a",
        "2026-03-10/bedding/b",         "2026-03-10/bedding/tub-for-a", "2026-03-10/fresh-tub/tub-for-a",
        "2026-03-10/substrate/a",       "2026-03-10/substrate/b",       "2026-03-17/animal/snake-a",
        "2026-03-17/animal/snake-b",    "2026-03-17/bedding/a",         "2026-03-17/bedding/b",
        "2026-03-17/bedding/tub-for-a", "2026-03-17/substrate/b",       "2026-03-17/substrate/tub-for-a",
    };
    const InWood one;
    const Schedule schedule = one.fitted(true);
    EXPECT_EQ(keys_of(schedule), as_told);
    EXPECT_TRUE(schedule.does.wood);
    EXPECT_FALSE(schedule.does.tubs) << "nobody gets another clean tub in the second round";
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            const bool has_snake = !scheduled.treatment.animals().empty();
            EXPECT_EQ(has_snake, scheduled.treatment.enclosure() != vivarium.enclosure) << scheduled.key();
        }
    }
}

// A tub is closed by a lid that somebody puts on (safety rules, tub_does_not_lock).
TEST(EmptiedWood, is_not_left_by_whom_the_safety_check_keeps_out_of_a_tub) {
    const InWood one(den("gaboon viper"));
    const Schedule schedule = one.fitted(true, 1);
    EXPECT_EQ(keys_of(schedule), keys_of(one.fitted(false, 1))) << "it is treated where it lives";
    EXPECT_TRUE(std::any_of(schedule.left_out.begin(), schedule.left_out.end(), [](const LeftOut& row) {
        return row.method == Method::fresh_tub && row.why.what.id == "tub_does_not_lock";
    }));
    PermitBook permits(one.setting.with);
    EXPECT_EQ(places_for_tubs(Scope::sighted_rooms, one.setting, permits),
              std::vector<EnclosureId>{EnclosureId("b")});
    for (const FrontierCourse& course : one.choose().frontier)
        EXPECT_TRUE(course.course.choices.emptied_wood.empty());
}

TEST(EmptiedWood, is_one_place_more_and_one_move_in_what_the_schedule_does) {
    const InWood one;
    const scenario::Scenario before = one.present();
    const scenario::Scenario as_it_is = apply(one.fitted(false), one.setting, before);
    EXPECT_EQ(as_it_is.places.size(), before.places.size());
    const scenario::Scenario after = apply(one.fitted(true), one.setting, before);
    ASSERT_TRUE(scenario::check_scenario(after)) << scenario::check_scenario(after).error().message();
    ASSERT_EQ(after.places.size(), before.places.size() + 1);
    const scenario::PlaceIndex wood = one.planned.known.enclosures.at(vivarium.enclosure);
    const scenario::PlaceIndex tub = before.places.size();
    EXPECT_EQ(after.places[tub].material, Material::sealed);
    EXPECT_EQ(after.places[tub].room, after.places[wood].room);
    const auto at_end = scenario::animals_at(after, 1e6);
    EXPECT_EQ(at_end[wood], 0);
    EXPECT_EQ(at_end[tub], 1);
    const auto moves = std::count_if(after.events.begin(), after.events.end(), [&](const auto& event) {
        return std::holds_alternative<scenario::MoveAnimal>(event.what) &&
               event.time == one.planned.known.time_of(planned_on);
    });
    EXPECT_EQ(moves, 1);
}

// Said twice, once by the plan and once by the records: the same day, the same places, the same chance.
TEST(EmptiedWood, does_the_same_as_the_move_on_record) {
    const InWood planned(den("corn snake", 900, true));
    Journal moved = den("corn snake", 900, true);
    moved.add(planned_on, records::AnimalMoved{AnimalId("snake-a"), vivarium.tub});
    const Planned recorded(std::move(moved), 16);
    const auto chance = [](const Setting& setting, const mites::Ensemble& ensemble,
                           const belief::Belief& belief) {
        Course course{3, 7, {false, false, false}, Scope::sighted_rooms, false};
        course.choices.emptied_wood = {vivarium};
        const Scorer scorer(setting, ensemble, belief, 84, branching::for_show);
        return scorer.score(fit(assign(course, setting), setting), 0)->clear.mean;
    };
    EXPECT_NEAR(chance(planned.setting, planned.planned.ensemble, planned.planned.belief()),
                chance(recorded.setting, recorded.ensemble, recorded.belief()), 1e-6);
}

TEST(EmptiedWood, never_makes_a_course_worse) {
    for (const double grams : {90.0, 900.0}) {
        const InWood one(den("corn snake", grams));
        const auto belief = one.planned.belief();
        const Scorer scorer(one.setting, one.planned.ensemble, belief, 84, branching::for_show);
        for (const int rounds : {1, 3, 6}) {
            const auto left = scorer.score(one.fitted(false, rounds), 0)->clear;
            const auto emptied = scorer.score(one.fitted(true, rounds), 0)->clear;
            EXPECT_GT(emptied.mean, left.mean) << grams << " g, " << rounds;
            EXPECT_GE(emptied.p10, left.p10) << grams << " g, " << rounds;
        }
    }
}

TEST(EmptiedWood, is_one_of_the_spare_tubs_a_plan_takes) {
    for (const int spare : {0, 1, 2}) {
        const PlanChoice choice = InWood(den("corn snake", 90), spare).choose();
        for (const FrontierCourse& one : choice.frontier)
            EXPECT_LE(tubs_of(one.course.choices), static_cast<std::size_t>(spare));
        // One tub helps about as much in place of the wood as fresh beside it; with two, both are done.
        const auto& recommended = choice.recommended.course.choices;
        EXPECT_EQ(tubs_of(recommended), static_cast<std::size_t>(spare));
        EXPECT_TRUE(spare < 2 || recommended.emptied_wood.size() == 1) << spare;
    }
}

}  // namespace
}  // namespace mitefall::plan
