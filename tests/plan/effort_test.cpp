#include "plan/effort.h"

#include <gtest/gtest.h>

#include "plan/planned.h"

namespace mitefall::plan {
namespace {

using records::AnimalId;
using records::EnclosureId;

records::Journal two_tubs() {
    records::Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    for (const char* const name : {"a", "b"}) {
        journal.add(records::day(1, 1), records::tub(name));
        journal.add(records::day(1, 1), records::snake((std::string("snake-") + name).c_str(), name));
        journal.add(records::day(3, 1),
                    records::Weighed{AnimalId(std::string("snake-") + name), units::grams(900)});
    }
    journal.add(planned_on,
                records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    return journal;
}

double minutes(units::TimeSpan span) { return units::in_days(span) * 24 * 60; }

// By hand, with the rows of data/evidence/detection.toml: two soaks, two beddings and two papers are six
// things of 6 minutes; the soaks, 45 minutes each, take 39 more side by side and 78 more one after the other.
TEST(Effort, of_soaks_side_by_side_and_one_by_one) {
    const Planned den(two_tubs(), 8);
    Course course{2, 7, {true, false, true, {}}, Scope::sighted_rooms, false};
    const Schedule schedule = den.fitted(course);
    ASSERT_EQ(schedule.rounds.size(), 2U);
    ASSERT_EQ(schedule.rounds.front().treatments.size(), 6U);
    const Effort effort = effort_of(schedule, den.with.tables);
    EXPECT_EQ(effort.days, 2);
    EXPECT_NEAR(minutes(effort.longest), 6 * 6 + 39, 1e-9);
    EXPECT_NEAR(minutes(effort.one_by_one), 6 * 6 + 78, 1e-9);
    EXPECT_NEAR(minutes(effort.all), 2 * (6 * 6 + 39), 1e-9);
}

TEST(Effort, of_a_course_that_sprays_is_six_minutes_for_each_thing) {
    const Planned den(two_tubs(), 8);
    const Schedule schedule = den.fitted({1, 7, {true, false, false, {}}, Scope::sighted_rooms, false});
    const Effort effort = effort_of(schedule, den.with.tables);
    EXPECT_NEAR(minutes(effort.longest), 6.0 * static_cast<double>(schedule.rounds.front().treatments.size()),
                1e-9);
    EXPECT_NEAR(minutes(effort.one_by_one), minutes(effort.longest), 1e-9);
}

}  // namespace
}  // namespace mitefall::plan
