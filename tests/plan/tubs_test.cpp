#include "plan/tubs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "plan/planned.h"

// Clean tubs in each round: whose they are, that each is permitted, and what they are worth.
namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Journal;
using records::Method;

const units::Day today = planned_on;

struct Snake {
    const char* tub;
    double grams;
    records::Material material = records::Material::sealed;
};

/// A snake in each, mites seen in one.
Journal den(const std::vector<Snake>& snakes, const char* sighted) {
    Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    for (const Snake& snake : snakes) {
        const std::string name = std::string("snake-") + snake.tub;
        records::EnclosureAdded tub = records::tub(snake.tub);
        tub.material = snake.material;
        journal.add(records::day(1, 1), tub);
        journal.add(records::day(1, 1), records::snake(name.c_str(), snake.tub));
        journal.add(records::day(3, 1), records::Weighed{AnimalId(name), units::grams(snake.grams)});
    }
    journal.add(today, records::Sighted{EnclosureId(sighted), records::SeenCount::few,
                                        records::SeenWhere::on_animal});
    return journal;
}

/// Two grown ones and a hatchling too light for any spray (safety rules, weight).
Journal with_hatchling(const char* sighted) { return den({{"a", 900}, {"b", 900}, {"c", 90}}, sighted); }

struct Situation : Planned {
    Situation(Journal of, int spare) : Planned(std::move(of), 16) { setting.limits.spare_tubs = spare; }
    [[nodiscard]] Schedule fitted(const std::vector<EnclosureId>& tubs, int rounds = 3) const {
        return Planned::fitted({rounds, 7, {true, true, false, tubs}, Scope::sighted_rooms, false});
    }
};

std::vector<std::string> keys_of(const Schedule& schedule, Method method) {
    std::vector<std::string> keys;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& one : round.treatments) {
            if (one.treatment.method() == method) keys.push_back(one.key());
        }
    }
    return keys;
}

TEST(CleanTubs, are_a_task_of_each_round_in_place_of_new_paper) {
    const Situation one(with_hatchling("c"), 1);
    const Schedule schedule = one.fitted({EnclosureId("c")}, 2);
    EXPECT_EQ(keys_of(schedule, Method::fresh_tub),
              (std::vector<std::string>{"2026-03-10/fresh-tub/c", "2026-03-17/fresh-tub/c"}));
    const auto papers = keys_of(schedule, Method::change_substrate);
    EXPECT_EQ(papers.size(), 4U) << "the two others, in both rounds";
    EXPECT_EQ(std::count(papers.begin(), papers.end(), "2026-03-10/substrate/c"), 0);
    EXPECT_TRUE(schedule.does.tubs);
}

// The move and the washing, where new paper is one thing to do.
TEST(CleanTubs, are_two_things_to_do) {
    const Situation one(with_hatchling("c"), 1);
    const int with_tub = one.fitted({EnclosureId("c")}).burden.tasks;
    EXPECT_EQ(with_tub - one.fitted({}).burden.tasks, 3) << "one more in each round";
}

TEST(CleanTubs, are_not_given_for_wood_which_gets_new_paper) {
    const Situation one(den({{"a", 900, records::Material::porous}, {"b", 900}}, "a"), 1);
    const Schedule schedule = one.fitted({EnclosureId("a")}, 1);
    EXPECT_TRUE(keys_of(schedule, Method::fresh_tub).empty());
    EXPECT_EQ(keys_of(schedule, Method::change_substrate).size(), 2U);
    const auto why = std::find_if(schedule.left_out.begin(), schedule.left_out.end(),
                                  [](const LeftOut& row) { return row.method == Method::fresh_tub; });
    ASSERT_NE(why, schedule.left_out.end());
    EXPECT_EQ(why->why.what.id, "wood_keeps_mites");
    PermitBook permits(one.setting.with);
    EXPECT_EQ(places_for_tubs(Scope::sighted_rooms, one.setting, permits),
              std::vector<EnclosureId>{EnclosureId("b")});
}

TEST(CleanTubs, are_tried_first_where_mites_were_seen_and_then_for_those_not_sprayed) {
    const Situation one(with_hatchling("a"), 1);
    PermitBook permits(one.setting.with);
    EXPECT_EQ(places_for_tubs(Scope::sighted_rooms, one.setting, permits),
              (std::vector<EnclosureId>{EnclosureId("a"), EnclosureId("b"), EnclosureId("c")}))
        << "a: seen; b: a contact; c: neither";
    Situation other(with_hatchling("a"), 1);
    other.setting.exposed.clear();
    PermitBook anew(other.setting.with);
    EXPECT_EQ(places_for_tubs(Scope::sighted_rooms, other.setting, anew)[1], EnclosureId("c"));
}

// The bar of issue 13: a permitted course of at least 95 % without spraying the hatchling.
TEST(CleanTubs, clear_a_collection_with_a_hatchling_too_light_for_any_spray) {
    for (const char* const sighted : {"a", "c"}) {
        const PlanChoice without = Situation(with_hatchling(sighted), 0).choose();
        const Situation one(with_hatchling(sighted), 1);
        const PlanChoice with = one.choose();
        EXPECT_LT(without.recommended.clear.mean, 0.95) << sighted;
        EXPECT_GE(with.recommended.clear.mean, 0.95) << sighted;
        EXPECT_EQ(with.recommended.course.choices.fresh_tubs.size(), 1U) << sighted;
        for (const Round& round : with.recommended.schedule.rounds) {
            for (const ScheduledTreatment& scheduled : round.treatments) {
                const auto& animals = scheduled.treatment.animals();
                const bool is_hatchling =
                    std::find(animals.begin(), animals.end(), AnimalId("snake-c")) != animals.end();
                EXPECT_FALSE(is_hatchling && records::row_of(scheduled.treatment.method()).is_spray)
                    << scheduled.key();
            }
        }
    }
}

TEST(CleanTubs, of_a_plan_are_never_more_than_are_spare) {
    for (const int spare : {0, 1, 2, 9}) {
        const PlanChoice choice = Situation(with_hatchling("c"), spare).choose();
        const auto holds = [&](const Course& course) {
            const auto used = static_cast<int>(course.choices.fresh_tubs.size());
            return used <= spare && course.rounds <= most_rounds;
        };
        for (const FrontierCourse& one : choice.frontier) EXPECT_TRUE(holds(one.course)) << spare;
        EXPECT_TRUE(holds(choice.recommended.course)) << spare;
    }
}

TEST(CleanTubs, never_make_a_course_worse) {
    const Situation one(with_hatchling("a"), 3);
    const auto belief = one.belief();
    const Scorer scorer(one.setting, one.ensemble, belief, 84, branching::for_show);
    std::vector<EnclosureId> tubs;
    double before = scorer.score(one.fitted({}), 0)->clear.mean;
    for (const char* const next : {"a", "b", "c"}) {
        tubs.emplace_back(next);
        const double after = scorer.score(one.fitted(tubs), 0)->clear.mean;
        EXPECT_GT(after, before) << next;
        before = after;
    }
}

}  // namespace
}  // namespace mitefall::plan
