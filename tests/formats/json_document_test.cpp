#include "formats/json/document.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace mitefall::formats {
namespace {

std::string object_of(int keys) {
    std::string text = "{";
    for (int i = 0; i < keys; ++i) text += fmt::format("{}\"k{}\":1", i == 0 ? "" : ",", i);
    return text + "}";
}

std::string list_of(int values) {
    std::string text = "[1";
    for (int i = 1; i < values; ++i) text += ",1";
    return text + "]";
}

TEST(JsonDocument, bounds_keys_values_and_levels) {
    const DocumentLimits limits{1000, 4, 10, 20};
    EXPECT_TRUE(read_document(object_of(10), limits));
    const auto keys = read_document(R"({"a": [1, )" + object_of(11) + "]}", limits);
    ASSERT_FALSE(keys);
    EXPECT_NE(keys.error().limit.find("10 keys"), std::string::npos);
    EXPECT_EQ(keys.error().where, "/a/1/k10");
    EXPECT_TRUE(read_document(list_of(19), limits)) << "the list is a value itself";
    const auto values = read_document(list_of(20), limits);
    ASSERT_FALSE(values);
    EXPECT_NE(values.error().limit.find("20 values"), std::string::npos);
    EXPECT_TRUE(read_document("[[[[]]]]", limits));
    const auto deep = read_document("[[[[[]]]]]", limits);
    ASSERT_FALSE(deep);
    EXPECT_NE(deep.error().limit.find("4 levels"), std::string::npos);
    EXPECT_FALSE(read_document(std::string(1001, ' '), limits));
}

TEST(JsonDocument, says_little_of_a_long_key) {
    const std::string key(100'000, 'k');
    const auto twice = read_document("{\"" + key + "\":1,\"" + key + "\":2}", {});
    ASSERT_FALSE(twice);
    EXPECT_NE(twice.error().what.find("twice"), std::string::npos);
    EXPECT_LT(twice.error().value.size(), 100U);
}

}  // namespace
}  // namespace mitefall::formats
