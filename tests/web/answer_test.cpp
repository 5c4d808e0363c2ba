#include "web/answer.h"

#include <gtest/gtest.h>

namespace mitefall::web {
namespace {

TEST(Excerpt, is_short_and_cannot_command_anything) {
    EXPECT_EQ(excerpt("Ada"), "Ada");
    EXPECT_EQ(excerpt("Größe µ"), "Größe µ");
    EXPECT_EQ(excerpt("a\x1b[2Jb\n\r\x7f"), "a\\x1b[2Jb\\x0a\\x0d\\x7f");
    EXPECT_EQ(excerpt("a\u202Eb\u2066c\u0085"), "a\\xe2\\x80\\xaeb\\xe2\\x81\\xa6c\\xc2\\x85");
    EXPECT_EQ(excerpt("\xff\xc3(\xe2\x82"), "\\xff\\xc3(\\xe2\\x82") << "no character of UTF-8";
    const std::string shown = excerpt(std::string(4'000'000, 'x'));
    EXPECT_EQ(shown, std::string(100, 'x') + "...");
    EXPECT_EQ(excerpt("ääääää", 5), "ää...") << "whole characters only";
}

// Whatever an error is made of, its answer is short.
TEST(Excerpt, is_all_an_error_tells_of_what_was_sent) {
    const std::string endless(1'000'000, 'y');
    const base::Error error{base::ErrorKind::invalid_input, endless, endless, endless, endless, endless};
    EXPECT_LT(failed("record", error).body.size(), 6'000U);
    EXPECT_LT(refusal(403, error).body.size(), 6'000U);
}

}  // namespace
}  // namespace mitefall::web
