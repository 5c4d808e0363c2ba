#include "worklist/supplies.h"

#include <gtest/gtest.h>

#include <map>

#include "plan/stage.h"

namespace mitefall::worklist {
namespace {

using plan::Scope;
using plan::Stage;
using safety::Scene;

std::map<SupplyKind, Supply> needed_for(const plan::Course& course, const Stage& stage) {
    std::map<SupplyKind, Supply> all;
    const auto schedule = plan::fit(plan::assign(course, stage.setting), stage.setting);
    for (const Supply& supply : supplies_for(schedule, stage.setting)) all[supply.what] = supply;
    return all;
}

// Counted by hand: one enclosure of 2000 cm2 with one snake, rounds on days 0 and 7, paper changed in each:
// two pairs of gloves, two floors of 2000 cm2, two bags; one bottle and one syringe for the spray.
TEST(Supplies, are_counted_from_the_tasks_of_the_course) {
    const Stage stage{Scene()};
    const auto all = needed_for({2, 7, {true, false}, Scope::sighted}, stage);
    EXPECT_EQ(all.at(SupplyKind::gloves).count, 2);
    EXPECT_EQ(all.at(SupplyKind::paper).count, 2);
    EXPECT_DOUBLE_EQ(units::in_square_centimetres(all.at(SupplyKind::paper).area), 4000);
    EXPECT_EQ(all.at(SupplyKind::bags).count, 2);
    EXPECT_EQ(all.at(SupplyKind::spray_bottle).count, 1);
    EXPECT_EQ(all.at(SupplyKind::syringe).count, 1);
    EXPECT_FALSE(all.contains(SupplyKind::soak_tub));
}

TEST(Supplies, need_nothing_to_spray_with_where_nothing_is_sprayed) {
    const Stage stage{Scene()};
    records::CourseChoices choices{false, false, true};
    choices.without_spray = true;
    const auto all = needed_for({2, 7, choices, Scope::sighted}, stage);
    EXPECT_EQ(all.at(SupplyKind::soak_tub).count, 1);
    EXPECT_FALSE(all.contains(SupplyKind::spray_bottle));
    EXPECT_FALSE(all.contains(SupplyKind::syringe));
    EXPECT_FALSE(all.contains(SupplyKind::paper));
}

}  // namespace
}  // namespace mitefall::worklist
