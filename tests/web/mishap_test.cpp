#include "web/mishap.h"

#include <gtest/gtest.h>

namespace mitefall::web {
namespace {

TEST(Mishap, the_first_entry_that_breaks_the_records_is_found) {
    for (std::size_t entries = 1; entries <= 20; ++entries) {
        EXPECT_FALSE(first_unreadable(entries, [](std::size_t) { return true; }));
        for (std::size_t bad = 0; bad < entries; ++bad)
            EXPECT_EQ(first_unreadable(entries, [&](std::size_t count) { return count <= bad; }), bad);
    }
    EXPECT_FALSE(first_unreadable(0, [](std::size_t) { return true; }));
}

}  // namespace
}  // namespace mitefall::web
