#include "records/method.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "base/contract.h"
#include "records/task_key.h"

namespace mitefall::records {
namespace {

template <class E>
class ClosedChoice : public ::testing::Test {};
using Vocabularies = ::testing::Types<Material, Substrate, ShedState, Condition, SeenCount, SeenWhere,
                                      CheckMethod, Method, TaskPart>;
TYPED_TEST_SUITE(ClosedChoice, Vocabularies);

// The enumerations count up from 0.
TYPED_TEST(ClosedChoice, every_value_of_the_enumeration_has_a_word_and_no_other) {
    constexpr auto all = all_of<TypeParam>();
    for (std::size_t i = 0; i < all.size(); ++i) EXPECT_EQ(static_cast<std::size_t>(all[i]), i);
    EXPECT_THROW(std::ignore = to_text(static_cast<TypeParam>(all.size())), base::ContractViolation);
}

TYPED_TEST(ClosedChoice, every_value_has_its_own_text_and_is_found_by_it) {
    std::set<std::string_view> texts;
    std::string list;
    for (const TypeParam value : all_of<TypeParam>()) {
        const std::string_view text = to_text(value);
        EXPECT_TRUE(texts.insert(text).second) << text;
        ASSERT_TRUE(from_text<TypeParam>(text)) << text;
        EXPECT_EQ(*from_text<TypeParam>(text), value) << text;
        list += (list.empty() ? "" : ", ") + std::string(text);
    }
    EXPECT_GE(texts.size(), 2U);
    EXPECT_EQ(list_texts<TypeParam>(), list);
}

TYPED_TEST(ClosedChoice, other_texts_have_no_value) {
    for (const char* const text : {"", " ", "nothing-like-it", "0"})
        EXPECT_FALSE(from_text<TypeParam>(text)) << text;
}

template <class E>
bool begins(std::string_view published) {
    return list_texts<E>().starts_with(published);
}

// Part of the file format: without one of them old files are unreadable. New ones come after them, but for
// methods, which are told beside those they are like.
TEST(VocabularyTexts, published_texts_stay) {
    EXPECT_TRUE(begins<Material>("sealed, porous"));
    EXPECT_TRUE(begins<Substrate>("paper, loose, none"));
    EXPECT_TRUE(begins<ShedState>("cloudy, shed, clear"));
    EXPECT_TRUE(begins<Condition>("sick, thin, dehydrated, neonate, gravid, neurological, reacted"));
    EXPECT_TRUE(begins<SeenCount>("none, 1, 2-10, 11-50, more"));
    EXPECT_TRUE(begins<SeenWhere>("on-animal, in-water, on-hands, on-paper"));
    EXPECT_TRUE(begins<CheckMethod>("look-over, soak, wipe, paper-trap"));
    for (const char* const method :
         {"spray-animal", "spray-bedding", "soak", "wipe", "change-substrate", "treat-room",
          "permethrin-empty", "fipronil-wipe", "oral-afoxolaner", "oral-fluralaner", "injected-ivermectin",
          "oil-wipe", "soap-wash", "heat-objects", "freeze-objects", "desiccant-dust", "predatory-mites",
          "fresh-tub", "clear-head"})
        EXPECT_TRUE(from_text<Method>(method)) << method;
    for (const char* const part : {"animal", "substrate", "bedding", "room", "redampen", "water-out",
                                   "water-back", "drink", "check", "mix", "hygiene"})
        EXPECT_TRUE(from_text<TaskPart>(part)) << part;
}

TEST(VocabularyTexts, every_method_is_described_for_people) {
    std::set<std::string_view> descriptions;
    for (const Method method : all_of<Method>()) {
        EXPECT_GT(describe(method).size(), 10U);
        EXPECT_TRUE(descriptions.insert(describe(method)).second) << describe(method);
    }
    EXPECT_EQ(describe(Method::spray_animal), "ivermectin spray on the animal");
}

TEST(Methods, what_a_course_may_be_made_of_kills_and_needs_no_veterinarian) {
    for (const MethodRow& row : method_rows) {
        EXPECT_TRUE(!row.is_planned || (row.kills.any() && row.shelf == Shelf::usual)) << row.key;
        EXPECT_TRUE(row.kills.days_in_blood.empty() || !row.kills.on_animal.sealed.empty()) << row.key;
        EXPECT_EQ(row.kills.on_animal.sealed.empty(), row.kills.on_animal.porous.empty()) << row.key;
        EXPECT_EQ(row.kills.nest.sealed.empty(), row.kills.nest.porous.empty()) << row.key;
        EXPECT_EQ(row.kills.eggs.sealed.empty(), row.kills.eggs.porous.empty()) << row.key;
    }
}

}  // namespace
}  // namespace mitefall::records
