#pragma once

#include "questions/option.h"
#include "service/cupboard.h"

namespace mitefall::questions {

/// One label or two.
struct CupboardOptions {
    std::vector<std::string> ingredients, other_ingredients;
    std::string form, pack, price, other_form, other_pack, other_price;

    [[nodiscard]] service::CupboardQuestion question() const {
        return {{ingredients, form, pack, price}, {other_ingredients, other_form, other_pack, other_price}};
    }
};

[[nodiscard]] inline Question<CupboardOptions> cupboard() {
    using O = CupboardOptions;
    return {
        "cupboard",
        "What a bottle in the cupboard may be used on, by the ingredients on its label",
        {texts<O>({"ingredient", "--ingredient"}, &O::ingredients,
                  "One ingredient as the label has it, with its strength: \"permethrin 0.5 %\""),
         text<O>(
             {"is", "--is"}, &O::form,
             "What it is: plain (a solution or spray), pour-on, paste or combination (with another drug)"),
         text<O>({"pack", "--pack"}, &O::pack, "How much is in it, like \"500 mL\""),
         text<O>({"price", "--price"}, &O::price, "What it costs, like \"12.90 EUR\""),
         texts<O>({"or_ingredient", "--or-ingredient"}, &O::other_ingredients,
                  "The same of a second label: are the two the same?"),
         text<O>({"or_is", "--or-is"}, &O::other_form, "What the second is"),
         text<O>({"or_pack", "--or-pack"}, &O::other_pack, "How much is in the second"),
         text<O>({"or_price", "--or-price"}, &O::other_price, "What the second costs")}};
}

}  // namespace mitefall::questions
