#include "mixing/stock_form.h"

namespace mitefall::mixing {
namespace {

const char* const option = "--stock-is";
const char* const choices = "plain, pour-on, paste or combination";

std::string_view why_not(StockForm form) {
    switch (form) {
        case StockForm::not_told:
        case StockForm::plain: return {};
        case StockForm::pour_on:
            return "a pour-on is made to carry its drug through skin: no spray is made from it";
        case StockForm::paste:
            return "a paste cannot be measured or spread evenly in water: no spray is made from it";
        case StockForm::combination:
            return "a combination brings another drug with it, whose dose nobody has chosen: no spray is "
                   "made from it";
    }
    return {};
}

base::Error refused(StockForm form) {
    return {base::ErrorKind::refused,   std::string(why_not(form)),
            std::string(to_text(form)), "a plain solution with ivermectin as its only drug",
            "ask a veterinarian",       option};
}

}  // namespace

base::Result<StockForm> find_stock_form(std::string_view text) {
    if (const auto form = base::from_text<StockForm>(text)) return *form;
    base::Error unknown = base::invalid("there is no such form of stock", std::string(text), choices,
                                        "read the label; if in doubt ask a veterinarian");
    unknown.where = option;
    return base::fail(unknown);
}

base::Result<StockForm> read_stock_form(std::string_view text) {
    const auto form = find_stock_form(text);
    if (form && !why_not(*form).empty()) return base::fail(refused(*form));
    return form;
}

base::Error ask_stock_form() {
    base::Error error = base::invalid(
        "what is in the bottle? No recipe is given before that is known", "", choices,
        "read the label: say plain only if ivermectin is its only drug and it is a clear solution; pour-ons, "
        "pastes and combinations with other drugs are for a veterinarian");
    error.where = option;
    return error;
}

}  // namespace mitefall::mixing
