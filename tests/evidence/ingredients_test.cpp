#include "evidence/ingredients.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

namespace mitefall::evidence {
namespace {

const Ingredients& known() {
    static const Ingredients loaded = Ingredients::load_embedded().value();
    return loaded;
}

base::Result<Ingredients> load(const std::string& text) {
    const std::vector<TableText> files{{"ingredients.toml", text}};
    return Ingredients::load(files);
}

TEST(Ingredients, are_found_however_they_are_spaced_and_in_any_case) {
    for (const char* const text :
         {"piperonyl butoxide", "Piperonyl-Butoxide", " PIPERONYL  BUTOXIDE", "PBO"}) {
        ASSERT_NE(known().find(text), nullptr) << text;
        EXPECT_EQ(known().find(text)->kind, IngredientClass::synergist) << text;
    }
}

// One letter makes another substance: permethrin and cypermethrin, ivermectin and avermectin.
TEST(Ingredients, a_slip_of_the_pen_is_suggested_and_never_decided_by) {
    EXPECT_EQ(known().find("permetrhin"), nullptr);
    EXPECT_EQ(known().suggest("permetrhin").front(), "permethrin");
    EXPECT_LE(known().suggest("methrin").size(), 3U);
    EXPECT_TRUE(known().suggest("").empty());
    EXPECT_EQ(known().find("avermectin")->kind, IngredientClass::macrocyclic_lactone);
    EXPECT_EQ(known().find("cypermethrin")->kind, IngredientClass::pyrethroid);
}

TEST(Ingredients, every_class_has_an_ingredient_and_a_text_of_its_own) {
    std::set<IngredientClass> used;
    for (const Ingredient& one : known().all()) used.insert(one.kind);
    std::set<std::string_view> texts;
    for (const IngredientClass kind : base::all_of<IngredientClass>()) {
        EXPECT_TRUE(used.contains(kind)) << to_text(kind);
        EXPECT_TRUE(texts.insert(to_text(kind)).second) << to_text(kind);
        EXPECT_EQ(base::from_text<IngredientClass>(to_text(kind)), kind);
    }
    EXPECT_FALSE(base::from_text<IngredientClass>("harmless"));
}

TEST(Ingredients, a_damaged_table_says_where) {
    const auto where = [](const std::string& text) { return load(text).error().where; };
    EXPECT_EQ(where("[[ingredient]]\nname = \"x\"\nclass = \"harmless\"\n"), "ingredients.toml:3: class");
    EXPECT_EQ(where("[[ingredient]]\nclass = \"oil\"\n"), "ingredients.toml:1: name");
    EXPECT_EQ(where("[[ingredient]]\nname = \"x\"\nclass = \"dust\"\nsafe = true\n"),
              "ingredients.toml:4: safe");
    EXPECT_EQ(where("[[ingredient]]\nname = \"x\"\nclass = \"dust\"\n[[ingredient]]\nname = \"X\"\nclass = "
                    "\"phenol\"\n"),
              "ingredients.toml:4: name")
        << "one name is one thing";
    EXPECT_EQ(where("[brand]\n"), "ingredients.toml:1: brand");
}

}  // namespace
}  // namespace mitefall::evidence
