#include "service/emptied.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "service/den.h"

// Unfed mites live 14 to 31 days as protonymphs and up to 40 to 45 as adults (docs/sources: Camin 1953
// through Kaplan 2002 and Wozniak & DeNardo 2000): an emptied enclosure is not clear within a week or two,
// and is after some months.
namespace mitefall::service {
namespace {

using records::AnimalId;
using records::EnclosureId;
class Emptied : public WithADen {
  protected:
    /// One wooden vivarium with mites, at `celsius`; `is_emptied`: its animal was moved to a tub today.
    Keeper den(const std::string& name, double celsius, bool is_emptied) {
        std::vector<DatedFact> more;
        if (is_emptied) more.push_back({today, records::AnimalMoved{AnimalId("ivy"), EnclosureId("tub")}});
        return WithADen::den(name, climate_of(celsius, celsius), std::move(more));
    }

    static EmptiedOptions wood() {
        EmptiedOptions options;
        options.enclosure = "wood";
        options.draws = 16;
        options.horizon_days = 140;
        return options;
    }
};

TEST_F(Emptied, wood_set_apart_is_not_clear_in_a_fortnight_and_is_after_twenty_weeks) {
    const auto view = den("a", 26, true).ask(now, emptied_of, wood()).value();
    EXPECT_FALSE(view.supposed);
    EXPECT_EQ(view.ways.front().how.id, emptied::left_as_it_is.id);
    ASSERT_GT(view.ways.size(), 1U);
    EXPECT_EQ(view.ways[1].how.id, emptied::set_apart.id);
    const auto& clear = view.ways[1].clear;
    ASSERT_EQ(clear.size(), view.days.size());
    ASSERT_EQ(view.days.size(), 21U);
    EXPECT_LT(clear[2].mean, 0.5);
    EXPECT_GT(clear.back().mean, 0.99);
}

TEST_F(Emptied, what_is_kept_warm_and_dry_is_sooner_and_only_sooner_ways_are_told) {
    const auto view = den("a", 24, true).ask(now, emptied_of, wood()).value();
    ASSERT_GT(view.ways.size(), 1U);
    for (std::size_t i = 1; i < view.ways.size(); ++i) {
        ASSERT_TRUE(view.ways[i].from) << view.ways[i].how.id;
        if (!view.ways.front().from) continue;
        EXPECT_LT(*view.ways[i].from, *view.ways.front().from);
    }
}

TEST_F(Emptied, one_that_is_lived_in_is_told_as_if_it_were_emptied_today) {
    const auto lived_in = den("a", 26, false).ask(now, emptied_of, wood()).value();
    const auto emptied_today = den("b", 26, true).ask(now, emptied_of, wood()).value();
    EXPECT_TRUE(lived_in.supposed);
    ASSERT_EQ(lived_in.days, emptied_today.days);
    // One tub more stands in the room: what could have come in from it differs a little.
    for (std::size_t i = 0; i < lived_in.days.size(); ++i)
        EXPECT_NEAR(lived_in.ways[1].clear[i].mean, emptied_today.ways[1].clear[i].mean, 0.05) << i;
}

TEST_F(Emptied, an_enclosure_nobody_knows_is_an_error_that_names_it) {
    EmptiedOptions options = wood();
    options.enclosure = "nowhere";
    const auto answer = den("a", 26, true).ask(now, emptied_of, options);
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().kind, base::ErrorKind::not_found);
    EXPECT_EQ(answer.error().value, "nowhere");
}

}  // namespace
}  // namespace mitefall::service
