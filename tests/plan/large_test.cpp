#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "plan/each_round.h"
#include "plan/large.h"

// What a search does otherwise in a very large collection, against the same worked out in full.
namespace mitefall::plan {
namespace {

constexpr int enclosures = 500;

TEST(LargeSearch, has_the_rungs_that_tell_most_and_each_as_worked_out_alone) {
    const Large one(enclosures);
    ASSERT_TRUE(is_large(one.setting));
    const PlanChoice choice = choose_plan(one.setting, one.ensemble, one.belief, {}).value();
    const Scorer scorer(one.setting, one.ensemble, one.belief, 84, branching::for_screening);
    std::vector<int> rungs;
    const auto ladder =
        each_round(one.setting, one.ensemble, one.belief, {}, choice, choice.recommended.course).value();
    for (const Rung& rung : ladder) {
        rungs.push_back(rung.rounds);
        Course course = choice.recommended.course;
        if (course.rounds == 1 && rung.rounds > 1) course.interval_days = usual_interval;
        course.rounds = rung.rounds;
        const auto alone = scorer.chance_of(fit(assign(course, one.setting), one.setting), 0);
        EXPECT_NEAR(rung.clear.mean, alone->clear.mean, 0.005) << rung.rounds;
        EXPECT_NEAR(rung.clear.p10, alone->clear.p10, 0.005) << rung.rounds;
    }
    for (const int rounds : {1, 2, 3, 4, 6, 8, choice.recommended.course.rounds})
        EXPECT_EQ(std::count(rungs.begin(), rungs.end(), rounds), 1) << rounds;
    EXPECT_TRUE(std::is_sorted(rungs.begin(), rungs.end()));
}

}  // namespace
}  // namespace mitefall::plan
