#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "plan/planned.h"

// Heads gone over in each round: after the animal's own treatment, permitted, weighed, and left alone where
// nobody asked.
namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Journal;
using records::Method;

const units::Day today = planned_on;

/// A sound snake, one too light for any spray, one that is cloudy; mites with the first.
Journal den() {
    Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    for (const char* const name : {"a", "b", "c"}) {
        journal.add(records::day(1, 1), records::tub(name));
        journal.add(records::day(1, 1), records::snake((std::string("snake-") + name).c_str(), name));
    }
    journal.add(records::day(3, 1), records::Weighed{AnimalId("snake-a"), units::grams(900)});
    journal.add(records::day(3, 1), records::Weighed{AnimalId("snake-b"), units::grams(90)});
    journal.add(today, records::ShedSeen{AnimalId("snake-c"), records::ShedState::cloudy});
    journal.add(today,
                records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    return journal;
}

struct Situation : Planned {
    explicit Situation(bool heads) : Planned(den(), 8) { setting.limits.clear_heads = heads; }
    [[nodiscard]] Schedule fitted(bool heads) const {
        Course course{2, 7, {}, Scope::sighted_rooms, false};
        course.choices.clear_heads = heads;
        return Planned::fitted(course);
    }
};

std::vector<std::string> keys_of(const Round& round) {
    std::vector<std::string> keys;
    for (const ScheduledTreatment& one : round.treatments) keys.push_back(one.key());
    return keys;
}

TEST(Heads, are_gone_over_right_after_the_animal_and_not_of_one_that_is_cloudy) {
    const Situation one(true);
    const Schedule schedule = one.fitted(true);
    const std::vector<std::string> keys = keys_of(schedule.rounds.front());
    const auto spray = std::find(keys.begin(), keys.end(), "2026-03-10/animal/snake-a");
    ASSERT_NE(spray, keys.end());
    EXPECT_EQ(*std::next(spray), "2026-03-10/head/snake-a");
    EXPECT_NE(std::find(keys.begin(), keys.end(), "2026-03-10/head/snake-b"), keys.end());
    EXPECT_EQ(std::find(keys.begin(), keys.end(), "2026-03-10/head/snake-c"), keys.end());
    EXPECT_TRUE(std::any_of(schedule.left_out.begin(), schedule.left_out.end(), [](const LeftOut& row) {
        return row.method == Method::clear_head && row.animal == AnimalId("snake-c");
    }));
    EXPECT_TRUE(schedule.does.heads);
}

// In the same hold: a thing to do more for each, nobody taken out once more. Two rounds, snakes a and b; c is
// cloudy.
TEST(Heads, weigh_as_a_thing_to_do_and_not_as_one_more_handling) {
    const Situation one(true);
    const Burden with = one.fitted(true).burden;
    const Burden without = one.fitted(false).burden;
    EXPECT_EQ(with.handlings, without.handlings);
    EXPECT_GE(with.tasks, without.tasks + 4);
    EXPECT_EQ(with.on_animal, without.on_animal);
    EXPECT_TRUE(without < with);
}

TEST(Heads, are_worth_something_and_never_less_than_nothing) {
    const Situation one(true);
    const auto belief = one.belief();
    const Scorer scorer(one.setting, one.ensemble, belief, 84, branching::for_show);
    EXPECT_GT(scorer.score(one.fitted(true), 0)->clear.mean, scorer.score(one.fitted(false), 0)->clear.mean);
}

TEST(Heads, are_tried_where_somebody_is_ready_to_and_nowhere_else) {
    const auto uses = [](const PlanChoice& choice) {
        return std::any_of(choice.frontier.begin(), choice.frontier.end(),
                           [](const FrontierCourse& one) { return one.course.choices.clear_heads; });
    };
    EXPECT_TRUE(uses(Situation(true).choose()));
    EXPECT_FALSE(uses(Situation(false).choose()));
}

}  // namespace
}  // namespace mitefall::plan
