#include "safety/cupboard.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>

#include "safety/rules.h"
#include "shared/tables.h"

namespace mitefall::safety {
namespace {

using evidence::IngredientClass;
using fixtures::tables;
using mixing::StockForm;

const evidence::Ingredients& known() {
    static const evidence::Ingredients loaded = evidence::Ingredients::load_embedded().value();
    return loaded;
}

mixing::Label label(const std::vector<std::string>& lines, StockForm form = StockForm::plain) {
    mixing::Label one;
    for (const std::string& text : lines) one.lines.push_back(mixing::read_label_line(text).value());
    one.form = form;
    return one;
}

LabelRuling ruled(const std::vector<std::string>& lines, StockForm form = StockForm::plain) {
    return judge_label(label(lines, form), known(), tables());
}

Usable usable(const std::vector<std::string>& lines, StockForm form = StockForm::plain) {
    return ruled(lines, form).usable;
}

// Told a second time, by intent: what may come near an animal at all. Nothing else ever.
TEST(CupboardLabels, three_classes_alone_may_come_near_an_animal) {
    const std::set<IngredientClass> near_animals{IngredientClass::ivermectin, IngredientClass::food_oil,
                                                 IngredientClass::mild_soap};
    for (const evidence::Ingredient& one : known().all()) {
        const Usable found = usable({one.name + " 0.0005 % w/v"});
        const bool is_near = found == Usable::animal || found == Usable::animal_once_thinned;
        EXPECT_EQ(is_near, near_animals.contains(one.kind)) << one.name;
    }
}

TEST(CupboardLabels, poisons_of_the_nerves_and_vapours_are_good_for_nothing) {
    for (const evidence::Ingredient& one : known().all()) {
        const std::set<IngredientClass> poisons{
            IngredientClass::organophosphate, IngredientClass::carbamate, IngredientClass::other_nerve_poison,
            IngredientClass::phenol,          IngredientClass::vapour,    IngredientClass::pyrethroid,
            IngredientClass::essential_oil,   IngredientClass::fipronil};
        if (!poisons.contains(one.kind)) continue;
        EXPECT_EQ(usable({one.name + " 0.1 % w/v"}), Usable::nothing) << one.name;
    }
}

TEST(CupboardLabels, what_is_not_known_is_used_on_nothing) {
    const LabelRuling ruling = ruled({"permethrin 0.5 % w/v", "permetrhin 0.1 %"});
    EXPECT_EQ(ruling.usable, Usable::nothing);
    EXPECT_EQ(ruling.ingredients[1].like.front(), "permethrin");
    EXPECT_FALSE(ruling.ingredients[1].known);
    EXPECT_TRUE(ruling.cautions.empty());
    EXPECT_EQ(usable({"xqzzvwk"}), Usable::nothing);
    EXPECT_EQ(usable({}), Usable::nothing);
    EXPECT_EQ(usable({"water"}), Usable::nothing) << "no active ingredient is told";
}

// One line more never makes a bottle better, whatever it is.
RC_GTEST_PROP(CupboardLabels, one_ingredient_more_never_makes_it_better, ()) {
    const auto any_line = rc::gen::apply(
        [](std::size_t which, const std::string& amount) {
            return known().all()[which % known().all().size()].name + amount;
        },
        rc::gen::arbitrary<std::size_t>(),
        rc::gen::element<std::string>("", " 0.5 %", " 10 mg/mL", " 8 mg/L", " 2 % w/w", " 100 mg/L"));
    auto lines = *rc::gen::container<std::vector<std::string>>(2, any_line);
    const auto form = *rc::gen::element(StockForm::not_told, StockForm::plain, StockForm::pour_on,
                                        StockForm::paste, StockForm::combination);
    const LabelRuling fewer = ruled(lines, form);
    lines.push_back(*any_line);
    const LabelRuling more = ruled(lines, form);
    // No active ingredient at all is no bottle: naming one is what was missing.
    const auto& reasons = fewer.on_animal.reasons;
    const bool is_none = std::any_of(reasons.begin(), reasons.end(), [](const Reason& reason) {
        return reason.what.id == says::no_active_ingredient.kind.id;
    });
    if (is_none) return;
    RC_ASSERT(more.on_animal.ruling >= fewer.on_animal.ruling);
    RC_ASSERT(more.in_empty.ruling >= fewer.in_empty.ruling);
}

// 10 mg/mL is 10,000 mg/L: one part in 1,000 makes 10 mg/L. 10 % w/v permethrin: one in 20 makes 0.5 %.
TEST(CupboardLabels, a_stock_says_at_which_strength_it_falls) {
    const LabelRuling stock = ruled({"ivermectin 10 mg/mL", "propylene glycol"});
    EXPECT_EQ(stock.usable, Usable::animal_once_thinned);
    EXPECT_DOUBLE_EQ(stock.reckoned->strength / stock.reckoned->used_at, 1000);
    EXPECT_EQ(stock.on_animal.ruling, Ruling::never) << "as it is in the bottle";
    const LabelRuling concentrate = ruled({"permethrin 10 % w/v"});
    EXPECT_EQ(concentrate.usable, Usable::empty_once_thinned);
    EXPECT_DOUBLE_EQ(concentrate.reckoned->strength / concentrate.reckoned->used_at, 20);
    EXPECT_EQ(usable({"permethrin 0.5 % w/v"}), Usable::empty);
    EXPECT_EQ(usable({"permethrin 0.5 %"}), Usable::empty) << "near enough for a place";
    EXPECT_EQ(usable({"ivermectin 8 mg/L"}), Usable::animal);
}

TEST(CupboardLabels, ivermectin_is_for_animals_only_as_a_plain_solution_of_known_strength) {
    EXPECT_EQ(usable({"ivermectin 10 mg/mL"}, StockForm::not_told), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 5 mg/mL"}, StockForm::pour_on), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 18.7 mg/g"}, StockForm::paste), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 10 mg/mL"}, StockForm::combination), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 10 mg/mL", "clorsulon 100 mg/mL"}), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 10 mg/mL", "permethrin 0.5 % w/v"}), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin"}), Usable::nothing);
    EXPECT_EQ(usable({"ivermectin 1 %"}), Usable::nothing) << "a bare per cent is asked about";
    EXPECT_EQ(usable({"ivermectin 10 mg/mL", "excipients"}), Usable::nothing)
        << "what else is in it is not told";
}

