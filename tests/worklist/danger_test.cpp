#include <gtest/gtest.h>

#include "diary.h"

namespace mitefall::worklist {
namespace {

Days look_back() { return Days(static_cast<int>(units::in_days(safety::tables().time("look_back").value))); }

/// Mites in tub "a" so many days before the first page of the diary; the tub is to be treated on that page.
Danger danger_after(Days since) {
    Diary diary(one_tub());  // holds a sighting of that day
    diary.sleep(static_cast<int>(since.count()));
    diary.adopt(1, 7, {enclosure("a")}, {}, false, false);
    const auto tasks = diary.list().tasks;
    const auto spray =
        std::find_if(tasks.begin(), tasks.end(), [](const Task& t) { return t.enclosure == enclosure("a"); });
    if (spray == tasks.end()) throw std::runtime_error("nothing to do in the tub");
    return spray->danger;
}

TEST(DangerOnTheList, a_sighting_counts_for_as_long_as_tracing_looks_back) {
    EXPECT_EQ(danger_after(Days(0)), Danger::sighted);
    EXPECT_EQ(danger_after(look_back()), Danger::sighted);
    EXPECT_EQ(danger_after(look_back() + Days(1)), Danger::healthy);
}

}  // namespace
}  // namespace mitefall::worklist
