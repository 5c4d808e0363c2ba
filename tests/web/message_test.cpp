#include "web/message.h"

#include <gtest/gtest.h>

namespace mitefall::web {
namespace {

// RFC 3986, section 2.1 (percent-encoding); WHATWG URL, 5.1 (application/x-www-form-urlencoded parsing).
TEST(Target, is_decoded_once) {
    const auto target = read_target("/api/mix?batch=1+L&target=10%20mg%2FL&batch=2%2BL&empty=&bare");
    ASSERT_TRUE(target);
    EXPECT_EQ(target->path, "/api/mix");
    const Fields expected{
        {"batch", "1 L"}, {"target", "10 mg/L"}, {"batch", "2+L"}, {"empty", ""}, {"bare", ""}};
    EXPECT_EQ(target->query, expected);
    EXPECT_EQ(find_all(target->query, "batch"), (std::vector<std::string>{"1 L", "2+L"}));
    EXPECT_EQ(find(target->query, "batch"), "1 L");
    EXPECT_FALSE(find(target->query, "other"));
    EXPECT_EQ(read_target("/%2541")->path, "/%41") << "decoded once only";
    EXPECT_EQ(read_target("/a+b")->path, "/a+b") << "a plus is a space in a query only";
}

TEST(Target, that_is_none_is_refused) {
    for (const char* const text :
         {"", "api", "http://other.example/", "*", "/%", "/%4", "/%zz", "/%00", "/a?b=%", "/a?%00=b", "/%-1"})
        EXPECT_FALSE(read_target(text)) << text;
}

}  // namespace
}  // namespace mitefall::web
