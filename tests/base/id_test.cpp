#include "base/id.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <vector>

namespace mitefall::base {
namespace {

using Name = Id<struct Anything>;

TEST(Id, order_is_that_of_people_who_count) {
    std::vector<Name> names;
    for (const char* const text : {"tub-10", "tub-9", "tub-2", "rack", "tub-02", "tub-1b", "tub-1", "tub-1a"})
        names.emplace_back(text);
    std::sort(names.begin(), names.end());
    std::vector<std::string> texts;
    for (const Name& name : names) texts.push_back(name.text());
    EXPECT_EQ(texts, (std::vector<std::string>{"rack", "tub-1", "tub-1a", "tub-1b", "tub-02", "tub-2",
                                               "tub-9", "tub-10"}));
}

/// Short texts of few letters, zeros among them, so that like pieces are frequent.
std::string any_text() { return *rc::gen::container<std::string>(rc::gen::elementOf(std::string("a-0012"))); }

// What a sorted map relies on: of any three, no circle; equal only if the same.
TEST(Id, order_is_total) {
    EXPECT_TRUE(rc::check([] {
        const Name a(any_text()), b(any_text()), c(any_text());
        RC_ASSERT(((a <=> b) == std::strong_ordering::equal) == (a.text() == b.text()));
        RC_ASSERT((a < b) == (b > a));
        if (a < b && b < c) RC_ASSERT(a < c);
    }));
}

}  // namespace
}  // namespace mitefall::base
