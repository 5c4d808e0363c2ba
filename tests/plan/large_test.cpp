#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "plan/search.h"
#include "safety/scene.h"
#include "shared/large_collection.h"

// What a search does otherwise in a very large collection, against the same worked out in full.
namespace mitefall::plan {
namespace {

constexpr int enclosures = 500;
constexpr std::size_t draws = 32;

struct Large {
    LargeCollection large{enclosures};
    records::Collection collection = records::collection_on(large.journal(), large_today);
    safety::Case with = safety::prepare(collection, safety::tables(), safety::taxa());
    scenario::RecordedCase known =
        scenario::case_from_records(large.journal(), large_today, units::days_long(60),
                                    mites::fixed_parameters(safety::tables()))
            .value();
    mites::Ensemble ensemble = mites::draw_parameters(safety::tables(), draws, 1);
    belief::Belief belief =
        belief::believe_records(known, ensemble, belief::introduction_prior(safety::tables()), 1);
    Setting setting{with, known, {}, large_today, units::milligrams_per_litre(10)};
};

TEST(LargeSearch, has_the_rungs_that_tell_most_and_each_as_worked_out_alone) {
    const Large one;
    ASSERT_TRUE(is_large(one.setting));
    const PlanChoice choice = choose_plan(one.setting, one.ensemble, one.belief, {}).value();
    const Scorer scorer(one.setting, one.ensemble, one.belief, 84, branching::for_screening);
    std::vector<int> rungs;
    for (const Rung& rung : choice.ladder) {
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