// Nobody is told to thin a pour-on, or a mixture.
TEST(CupboardLabels, what_is_good_for_nothing_is_not_to_be_thinned) {
    for (const LabelRuling& ruling : {ruled({"ivermectin 5 mg/mL"}, StockForm::pour_on),
                                      ruled({"ivermectin 10 mg/mL", "clorsulon 100 mg/mL"}),
                                      ruled({"permethrin 10 % w/v", "dichlorvos 1 %"})}) {
        EXPECT_EQ(ruling.usable, Usable::nothing);
        for (const UseRuling* const use : {&ruling.on_animal, &ruling.in_empty}) {
            for (const Reason& reason : use->reasons) {
                EXPECT_NE(reason.remedy.id, says::mix_at_most.id);
                EXPECT_NE(reason.remedy.id, says::mix_by_label.id);
            }
        }
    }
}

LabelComparison compared(const std::vector<std::string>& a, const std::vector<std::string>& b,
                         StockForm form = StockForm::plain) {
    return compare_labels(ruled(a), StockForm::plain, ruled(b, form), form);
}

TEST(CupboardLabels, two_are_the_same_only_when_nothing_is_left_open) {
    EXPECT_EQ(compared({"permethrin 0.5 % w/v"}, {"permetrina 5 g/L", "water"}).alike, Alike::same);
    const LabelComparison stronger = compared({"permethrin 0.5 % w/v"}, {"permethrin 10 % w/v"});
    EXPECT_EQ(stronger.alike, Alike::other_strength);
    EXPECT_DOUBLE_EQ(*stronger.times, 20);
    EXPECT_EQ(compared({"permethrin"}, {"permethrin"}).alike, Alike::not_told);
    EXPECT_EQ(compared({"permethrin 0.5 %"}, {"permethrin 0.5 % w/v"}).alike, Alike::not_told);
    EXPECT_EQ(compared({"xqz 1 % w/v"}, {"xqz 1 % w/v"}).alike, Alike::not_told);
    EXPECT_EQ(compared({"ivermectin 5 mg/mL"}, {"ivermectin 5 mg/mL"}, StockForm::pour_on).alike,
              Alike::other_form);
    const LabelComparison shared = compared({"pyrethrins 0.1 %", "PBO 1 %"}, {"pyrethrins 0.1 %"});
    EXPECT_EQ(shared.alike, Alike::shared);
    EXPECT_EQ(shared.only_first, std::vector<std::string>{"piperonyl butoxide"});
    EXPECT_EQ(compared({"permethrin 0.5 %"}, {"cypermethrin 0.5 %"}).alike, Alike::different);
}

}  // namespace
}  // namespace mitefall::safety
